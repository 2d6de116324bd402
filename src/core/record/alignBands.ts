/**
 * Two lists in one order, the bands heard and the sheet's, aligned by dynamic programming: each pair has a score, leaving
 * one out on either side costs a little, the best sum wins.
 *
 * @source S. B. Needleman and C. D. Wunsch 1970 (from memory, not seen in a source)
 */
import type { Band } from './band.ts';
import { pairScore, type Wiring } from './pairScore.ts';
import type { SheetBand } from './sheet.ts';

export interface Alignment extends Wiring {
  /** place on the sheet of each band heard, or null */
  readonly places: readonly (number | null)[];
  /** per band heard, another place that fits as well, or null */
  readonly rivals: readonly (number | null)[];
  readonly score: number;
  readonly ratio: number;
}

const LEAVE_OUT = -0.25;
/** what a better fit must be better by */
const CLEARLY = 0.06;

// Unmodulated groove may be heard or not without telling anything: lead-in, lead-out and pauses look the same.
const extraCost = (band: Band): number =>
  band.signal === 'silent-groove' || band.signal === 'unknown' ? -0.02 : LEAVE_OUT;
const missingCost = (band: SheetBand): number => (band.signal === 'silent-groove' ? -0.05 : LEAVE_OUT);

/**
 * The best sum of pair scores in which both lists keep their order. Bands left out at the sheet's ends cost nothing.
 * Sums run from the front and from the back, so that the best whole through any one pair is known too.
 */
export function alignBands(
  bands: readonly Band[],
  cut: readonly SheetBand[],
  ratio: number,
  wiring: Wiring,
): Alignment {
  const n = bands.length;
  const m = cut.length;
  const table = (): Float64Array[] => Array.from({ length: n + 2 }, () => new Float64Array(m + 2));
  const front = table();
  const back = table();
  const pairs = table();
  for (let i = 1; i <= n; i++) {
    front[i][0] = front[i - 1][0] + extraCost(bands[i - 1]);
    for (let j = 1; j <= m; j++) {
      const whole = i > 1 && i < n;
      pairs[i][j] = pairScore(bands[i - 1], cut[j - 1], ratio, wiring, whole) ?? -Infinity;
      front[i][j] = Math.max(
        front[i - 1][j - 1] + pairs[i][j],
        front[i - 1][j] + extraCost(bands[i - 1]),
        front[i][j - 1] + (i === n ? 0 : missingCost(cut[j - 1])),
      );
    }
  }
  // back[i][j]: bands from i and the sheet from j on (both counted from 1).
  for (let i = n; i >= 1; i--) {
    back[i][m + 1] = back[i + 1][m + 1] + extraCost(bands[i - 1]);
    for (let j = m; j >= 1; j--) {
      back[i][j] = Math.max(
        back[i + 1][j + 1] + pairs[i][j],
        back[i + 1][j] + extraCost(bands[i - 1]),
        back[i][j + 1] + (i === 1 ? 0 : missingCost(cut[j - 1])),
      );
    }
  }
  const score = front[n][m];
  const places: (number | null)[] = bands.map(() => null);
  for (let i = n, j = m; i > 0 && j > 0; ) {
    if (front[i][j] === front[i - 1][j - 1] + pairs[i][j]) {
      places[i - 1] = j - 1;
      i -= 1;
      j -= 1;
    } else if (front[i][j] === front[i][j - 1] + (i === n ? 0 : missingCost(cut[j - 1]))) j -= 1;
    else i -= 1;
  }
  const rivals = places.map((place, i) => {
    if (place === null) return null;
    for (let j = 1; j <= m; j++) {
      if (j - 1 !== place && front[i][j - 1] + pairs[i + 1][j] + back[i + 2][j + 1] > score - CLEARLY) return j - 1;
    }
    return null;
  });
  return { ...wiring, places, rivals, ratio, score };
}
