/** The side as it is cut: which stretch of groove follows which, on a clock that runs at the exact speed. */
import type { Deck } from './deck.ts';
import type { Sheet, SheetBand } from './sheet.ts';

export type StretchKind = 'air' | 'lead-in' | 'band' | 'gap' | 'lead-out' | 'lifted';

/** One stretch of the take, in groove time: seconds that pass at the exact speed. */
export interface Stretch {
  readonly kind: StretchKind;
  readonly startS: number;
  readonly endS: number;
  readonly radiusMm: number;
  /** place in the sheet's bands, −1 where there is no band */
  readonly band: number;
}

export interface Side {
  readonly stretches: readonly Stretch[];
  readonly rpm: number;
  /** groove time at which the needle touches down and is lifted */
  readonly dropS: number;
  readonly liftS: number;
  readonly endS: number;
}

/** A sheet that says 33.333 means 33⅓. */
export function exactRpm(rpm: number): number {
  const third = 100 / 3;
  return Math.abs(rpm - third) < 0.005 ? third : rpm;
}

/** Radii where the sheet says none: evenly from 143 mm to 63 mm over the side's time. */
const OUTER_MM = 143;
const INNER_MM = 63;

export function layOut(sheet: Sheet, side: Deck['side']): Side {
  const stretches: Stretch[] = [];
  let at = 0;
  const add = (kind: StretchKind, durationS: number, radiusMm: number, band: number) => {
    if (durationS > 0) stretches.push({ kind, startS: at, endS: at + durationS, radiusMm, band });
    at += Math.max(0, durationS);
  };
  const radii = bandRadii(sheet.bands);
  add('air', side.beforeDropS, radii[0], -1);
  const dropS = at;
  add('lead-in', side.leadInS, radii[0], -1);
  sheet.bands.forEach((band, index) => {
    if (index > 0) add('gap', side.gapS, (radii[index - 1] + radii[index]) / 2, -1);
    add('band', band.durationS, radii[index], index);
  });
  add('lead-out', side.leadOutS, radii[radii.length - 1], -1);
  const liftS = at;
  add('lifted', side.afterLiftS, radii[radii.length - 1], -1);
  return { stretches, rpm: exactRpm(sheet.rpm), dropS, liftS, endS: at };
}

function bandRadii(bands: readonly SheetBand[]): number[] {
  const whole = bands.reduce((sum, band) => sum + band.durationS, 0);
  let before = 0;
  return bands.map((band) => {
    const middle = (before + band.durationS / 2) / whole;
    before += band.durationS;
    return band.radiusMm ?? OUTER_MM + (INNER_MM - OUTER_MM) * middle;
  });
}

/**
 * Groove radius and its slope at a groove time: constant within a band, a smooth passage (3u² − 2u³) from one stretch's
 * radius to the next across the gap between them.
 *
 * @returns mm and mm per second of groove time
 */
export function radiusAt(side: Side, grooveS: number): { mm: number; slope: number } {
  const { stretches } = side;
  let index = 0;
  while (index < stretches.length - 1 && grooveS >= stretches[index].endS) index++;
  const here = stretches[index];
  if (here.kind !== 'gap') return { mm: here.radiusMm, slope: 0 };
  const from = stretches[index - 1].radiusMm;
  const step = stretches[index + 1].radiusMm - from;
  const width = here.endS - here.startS;
  const u = Math.min(1, Math.max(0, (grooveS - here.startS) / width));
  return { mm: from + step * u * u * (3 - 2 * u), slope: (step * 6 * u * (1 - u)) / width };
}
