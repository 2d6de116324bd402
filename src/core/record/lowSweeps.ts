/**
 * Sweeps through the arm's resonance lie too low to be told by ear: the record file says which there are, and the bands that were heard
 * before and after say where to look.
 */
import type { Band } from './band.ts';
import type { RecordSheet, SheetBand } from './sheet.ts';
import type { Stretch } from './stretch.ts';

/** a sweep that comes down to here, Hz, and up to there at most, is one through the arm's resonance */
const LOW_HZ = 25;
const MOST_HZ = 140;
/** s, shorter holds no sweep */
const LEAST_S = 3;

export const isLowSweep = ({ signal, fromHz, toHz }: SheetBand): boolean =>
  signal === 'sweep' &&
  fromHz !== undefined &&
  toHz !== undefined &&
  Math.min(fromHz, toHz) < LOW_HZ &&
  Math.max(fromHz, toHz) <= MOST_HZ;

/** a band plays as long as the record file says, within this share */
const TOLERANCE = 0.08;

/**
 * @param bands as matched to the sheet @param durationS of the capture
 * @returns one stretch a sweep, between the bands heard before and after it; where other bands lie there too, no wider than their
 *   stated durations leave it
 */
export function lowSweepStretches(bands: readonly Band[], sheet: RecordSheet, durationS: number): Stretch[] {
  const isKnown = ({ sheetBand }: Band): boolean => {
    const cut = sheetBand === null ? undefined : sheet.bands[sheetBand];
    return cut !== undefined && cut.signal !== 'silent-groove' && !isLowSweep(cut);
  };
  const known = bands.filter(isKnown);
  if (known.length === 0) return [];
  return sheet.bands.flatMap((cut, place): Stretch[] => {
    if (!isLowSweep(cut)) return [];
    const before = known.findLast(({ sheetBand }) => (sheetBand as number) < place);
    const after = known.find(({ sheetBand }) => (sheetBand as number) > place);
    const gapS = (after?.startS ?? durationS) - (before?.endS ?? 0);
    const between = (after?.sheetBand ?? sheet.bands.length) - (before?.sheetBand ?? -1) - 1;
    // of what states no duration half of an even share at least
    const lengthOf = (band: SheetBand): number =>
      band.durationS === undefined ? (0.55 * gapS) / between : (1 - TOLERANCE) * band.durationS;
    const taken = (from: number, to: number): number =>
      sheet.bands.slice(from, to).reduce((sum, band) => sum + lengthOf(band), 0);
    const ahead = before === undefined ? 0 : taken((before.sheetBand as number) + 1, place);
    const behind = after === undefined ? 0 : taken(place + 1, after.sheetBand as number);
    const startS = (before?.endS ?? 0) + ahead;
    const endS = (after?.startS ?? durationS) - behind;
    return endS - startS < LEAST_S ? [] : [{ kind: 'low-sweep', startS, endS, sheetBand: place }];
  });
}
