/** Statistics that a few wild values cannot move, and the coverage factor for few degrees of freedom. */
import { lentArray, takeBack } from './workArrays.ts';

/** Middle value; 0 of nothing. */
export function median(values: ArrayLike<number>): number {
  const { length } = values;
  if (length === 0) return 0;
  if (length <= few.length) return medianOfFew(values);
  const copy = lentArray(length);
  copy.set(values);
  const half = length >> 1;
  const upper = smallest(copy, half);
  const middle = length % 2 === 1 ? upper : (largestOf(copy, half) + upper) / 2;
  takeBack(copy);
  return middle;
}

const few = new Float64Array(32);

/** The same by insertion, without new memory: medians over a handful are taken by the hundred thousand. */
function medianOfFew(values: ArrayLike<number>): number {
  const { length } = values;
  for (let i = 0; i < length; i++) {
    const value = values[i];
    let at = i;
    for (; at > 0 && few[at - 1] > value; at--) few[at] = few[at - 1];
    few[at] = value;
  }
  const half = length >> 1;
  return length % 2 === 1 ? few[half] : (few[half - 1] + few[half]) / 2;
}

/** Value below which the share `q` (0 to 1) of the values lies, straight between neighbours; 0 of nothing. */
export function quantile(values: ArrayLike<number>, q: number): number {
  if (!(q >= 0 && q <= 1)) throw new RangeError(`q ${q} must be from 0 to 1`);
  const { length } = values;
  if (length === 0) return 0;
  const copy = lentArray(length);
  copy.set(values);
  const at = q * (length - 1);
  const low = Math.floor(at);
  const high = Math.min(length - 1, low + 1);
  const above = smallest(copy, high);
  const below = high === low ? above : largestOf(copy, high);
  takeBack(copy);
  return below + (at - low) * (above - below);
}

const largestOf = (values: Float64Array, count: number): number => {
  let most = values[0];
  for (let i = 1; i < count; i++) if (values[i] > most) most = values[i];
  return most;
};

/**
 * The value that sorting would put at index k, without sorting: the array is parted around it, smaller ones before.
 *
 * @source C. A. R. Hoare 1961, with the sampled pivots of R. W. Floyd and R. L. Rivest 1975 (from memory, not seen in a
 *   source); checked against sorting
 */
function smallest(x: Float64Array, k: number): number {
  part(x, 0, x.length - 1, k);
  return x[k];
}

/** a shorter stretch is parted around its middle value without a sample */
const SAMPLED = 600;

function part(x: Float64Array, from: number, to: number, k: number): void {
  let left = from;
  let right = to;
  while (right > left) {
    if (right - left > SAMPLED) {
      // a sample's own k-th value lies so near to the one sought that little is left on its side
      const n = right - left + 1;
      const i = k - left + 1;
      const z = Math.log(n);
      const s = 0.5 * Math.exp((2 * z) / 3);
      const spread = 0.5 * Math.sqrt((z * s * (n - s)) / n) * (i < n / 2 ? -1 : 1);
      const low = Math.max(left, Math.floor(k - (i * s) / n + spread));
      const high = Math.min(right, Math.floor(k + ((n - i) * s) / n + spread));
      part(x, low, high, k);
    }
    const pivot = x[k];
    let i = left;
    let j = right;
    x[k] = x[left];
    x[left] = pivot;
    if (x[right] > pivot) {
      x[left] = x[right];
      x[right] = pivot;
    }
    while (i < j) {
      const swap = x[i];
      x[i] = x[j];
      x[j] = swap;
      i += 1;
      j -= 1;
      while (x[i] < pivot) i += 1;
      while (x[j] > pivot) j -= 1;
    }
    if (x[left] === pivot) {
      const swap = x[left];
      x[left] = x[j];
      x[j] = swap;
    } else {
      j += 1;
      const swap = x[j];
      x[j] = x[right];
      x[right] = swap;
    }
    if (j <= k) left = j + 1;
    if (k <= j) right = j - 1;
  }
}

/**
 * Student's t for 95.45 % over two sides: what replaces k = 2 where the spread itself was estimated from little.
 * Cornish-Fisher expansion from the normal's 2.0; within 0.5 % of the tables for ν ≥ 3.
 * @source JCGM 100:2008 table G.2 for the check values (from memory, not seen in a source)
 */
export function coverageFactor(degreesOfFreedom: number): number {
  const v = degreesOfFreedom;
  if (!(v > 0)) throw new RangeError(`degreesOfFreedom ${v} must be above 0`);
  if (v <= 1) return 13.97;
  if (v <= 2) return 13.97 + (v - 1) * (4.53 - 13.97);
  if (v <= 3) return 4.53 + (v - 2) * (3.31 - 4.53);
  const z = 2;
  const g1 = (z ** 3 + z) / 4;
  const g2 = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const g3 = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  const g4 = (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92160;
  return z + g1 / v + g2 / v ** 2 + g3 / v ** 3 + g4 / v ** 4;
}
