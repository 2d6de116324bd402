/** A complex number, for responses and impedances. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const multiply = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});

/** 1/a; a must not be 0 */
export function reciprocal(a: Complex): Complex {
  const square = a.re * a.re + a.im * a.im;
  return { re: a.re / square, im: -a.im / square };
}

export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im);
/** rad, −π to π */
export const phase = (a: Complex): number => Math.atan2(a.im, a.re);
