/**
 * What Fit keeps with the job, as it was typed.
 *
 * Under the station `fit`:
 *
 *   leads     {white: 'left+', blue: null, …}: the pin that each lead sits on; null: on none; not there: not looked at yet
 *   pinsLie   how the pins of this cartridge lie against the drawing
 *   stack     {headshell: '2,5', …}: thicknesses of what the screw passes, over those of the parts picked at Match
 *   mounting  `through-holes` or `tapped`, over the cartridge's
 *   massBy, weighed, scale, set: how that mass was found
 *   steps     ids of the steps of the work that are ticked
 */

import type { HardwareMaterial } from '../../../advise/screws.ts';
import { type Lead, leads, type Pin, pins, type Wiring } from '../../../advise/wiring.ts';
import { M2_5_PITCH } from '../../../mechanics/screwLength.ts';
import { benchBounds } from '../../../units/benchBounds.ts';
import { type Fields, fieldOf } from '../../fields/field.ts';

export type PinsLie = 'usual' | 'sides' | 'rows' | 'both';
export type MassBy = 'part' | 'weighed' | 'reckoned';

export const stackFields = {
  headshell: fieldOf('Headshell at its slots', benchBounds.headshellThicknessMm),
  spacer: fieldOf('Spacer or plate', benchBounds.spacerThicknessMm),
  washer: fieldOf('Washer under the head', benchBounds.washerThicknessMm),
  flange: fieldOf('Cartridge’s flange', benchBounds.flangeThicknessMm),
  nut: fieldOf('Nut', benchBounds.nutThicknessMm),
  tapDepth: fieldOf('Depth of thread in the body', benchBounds.tapDepthMm),
  pitch: { ...fieldOf('Thread pitch', benchBounds.screwPitchMm), usual: { value: M2_5_PITCH, from: 'usual' } },
} satisfies Fields;
export type StackField = keyof typeof stackFields;

export interface SetTyped {
  readonly material?: HardwareMaterial;
  readonly screws?: string;
  readonly screwLength?: string;
  readonly nuts?: string;
  readonly nutThickness?: string;
  readonly washers?: string;
  readonly washerThickness?: string;
  readonly spacerG?: string;
}

/** The mass of the hardware as found at Fit. */
export interface HardwareFound {
  readonly massG: number;
  /** k = 2; null where none can be given */
  readonly uncertaintyG: number | null;
  readonly by: MassBy;
}

export interface FitData {
  leads: Readonly<Partial<Record<Lead, Pin | null>>>;
  pinsLie: PinsLie;
  stack: Readonly<Partial<Record<StackField, string>>>;
  mounting: 'through-holes' | 'tapped' | '';
  massBy: MassBy;
  weighed: string;
  /** what the scale is good to, k = 2 */
  scale: string;
  set: SetTyped;
  steps: readonly string[];
}

/** The wiring as it stands; null while no lead was looked at. */
export function wiringOf({ leads: kept }: Partial<FitData>): Wiring | null {
  const looked = leads.filter((lead) => kept !== undefined && lead in kept);
  if (looked.length === 0) return null;
  const pinOf = (lead: Lead): Pin | null => {
    const pin = kept?.[lead];
    return pin !== undefined && pin !== null && pins.includes(pin) ? pin : null;
  };
  return { white: pinOf('white'), blue: pinOf('blue'), red: pinOf('red'), green: pinOf('green') };
}

/** Leads that nobody has looked at yet. */
export const notLooked = ({ leads: kept }: Partial<FitData>): readonly Lead[] =>
  leads.filter((lead) => kept === undefined || !(lead in kept));
