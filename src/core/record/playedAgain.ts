/**
 * The same band played again within one recording. The record file has it once: what is heard beyond that and sounds like it, in the wiring that was found, is
 * the same groove under the tip a second or third time, and gets the same place.
 */
import type { Band } from './band.ts';
import { frequenciesOf, sheetFrequenciesOf, throughWiring, type Wiring } from './pairScore.ts';
import type { RecordSheet, SheetBand } from './sheet.ts';

/** frequencies heard of one band, at one speed, ratio */
const ALIKE = 0.004;
/** and lengths, unless it was lifted early: at most so much longer */
const LONGER = 1.15;

const soundsAs = (a: Band, b: Band): boolean => {
  const [f, g] = [frequenciesOf(a), frequenciesOf(b)];
  const sameTones = f.length === g.length && f.every((hz, i) => Math.abs(hz / g[i] - 1) < ALIKE);
  return a.signal === b.signal && sameTones && a.endS - a.startS < LONGER * (b.endS - b.startS);
};

/** Kinds that a record file may hold once. @returns whether `other` would sound like `cut` */
function soundsLike(cut: SheetBand, other: SheetBand): boolean {
  const [f, g] = [sheetFrequenciesOf(cut), sheetFrequenciesOf(other)];
  const near = f.length === g.length && f.every((hz, i) => Math.abs(hz / g[i] - 1) < 0.03);
  return cut.signal === other.signal && cut.motion === other.motion && near;
}

/**
 * @param bands as matched; those without a place are looked at
 * @param heard the same as ears heard them
 * @returns with the places of those that were played again
 */
export function withPlayedAgain(
  bands: readonly Band[],
  heard: readonly Band[],
  sheet: RecordSheet,
  wiring: Wiring,
): Band[] {
  return bands.map((band, i): Band => {
    if (band.sheetBand !== null || (band.signal !== 'tone' && band.signal !== 'two-tone')) return band;
    const first = bands.find((other, k) => {
      if (other.sheetBand === null || !soundsAs(band, other)) return false;
      const cut = sheet.bands[other.sheetBand];
      const motion = throughWiring(cut.motion, wiring);
      const isAlone = !sheet.bands.some((one, place) => place !== other.sheetBand && soundsLike(cut, one));
      return (
        isAlone && (heard[i].motion === motion || (heard[i].motion === 'unknown' && heard[k].motion === 'unknown'))
      );
    });
    return first === undefined
      ? band
      : { ...band, motion: first.motion, sheetBand: first.sheetBand, radiusMm: first.radiusMm };
  });
}
