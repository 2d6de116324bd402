/**
 * What a window sees of a sweep that passes the arm's resonance.
 *
 * The arm answers late, and rings on at its own pitch once the sweep has passed: y/x = ∫ h(τ) e^(−jωτ + j(dω/dt)τ²/2) dτ. With H in partial
 * fractions each pole p gives ∫ e^(−aτ + jbτ²) dτ = √π u erfcx(a u), a = jω − p, b = (dω/dt)/2, u = e^(jπ/4) / 2√b: exact for a
 * sweep whose rate stays while the arm rings.
 *
 * @checked sweptArm.test.ts, against the arm's equation of motion step by step
 */
import { scaledErfc } from '../signal/scaledErfc.ts';
import { type Complex, conjugate, less, over, plus, scaled, times } from '../units/complex.ts';

export interface SweptPoint {
  readonly hz: number;
  /** 0 for a steady tone */
  readonly hzPerS: number;
  /** of a Hann window, s; 0 for none */
  readonly windowS: number;
  /**
   * 1/s, by which cut and chain raise the level as the sweep goes on, d ln|G|/dt. What was there while the arm rings came through at another
   * level: its decay seems faster by as much where the level rises, slower where it falls. Left out: 0.
   */
  readonly rise?: number;
}

/** H of a steady tone. */
export function armTransfer(hz: number, resonanceHz: number, q: number): Complex {
  const x = hz / resonanceHz;
  const a = 1 - x * x;
  const b = x / q;
  const size = a * a + b * b;
  return { re: (-x * x * a) / size, im: (x * x * b) / size };
}

const HANN = [-0.75, -0.5, -0.25, 0, 0.25, 0.5, 0.75].map((at) => ({
  at: at / 2,
  weight: (0.5 + 0.5 * Math.cos(Math.PI * at)) / 4,
}));

/** Against the groove's own, averaged under the window. */
export function sweptTransfer({ hz, hzPerS, windowS, rise = 0 }: SweptPoint, f0: number, q: number): Complex {
  const at = hzPerS === 0 ? (f: number) => armTransfer(f, f0, q) : sweeping(hzPerS, rise, f0, q);
  if (windowS === 0) return at(hz);
  let [re, im] = [0, 0];
  for (const { at: share, weight } of HANN) {
    const y = at(Math.max(0.2, hz + hzPerS * windowS * share));
    re += weight * y.re;
    im += weight * y.im;
  }
  return { re, im };
}

/** dB */
export function sweptLevel(point: SweptPoint, f0: number, q: number): number {
  const { re, im } = sweptTransfer(point, f0, q);
  return 10 * Math.log10(Math.max(1e-12, re * re + im * im));
}

/** H = 1 − A/(s − p) − B/(s − r), each pole swept over. */
function sweeping(hzPerS: number, rise: number, f0: number, q: number): (hz: number) => Complex {
  const w0 = 2 * Math.PI * f0;
  const [alpha, beta] = [w0 / q, w0 * w0];
  // at critical damping both poles are one: a hair beside it
  const d = alpha * alpha - 4 * beta;
  const apart = Math.sqrt(Math.max(Math.abs(d), 1e-8 * beta)) / 2;
  const poles: [Complex, Complex] =
    d > 0
      ? [
          { re: -alpha / 2 + apart, im: 0 },
          { re: -alpha / 2 - apart, im: 0 },
        ]
      : [
          { re: -alpha / 2, im: apart },
          { re: -alpha / 2, im: -apart },
        ];
  const residue = (p: Complex, r: Complex): Complex => over(plus(scaled(p, alpha), { re: beta, im: 0 }), less(p, r));
  const terms = [
    { p: poles[0], residue: residue(poles[0], poles[1]) },
    { p: poles[1], residue: residue(poles[1], poles[0]) },
  ];
  const b = Math.PI * hzPerS;
  return (hz) => {
    const s = { re: rise, im: 2 * Math.PI * hz };
    return terms.reduce((y, { p, residue: a }) => less(y, times(a, dying(less(s, p), b))), { re: 1, im: 0 } as Complex);
  };
}

/** ∫ e^(−aτ + jbτ²) dτ from 0 on; Re a > 0 */
function dying(a: Complex, b: number): Complex {
  if (b < 0) return conjugate(dying(conjugate(a), -b));
  const part = Math.SQRT1_2 / (2 * Math.sqrt(b));
  const u = { re: part, im: part };
  const z = times(a, u);
  return scaled(times(u, scaledErfc(z.re, z.im)), Math.sqrt(Math.PI));
}
