/**
 * Sides of sweeps from the physics alone: velocities written along each law, everything linear by one transform of the whole take. The arm is a mass on
 * a spring, the top another; a pilot tone, rumble and hiss lie beside.
 */
import { riaa, type Take } from './capture.ts';
import { draws } from './draw.ts';
import { type Complex, throughMatrix } from './fourier.ts';

const TAU = 2 * Math.PI;

export interface CutSweep {
  readonly motion: 'left' | 'right' | 'lateral' | 'vertical';
  readonly fromHz: number;
  readonly toHz: number;
  readonly law: 'log' | 'linear';
  readonly cut: 'riaa' | 'constant-velocity';
  readonly cmS: number;
  readonly durationS: number;
  /** lateral, beside it; 0 is none */
  readonly pilotHz: number;
}

export interface SweepFaults {
  readonly sampleRateHz: number;
  /** s before the first tone, and between bands */
  readonly pauseS: number;
  readonly speed: number;
  readonly lateral: { readonly hz: number; readonly q: number };
  readonly vertical: { readonly hz: number; readonly q: number };
  readonly top: { readonly left: { hz: number; q: number }; readonly right: { hz: number; q: number } };
  readonly leak: Complex;
  readonly highPass7950: boolean;
  readonly riaa: boolean;
  readonly noise: number;
  readonly seed: number;
}

const times = (p: Complex, q: Complex): Complex => ({ re: p.re * q.re - p.im * q.im, im: p.re * q.im + p.im * q.re });
const over = (p: Complex, q: Complex): Complex => {
  const size = q.re ** 2 + q.im ** 2;
  return { re: (p.re * q.re + p.im * q.im) / size, im: (p.im * q.re - p.re * q.im) / size };
};
/** s² / (s² + s ω₀/Q + ω₀²) */
const arm = (hz: number, { hz: f0, q }: { hz: number; q: number }): Complex =>
  over({ re: -hz * hz, im: 0 }, { re: f0 * f0 - hz * hz, im: (f0 * hz) / q });
/** ω₀² / (s² + s ω₀/Q + ω₀²) */
export const topOf = (hz: number, { hz: f0, q }: { hz: number; q: number }): Complex =>
  over({ re: f0 * f0, im: 0 }, { re: f0 * f0 - hz * hz, im: (f0 * hz) / q });

const TONE_S = 3;

/** A lateral tone, the sweeps, a lateral tone of 3150 Hz. */
export function sweptTake(sweeps: readonly CutSweep[], faults: SweepFaults): Take {
  const { sampleRateHz: rate, pauseS, speed } = faults;
  const lengths = [TONE_S, ...sweeps.map((s) => s.durationS / speed), TONE_S];
  const total = lengths.reduce((sum, s) => sum + s + pauseS, pauseS);
  const frames = Math.ceil(total * rate);
  let size = 1;
  while (size < frames) size *= 2;
  const x = new Float64Array(size);
  const y = new Float64Array(size);
  const at1k = Math.hypot(riaa(1000).re, riaa(1000).im);
  const bands: { startS: number; endS: number }[] = [];
  let startS = pauseS;
  const play = (lengthS: number, motion: CutSweep['motion'], velocity: (s: number) => number): void => {
    const share = {
      lateral: [1, 0],
      vertical: [0, 1],
      left: [Math.SQRT1_2, Math.SQRT1_2],
      right: [Math.SQRT1_2, -Math.SQRT1_2],
    }[motion];
    const from = Math.round(startS * rate);
    for (let n = 0; n < lengthS * rate; n++) {
      const s = n / rate;
      const edge = Math.min(1, s / 0.01, (lengthS - s) / 0.01);
      // the record's own clock runs by the speed
      const v = edge * speed * velocity(s * speed);
      x[from + n] += share[0] * v;
      y[from + n] += share[1] * v;
    }
    bands.push({ startS, endS: startS + lengthS });
    startS += lengthS + pauseS;
  };
  play(TONE_S, 'lateral', (s) => 5 * Math.cos(TAU * 1000 * s));
  for (const { motion, fromHz, toHz, law, cut, cmS, durationS, pilotHz } of sweeps) {
    const k = Math.log(toHz / fromHz) / durationS;
    if (pilotHz > 0) {
      const before = startS;
      play(durationS / speed, 'lateral', (s) => 3 * Math.cos(TAU * pilotHz * s));
      bands.pop();
      startS = before;
    }
    play(durationS / speed, motion, (s) => {
      const hz = law === 'log' ? fromHz * Math.exp(k * s) : fromHz + ((toHz - fromHz) * s) / durationS;
      const cycles = law === 'log' ? (hz - fromHz) / k : s * (fromHz + ((toHz - fromHz) * s) / durationS / 2);
      const h = riaa(hz);
      return (cut === 'riaa' ? at1k / Math.hypot(h.re, h.im) : 1) * cmS * Math.cos(TAU * cycles);
    });
  }
  play(TONE_S, 'lateral', (s) => 5 * Math.cos(TAU * 3150 * s));
  const scale = 1 / 60;
  const none = { re: 0, im: 0 };
  const out = throughMatrix(x, y, rate, (hz) => {
    if (hz < 0.5) return [none, none, none, none];
    const eq = faults.riaa ? times(riaa(hz), { re: 1 / at1k, im: 0 }) : { re: 1, im: 0 };
    const w = TAU * hz * 7950e-6;
    const low = faults.highPass7950 ? over({ re: 0, im: w }, { re: 1, im: w }) : { re: 1, im: 0 };
    const chain = times(times(eq, low), { re: scale * Math.SQRT1_2, im: 0 });
    const a = times(chain, arm(hz, faults.lateral));
    const b = times(chain, arm(hz, faults.vertical));
    const [l, r] = [topOf(hz, faults.top.left), topOf(hz, faults.top.right)];
    // left leaks into right and right into left alike
    const plus = { re: 1 + faults.leak.re, im: faults.leak.im };
    const minus = { re: 1 - faults.leak.re, im: -faults.leak.im };
    const [bm, bn] = [times(b, minus), times(b, { re: -minus.re, im: -minus.im })];
    return [times(l, times(a, plus)), times(l, bm), times(r, times(a, plus)), times(r, bn)];
  });
  const draw = draws(faults.seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - draw(0, 1))) * Math.cos(TAU * draw(0, 1));
  let [rumbleL, rumbleR] = [0, 0];
  const a = Math.exp((-TAU * 25) / rate);
  const kick = (8 * faults.noise * Math.sqrt(1 - a * a)) / 1;
  const left = out.left.slice(0, frames);
  const right = out.right.slice(0, frames);
  for (let n = 0; n < frames; n++) {
    rumbleL = a * rumbleL + kick * normal();
    rumbleR = a * rumbleR + kick * normal();
    left[n] += rumbleL + faults.noise * normal();
    right[n] += rumbleR + faults.noise * normal();
  }
  return { sampleRateHz: rate, left, right, bands };
}
