/** Complex numbers. Arithmetic alone, as old as cosine: both halves of a loop may share it, their formulas they may not. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const ONE: Complex = { re: 1, im: 0 };

export const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const less = (a: Complex, b: Complex): Complex => ({ re: a.re - b.re, im: a.im - b.im });
export const scaled = (a: Complex, by: number): Complex => ({ re: a.re * by, im: a.im * by });
export const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
/** a / b; b must not be 0 */
export function over(a: Complex, b: Complex): Complex {
  const square = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / square, im: (a.im * b.re - a.re * b.im) / square };
}
/** 1 / a; a must not be 0 */
export const reciprocal = (a: Complex): Complex => over(ONE, a);
export const conjugate = (a: Complex): Complex => ({ re: a.re, im: -a.im });

export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im);
/** rad, −π to π */
export const phaseOf = (a: Complex): number => Math.atan2(a.im, a.re);
/** @param phase rad */
export const polar = (size: number, phase: number): Complex => ({
  re: size * Math.cos(phase),
  im: size * Math.sin(phase),
});
