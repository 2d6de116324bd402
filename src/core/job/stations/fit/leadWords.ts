/** Leads and pins in words, and where the pins of a cartridge lie. */
import type { Lead } from '../../../advise/wiring/leads.ts';
import { type PinPlace, pinDrawing } from '../../../advise/wiring.ts';
import type { PinsLie } from './fitData.ts';

export const leadRoles: Readonly<Record<Lead, string>> = {
  white: 'left signal',
  blue: 'left return',
  red: 'right signal',
  green: 'right return',
};

/** The pins as they lie on this cartridge, seen from behind: mirrored where its maker puts them otherwise. */
export function placesFor(lie: PinsLie): readonly PinPlace[] {
  const x = lie === 'sides' || lie === 'both' ? -1 : 1;
  const y = lie === 'rows' || lie === 'both' ? -1 : 1;
  return pinDrawing.places.map((place) => ({ ...place, xMm: place.xMm * x, yMm: place.yMm * y }));
}

/** "upper left" of the drawing */
export const placeWords = ({ xMm, yMm }: PinPlace): string =>
  `${yMm > 0 ? 'upper' : 'lower'} ${xMm < 0 ? 'left' : 'right'}`;
