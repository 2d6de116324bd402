/** One-dimensional iterations: a root between two signs, and a least value between two ends. */

/**
 * Root of f between a and b where its signs differ (Illinois rule: false position that never stalls).
 * Where they do not differ, the end with the smaller |f| is the answer.
 */
export function solveRoot(f: (x: number) => number, a: number, b: number): number {
  let left = a;
  let right = b;
  let fLeft = f(left);
  let fRight = f(right);
  if (fLeft === 0) return left;
  if (fRight === 0) return right;
  if (fLeft > 0 === fRight > 0) return Math.abs(fLeft) <= Math.abs(fRight) ? left : right;
  const tolerance = 1e-13 * (Math.abs(a) + Math.abs(b));
  let side = 0;
  for (let i = 0; i < 200 && Math.abs(right - left) > tolerance; i++) {
    const x = (left * fRight - right * fLeft) / (fRight - fLeft);
    const value = f(x);
    if (value === 0) return x;
    if (value > 0 === fRight > 0) {
      right = x;
      fRight = value;
      if (side === 1) fLeft /= 2;
      side = 1;
    } else {
      left = x;
      fLeft = value;
      if (side === -1) fRight /= 2;
      side = -1;
    }
  }
  return Math.abs(fLeft) <= Math.abs(fRight) ? left : right;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Least value of f on [a, b]: a coarse look first, so that a second hollow is not missed, then golden section.
 * Ends count. Accurate to about 1e-9 of the interval, or to the square root of rounding where f is smooth.
 */
export function solveMinimum(f: (x: number) => number, a: number, b: number, looks = 25): number {
  if (!(b > a)) return a;
  const step = (b - a) / (looks - 1);
  let best = 0;
  let least = Number.MAX_VALUE;
  for (let i = 0; i < looks; i++) {
    const value = f(a + i * step);
    if (value < least) {
      least = value;
      best = i;
    }
  }
  let low = a + Math.max(0, best - 1) * step;
  let high = best + 1 >= looks - 1 ? b : a + (best + 1) * step;
  let x1 = high - GOLDEN * (high - low);
  let x2 = low + GOLDEN * (high - low);
  let f1 = f(x1);
  let f2 = f(x2);
  // 50 steps leave 4e-11 of the bracket
  for (let i = 0; i < 50; i++) {
    if (f1 <= f2) {
      high = x2;
      x2 = x1;
      f2 = f1;
      x1 = high - GOLDEN * (high - low);
      f1 = f(x1);
    } else {
      low = x1;
      x1 = x2;
      f1 = f2;
      x2 = low + GOLDEN * (high - low);
      f2 = f(x2);
    }
  }
  const middle = (low + high) / 2;
  const candidates = [middle, a, b];
  return candidates.reduce((x, y) => (f(y) < f(x) ? y : x));
}
