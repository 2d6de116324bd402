/**
 * Memory for work, lent and taken back instead of made anew: reading a tone needs some forty arrays as long as the tone, and
 * where every tone makes its own, a long side keeps more memory in pieces than any of its tones uses.
 *
 * Inside `onLoan`, what `workArray` and `workBytes` give is lent until the innermost `onLoan` returns: nothing lent may be kept
 * or returned beyond it. Outside, they simply make a new array. What lives longer is lent and taken back by hand.
 */

const LEAST_BYTES = 1024;
/** as large as this beside what is asked for, at most */
const MOST_TIMES = 4;
/** in hand, by size */
const free = new Map<number, ArrayBuffer[]>();
/** what the innermost loan has lent; null outside any */
let lent: ArrayBuffer[] | null = null;

/** Sizes go by quarters of a power of two: few enough to meet again, and little is wasted. */
function buffer(bytes: number): ArrayBuffer {
  let whole = LEAST_BYTES;
  while (whole < bytes) whole *= 2;
  const step = whole / 8;
  const size = Math.max(LEAST_BYTES, Math.ceil(bytes / step) * step);
  return free.get(size)?.pop() ?? larger(size)?.pop() ?? new ArrayBuffer(size);
}

/** The smallest that are free and larger, though not by much: a side of tones of many lengths keeps one set of arrays, not one for each length. */
function larger(size: number): ArrayBuffer[] | undefined {
  let whole = LEAST_BYTES;
  while (whole < size) whole *= 2;
  let other = size;
  for (;;) {
    if (other === whole) whole *= 2;
    other += whole / 8;
    if (other > MOST_TIMES * size) return undefined;
    const some = free.get(other);
    if (some !== undefined && some.length > 0) return some;
  }
}

function back(memory: ArrayBuffer): void {
  const same = free.get(memory.byteLength);
  if (same === undefined) free.set(memory.byteLength, [memory]);
  else same.push(memory);
}

/**
 * Runs `work` and takes back everything that it was lent.
 *
 * @param work must end before it returns: no promise, no generator
 */
export function onLoan<T>(work: () => T): T {
  const outer = lent;
  const mine: ArrayBuffer[] = [];
  lent = mine;
  try {
    return work();
  } finally {
    lent = outer;
    mine.forEach(back);
  }
}

/** A loan for work in steps: what is lent during any of them stays lent until `end`. */
export class LongLoan {
  private readonly mine: ArrayBuffer[] = [];

  during<T>(work: () => T): T {
    const outer = lent;
    lent = this.mine;
    try {
      return work();
    } finally {
      lent = outer;
    }
  }

  /** Nobody may look at what was lent afterwards; it may be used again. */
  end(): void {
    this.mine.splice(0).forEach(back);
  }
}

/** Zeros. @param length 0 up */
export function workArray(length: number): Float64Array<ArrayBuffer> {
  if (lent === null) return new Float64Array(length);
  const array = lentArray(length);
  lent.push(array.buffer);
  return array;
}

/** Zeros. @param length 0 up */
export function workBytes(length: number): Uint8Array<ArrayBuffer> {
  if (lent === null) return new Uint8Array(length);
  const memory = buffer(length);
  lent.push(memory);
  return new Uint8Array(memory, 0, length).fill(0);
}

/** Zeros, lent until `takeBack`; what is never given back is no loss, it goes as other memory goes. */
export function lentArray(length: number): Float64Array<ArrayBuffer> {
  return new Float64Array(buffer(8 * length), 0, length).fill(0);
}

/** Lent until `takeBack`; what is in it is anybody's. */
export const lentBytes = (length: number): Uint8Array<ArrayBuffer> => new Uint8Array(buffer(length), 0, length);

/** @param array as it came from `lentArray` or `lentBytes`, once; nobody may look at it or write to it afterwards */
export function takeBack(array: Float64Array<ArrayBuffer> | Uint8Array<ArrayBuffer>): void {
  back(array.buffer);
}
