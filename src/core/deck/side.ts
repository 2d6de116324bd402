/** The side as it is cut: which stretch of groove follows which, on a clock that runs at the exact speed. */
import type { Deck } from './deck.ts';
import type { Sheet, SheetBand } from './sheet.ts';

export type StretchKind = 'air' | 'lead-in' | 'band' | 'gap' | 'lead-out' | 'lifted';

/** One stretch of the take, in groove time: seconds that pass at the exact speed. */
export interface Stretch {
  readonly kind: StretchKind;
  readonly startS: number;
  readonly endS: number;
  /** in the middle of the stretch */
  readonly radiusMm: number;
  /** place in the sheet's bands, −1 where there is no band */
  readonly band: number;
}

export interface Side {
  readonly stretches: readonly Stretch[];
  readonly rpm: number;
  /** mm by which the radius shrinks in a second of groove time, within bands */
  readonly inwardMmS: number;
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

/** @param groovePitchMm by which the groove comes nearer to the spindle in a turn, within bands */
export function layOut(sheet: Sheet, side: Deck['side'], groovePitchMm = 0): Side {
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
  const rpm = exactRpm(sheet.rpm);
  return { stretches, rpm, inwardMmS: (groovePitchMm * rpm) / 60, dropS, liftS, endS: at };
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
 * Groove radius at a groove time with its first two derivatives: within a band it shrinks with the pitch, between two bands
 * a cubic joins radius and slope of both; before the first band and after the last it stays.
 *
 * @returns mm, mm and mm per second of groove time
 */
export function radiusAt(side: Side, grooveS: number): { mm: number; slope: number; bend: number } {
  const { stretches, inwardMmS } = side;
  let index = 0;
  while (index < stretches.length - 1 && grooveS >= stretches[index].endS) index++;
  const here = stretches[index];
  const half = (one: Stretch) => (one.band < 0 ? 0 : (inwardMmS * (one.endS - one.startS)) / 2);
  if (here.kind === 'band') {
    return { mm: here.radiusMm - inwardMmS * (grooveS - (here.startS + here.endS) / 2), slope: -inwardMmS, bend: 0 };
  }
  if (here.kind !== 'gap') {
    const first = stretches.find(({ kind }) => kind === 'band');
    const outside =
      first === undefined || here.startS < first.startS ? first : stretches.findLast((s) => s.kind === 'band');
    if (outside === undefined) return { mm: here.radiusMm, slope: 0, bend: 0 };
    const mm =
      outside === first && here.startS < outside.startS ? here.radiusMm + half(outside) : here.radiusMm - half(outside);
    return { mm, slope: 0, bend: 0 };
  }
  const from = stretches[index - 1].radiusMm - half(stretches[index - 1]);
  const step = stretches[index + 1].radiusMm + half(stretches[index + 1]) - from;
  const width = here.endS - here.startS;
  const u = Math.min(1, Math.max(0, (grooveS - here.startS) / width));
  // Hermite with slope −p at both ends: what is left of the step beside the pitch is 3u² − 2u³.
  const rest = step + inwardMmS * width;
  return {
    mm: from - inwardMmS * width * u + rest * u * u * (3 - 2 * u),
    slope: -inwardMmS + (rest * 6 * u * (1 - u)) / width,
    bend: (rest * 6 * (1 - 2 * u)) / (width * width),
  };
}
