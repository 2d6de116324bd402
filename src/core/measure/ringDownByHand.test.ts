/** The arm ringing down, beside what else dies away; and what is no drop. */
import { describe, expect, it } from 'vitest';
import { ringDown } from './ringDown.ts';

const RATE_HZ = 500;
const DROP_S = 1;
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
interface Made {
  readonly hz?: number;
  readonly q?: number;
  readonly size?: number;
  readonly sine?: number;
  readonly noise?: number;
  readonly lengthS?: number;
  readonly dropS?: number;
  readonly before?: (t: number) => number;
  /** s from the drop on */
  readonly beside?: (s: number) => number;
  readonly seed?: number;
  readonly rateHz?: number;
}
function values({
  hz = 9,
  q = 3,
  size = 1,
  sine = 0,
  noise = 1e-4,
  lengthS = 3,
  dropS = DROP_S,
  before = () => 0,
  beside = () => 0,
  seed = 1,
  rateHz = RATE_HZ,
}: Made): Float64Array {
  const next = chance(seed);
  const w = 2 * Math.PI * hz;
  const turn = w * Math.sqrt(Math.abs(1 - 1 / (4 * q * q)));
  return Float64Array.from({ length: Math.round(lengthS * rateHz) }, (_, n) => {
    const t = n / rateHz;
    const s = t - dropS;
    const rings =
      s < 0 ? before(t) : size * Math.exp((-w * s) / (2 * q)) * (Math.cos(turn * s) + sine * Math.sin(turn * s));
    return rings + (s < 0 ? 0 : beside(s)) + noise * next();
  });
}
const read = (made: Made) => ringDown({ rateHz: made.rateHz ?? RATE_HZ }, values(made));

describe('f₀ and Q', () => {
  it.each([
    [5, 1, 0],
    [9, 3, -2],
    [17, 10, 1],
  ])('of %f Hz, Q %f', (hz, q, sine) => {
    const told = read({ hz, q, sine })!;
    expect(told.hz / hz).toBeCloseTo(1, 2);
    expect(told.q / q).toBeCloseTo(1, 1);
    expect(told.hzApart).toBeLessThan(0.02);
    expect(told.qApart).toBeLessThan(0.1);
    expect(told.left).toBeLessThan(0.02);
  });

  it('do not mind an offset, a drift, a knock’s tail, nor where the tip drops or how loud', () => {
    const clean = read({})!;
    for (const made of [
      {
        dropS: 0.4,
        size: -1,
        beside: (s: number) => 3 + 0.8 * s + 5 * Math.exp(-s / 0.00795) - Math.exp(-s / 0.1),
      },
      { dropS: 1.7, size: 1e-3, noise: 1e-7 },
    ]) {
      const told = read(made)!;
      expect(told.hz / clean.hz).toBeCloseTo(1, 2);
      expect(told.q / clean.q).toBeCloseTo(1, 1);
    }
  });

  it('at other rates as well: samples are taken some 170 a second', () => {
    for (const rateHz of [340, 1000]) {
      const told = read({ rateHz })!;
      expect(told.hz, `${rateHz}`).toBeCloseTo(9, 1);
      expect(told.q, `${rateHz}`).toBeCloseTo(3, 1);
    }
  });
});

describe('what it is unsure by', () => {
  it('goes with the noise about the resonance', () => {
    const [loud, quiet] = [read({ noise: 0.02 })!, read({ noise: 0.002 })!];
    expect(loud.hzSpread / quiet.hzSpread).toBeGreaterThan(7);
    expect(loud.hzSpread / quiet.hzSpread).toBeLessThan(14);
    expect(loud.qSpread / quiet.qSpread).toBeGreaterThan(7);
    expect(loud.qSpread / quiet.qSpread).toBeLessThan(14);
    expect(loud.qSpread).toBeGreaterThan(2 * loud.hzSpread);
  });

  it('noise far from the resonance counts for little', () => {
    const tone = (hz: number) => (s: number) => 0.03 * Math.sin(2 * Math.PI * hz * s);
    const [near, far] = [read({ beside: tone(11) })!, read({ beside: tone(60) })!];
    expect(near.hzSpread).toBeGreaterThan(5 * far.hzSpread);
    expect(far.left).toBeGreaterThan(0.02);
  });

  it('what is left over, of what rings', () => {
    // a tone of 60 Hz beside a ring that dies away: rms over a second
    const told = read({ beside: (s) => 0.03 * Math.sin(2 * Math.PI * 60 * s), noise: 0 })!;
    let ring = 0;
    let tone = 0;
    for (let i = 0; i < 166; i++) {
      const s = 0.036 + i * 0.006;
      ring += (Math.exp((-2 * Math.PI * 9 * s) / 6) * Math.cos(2 * Math.PI * 9 * Math.sqrt(1 - 1 / 36) * s)) ** 2;
      tone += (0.03 * Math.sin(2 * Math.PI * 60 * s)) ** 2;
    }
    expect(told.left / Math.sqrt(tone / ring)).toBeGreaterThan(0.8);
    expect(told.left / Math.sqrt(tone / ring)).toBeLessThan(1.1);
  });
});

describe('nothing rings', () => {
  it('in silence, in noise, where the tip only steps, or in what is too short', () => {
    expect(ringDown({ rateHz: RATE_HZ }, new Float64Array(1500))).toBeNull();
    expect(read({ size: 0, noise: 0.1 })).toBeNull();
    expect(read({ size: 0, beside: () => 1 })).toBeNull();
    expect(read({ lengthS: 0.3, dropS: 0 })).toBeNull();
    expect(read({ lengthS: 1.38, dropS: 1 })).toBeNull();
    expect(ringDown({ rateHz: RATE_HZ }, new Float64Array(0))).toBeNull();
  });

  it('where it was as restless before: a quarter of what rings when the fit starts', () => {
    const hum = (size: number) => (t: number) => size * Math.SQRT2 * Math.sin(2 * Math.PI * 31 * t);
    // of 1 at the drop 0.75 is left 30 ms and a few after
    expect(read({ before: hum(0.12) })).not.toBeNull();
    expect(read({ before: hum(0.3) })).toBeNull();
    // nobody knows how it was before where there is less than 40 ms of it
    expect(read({ dropS: 0.06, before: hum(0.15) })).not.toBeNull();
    // an offset is no unrest
    expect(read({ before: () => 0.4, beside: () => 0.4 })).not.toBeNull();
  });

  it('outside of 4.6 to 18.4 Hz and a Q of 0.63 to 14.3', () => {
    expect(read({ hz: 4.5 })).toBeNull();
    expect(read({ hz: 19.5 })).toBeNull();
    expect(read({ q: 13.5, hz: 14, noise: 1e-5 })).not.toBeNull();
    expect(read({ q: 18, hz: 14, noise: 1e-5 })).toBeNull();
  });

  it('where three tenths of what is fitted are left over', () => {
    const beside = (size: number) => (s: number) => size * Math.sin(2 * Math.PI * 47 * s);
    expect(read({ beside: beside(0.03) })).not.toBeNull();
    expect(read({ beside: beside(0.09) })).toBeNull();
  });
});
