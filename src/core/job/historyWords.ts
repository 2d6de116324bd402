/** History, stylus hours and what is due, in words for page and command line. */
import { shownFigure } from '../words/figure.ts';
import { figureLines } from '../words/figureLines.ts';
import type { DeckFigure, DeckReading } from './deckHistory.ts';
import type { DueRow } from './dueList.ts';
import type { Stylus } from './stylusHours.ts';

export const readingWords: Readonly<Record<DeckReading['when'], string>> = {
  received: 'as received',
  left: 'as it left',
};

/** As any figure is said: its interval where it has one. */
export const readingText = ({ quantity, unit }: Pick<DeckFigure, 'quantity' | 'unit'>, reading: DeckReading): string =>
  figureLines({ ...reading, quantity, unit })[0];

/** "+0.40 ± 0.20 dB, beyond the uncertainty"; null where nothing may be compared. */
export function driftText({ unit }: Pick<DeckFigure, 'unit'>, { drift }: DeckReading): string | null {
  if (drift === null) return null;
  const change = shownFigure(drift.change, unit, drift.uncertainty, true);
  if (drift.beyond === null) return change;
  return `${change}, ${drift.beyond ? 'beyond the uncertainty' : 'within the uncertainty'}`;
}

/** "good up to 0.3 dB, bad beyond 1 dB" */
export function limitText({ limit, unit }: Pick<DeckFigure, 'limit' | 'unit'>): string {
  if (limit === null) return '';
  const [good, bad] = [limit.good, limit.bad].map((value) => shownFigure(value, unit, null));
  return limit.sense === 'below' ? `good up to ${good}, bad beyond ${bad}` : `good from ${good}, bad under ${bad}`;
}

/** The cartridge's name, and the stylus's own where it has one. */
export function stylusName({ cartridge, stylus }: Pick<Stylus, 'cartridge' | 'stylus'>): string {
  const of = cartridge === '' ? 'cartridge not named' : cartridge;
  return stylus === '' ? of : `${stylus} (${of})`;
}

export const dueStateWords: Readonly<Record<DueRow['state'], string>> = {
  due: 'due',
  soon: 'within 30 days',
  'by-hours': 'by stylus hours',
  later: 'later',
};

/** "at 500 stylus hours (320 noted) or on 2027-03-01" */
export function dueWhen({ date, hours, stylusHours }: Pick<DueRow, 'date' | 'hours' | 'stylusHours'>): string {
  const noted = stylusHours === null ? 'none noted' : `${stylusHours} noted`;
  return [
    ...(hours === null ? [] : [`at ${hours} stylus hours (${noted})`]),
    ...(date === null ? [] : [`on ${date}`]),
  ].join(' or ');
}
