import { describe, expect, it } from 'vitest';
import { type Askew, fitResonance, type LevelPoint, type ResonanceFit } from './secondOrder.ts';
import { armTransfer } from './sweptArm.ts';

const COUNT = 30;
const level = (hz: number, f0: number, q: number): number => {
  const { re, im } = armTransfer(hz, f0, q);
  return 10 * Math.log10(re * re + im * im);
};
/** Deviations from −1 to 1 that repeat, without an outlier. */
const chance = (i: number): number => {
  const x = Math.sin(i * 12.9898) * 43_758.5453;
  return 2 * (x - Math.floor(x)) - 1;
};
interface Made {
  readonly f0?: number;
  readonly q?: number;
  readonly gain?: number;
  readonly from?: number;
  readonly to?: number;
  readonly noise?: number;
  readonly spread?: number;
  readonly count?: number;
  readonly add?: (hz: number, i: number) => number;
}
function points({
  f0 = 9.5,
  q = 2.6,
  gain = -33,
  from = 5,
  to = 20,
  noise = 0,
  spread = 0.1,
  count = COUNT,
  add = () => 0,
}: Made = {}): LevelPoint[] {
  return Array.from({ length: count }, (_, i) => {
    const hz = from * (to / from) ** (i / (count - 1));
    const db = gain + level(hz, f0, q) + noise * chance(i + 1) + add(hz, i);
    return { hz, hzPerS: 0, windowS: 0, db, spread: spread * (1 + (i % 3) / 2) };
  });
}
const fitted = (made: Made, askew: Askew | null = null): ResonanceFit => {
  const told = fitResonance(points(made), askew);
  if ('why' in told) throw new Error(told.why);
  return told;
};
const why = (made: Made, askew: Askew | null = null) => {
  const told = fitResonance(points(made), askew);
  return 'why' in told ? told.why : null;
};

describe('what made the levels comes back', () => {
  it.each([
    [9.5, 2.6],
    [7, 0.6],
    [8, 1],
    [14, 5],
    [12, 12],
    [16, 20],
  ])('f₀ %f Hz, Q %f', (f0, q) => {
    const told = fitted({ f0, q, count: 60 });
    expect(told.hz / f0).toBeCloseTo(1, 5);
    expect(told.q / q).toBeCloseTo(1, 4);
    expect(told.gainDb).toBeCloseTo(-33, 3);
    expect(told.leftDb).toBeLessThan(1e-3);
    expect(told.besideDb(5)).toBeCloseTo(0, 12);
  });

  it('with a slope and a low corner, within what is allowed for either', () => {
    const corner = (hz: number): number => -10 * Math.log10(1 + (2 / hz) ** 2);
    const slope = (hz: number): number => 0.8 * Math.log2(hz / 10);
    const told = fitted({ add: (hz) => slope(hz) + corner(hz), spread: 1e-3, count: 60 }, { slope: 20, cornerHz: 8 });
    expect(told.hz).toBeCloseTo(9.5, 2);
    expect(told.q).toBeCloseTo(2.6, 2);
    for (const hz of [5, 9, 17]) expect(told.besideDb(hz)).toBeCloseTo(slope(hz) + corner(hz), 1);
  });

  it('a slope ends at 2 dB an octave, a corner at 12 Hz and at nothing', () => {
    const of = (by: number) => fitted({ add: (hz) => by * Math.log2(hz / 10) }, { slope: 1e6, cornerHz: 1e-9 });
    for (const by of [3, -3]) {
      const { besideDb } = of(by);
      expect(besideDb(20) - besideDb(10)).toBeCloseTo(2 * Math.sign(by), 6);
    }
    // a level that rises at its low end asks for a corner of less than none
    const rises = fitted(
      { add: (hz) => 10 * Math.log10(1 + (2 / hz) ** 2), spread: 1e-3 },
      { slope: 1e-6, cornerHz: 6 },
    );
    expect(rises.besideDb(5)).toBeGreaterThan(-0.01);
    const falls = (hz: number): number => -10 * Math.log10(1 + (20 / hz) ** 2);
    const deep = fitResonance(points({ add: falls, spread: 1e-4 }), { slope: 1e-6, cornerHz: 100 });
    if (!('why' in deep)) expect(deep.besideDb(5)).toBeGreaterThan(-10 * Math.log10(1 + 144 / 25) - 1e-6);
  });
});

/** The fit's own numbers at what it told, by plain sums: slopes of the model by steps of a millionth. */
function reference(made: Made, told: ResonanceFit, askew: Askew | null) {
  const all = points(made);
  const slope = (told.besideDb(1e6) - told.besideDb(5e5)) / 1;
  const corner = 25 * (10 ** (-(told.besideDb(5) - slope * Math.log2(0.5)) / 10) - 1);
  const at = [Math.log(told.hz), Math.log(told.q), told.gainDb, ...(askew === null ? [] : [slope, corner])];
  const model = (hz: number, [a, b, c, d = 0, e = 0]: number[]): number =>
    c + d * Math.log2(hz / 10) - 10 * Math.log10(1 + e / hz ** 2) + level(hz, Math.exp(a), Math.exp(b));
  const weights = all.map(({ spread }) => 1 / (spread ** 2 + 0.05 ** 2));
  const misfit = all.reduce((s, p, i) => s + weights[i] * (p.db - model(p.hz, at)) ** 2, 0);
  const scale = 1.5 * Math.max(0.1, misfit / (all.length - 3));
  const whole = weights.reduce((a, b) => a + b, 0);
  const held =
    askew === null
      ? []
      : [
          { mean: 0, spread: askew.slope },
          { mean: askew.cornerHz ** 2 / 3, spread: askew.cornerHz ** 2 * Math.sqrt(1 / 5 - 1 / 9) },
        ];
  const rows = all.map((p) =>
    at.map((_, k) => {
      const moved = (by: number) =>
        model(
          p.hz,
          at.map((v, j) => (j === k ? v + by : v)),
        );
      return (moved(1e-5) - moved(-1e-5)) / 2e-5;
    }),
  );
  const data = at.map((_, a) => at.map((__, b) => rows.reduce((s, r, i) => s + (weights[i] * r[a] * r[b]) / scale, 0)));
  const matrix = data.map((row, a) => row.map((v, b) => v + (a === b && a > 2 ? 1 / held[a - 3].spread ** 2 : 0)));
  const inverse = inverted(matrix);
  const parts = [0, 1].map((k) => {
    const own = inverse[k].reduce((s, g, a) => s + inverse[k].reduce((t, h, b) => t + g * h * data[a][b], 0), 0);
    return {
      own: Math.sqrt(own),
      ofSlope: askew === null ? 0 : Math.abs(inverse[k][3]) / held[0].spread,
      ofCorner: askew === null ? 0 : Math.abs(inverse[k][4]) / held[1].spread,
    };
  });
  const strain = held.reduce((s, { mean, spread }, k) => s + ((at[3 + k] - mean) / spread) ** 2, 0);
  return { parts, leftDb: Math.sqrt(misfit / whole), strainDb: Math.sqrt((misfit + scale * strain) / whole) };
}
function inverted(matrix: number[][]): number[][] {
  const n = matrix.length;
  const m = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    m[i] = m[i].map((v) => v / m[i][i]);
    for (let k = 0; k < n; k++) if (k !== i) m[k] = m[k].map((v, j) => v - m[k][i] * m[i][j]);
  }
  return m.map((row) => row.slice(n));
}

describe('how sure it is', () => {
  it.each([
    ['of levels that scatter as they say', { noise: 0.15 }, null],
    ['that scatter by more', { noise: 0.5 }, null],
    ['that scatter by far less: a tenth of it is chance', { noise: 0.003, spread: 0.3 }, null],
    ['where cut and chain may be askew', { noise: 0.15 }, { slope: 0.15, cornerHz: 2 }],
    ['and are', { noise: 0.3, add: (hz: number) => 0.4 * Math.log2(hz / 10) }, { slope: 0.3, cornerHz: 4 }],
  ] as const)('%s', (_, made, askew) => {
    const told = fitted(made, askew);
    const { parts, leftDb, strainDb } = reference(made, told, askew);
    const near = (v: number) => expect.closeTo(v, 5);
    expect(told.hzSpread).toEqual(near(parts[0].own));
    expect(told.qSpread).toEqual(near(parts[1].own));
    expect(told.hzBeside).toMatchObject({ ofSlope: near(parts[0].ofSlope), ofCorner: near(parts[0].ofCorner) });
    expect(told.qBeside).toMatchObject({ ofSlope: near(parts[1].ofSlope), ofCorner: near(parts[1].ofCorner) });
    expect(told.leftDb).toBeCloseTo(leftDb, 5);
    expect(told.strainDb).toBeCloseTo(strainDb, 4);
  });

  it('it is where the squares are least: no step to any side is better', () => {
    const made = { noise: 0.3 };
    const told = fitted(made);
    const squares = (lnHz: number, lnQ: number, gain: number): number =>
      points(made).reduce((s, p) => {
        const miss = p.db - told.gainDb - gain - level(p.hz, told.hz * Math.exp(lnHz), told.q * Math.exp(lnQ));
        return s + miss ** 2 / (p.spread ** 2 + 0.05 ** 2);
      }, 0);
    const least = squares(0, 0, 0);
    for (const step of [1e-3, -1e-3]) {
      expect(squares(step, 0, 0)).toBeGreaterThan(least);
      expect(squares(0, 3 * step, 0)).toBeGreaterThan(least);
      expect(squares(0, 0, 3 * step)).toBeGreaterThan(least);
    }
  });

  it('one level under a click hardly moves it', () => {
    const clean = fitted({ noise: 0.1 });
    for (const by of [12, -12]) {
      const hit = fitted({ noise: 0.1, add: (_, i) => (i === 9 ? by : 0) });
      expect(Math.abs(hit.hz / clean.hz - 1)).toBeLessThan(0.01);
      expect(Math.abs(hit.q / clean.q - 1)).toBeLessThan(0.05);
    }
  });

  it('a surer level counts for more', () => {
    const bent = points({ add: (_, i) => (i % 2 === 0 ? 0 : 0.5) });
    const even = bent.map((p, i) => ({ ...p, spread: i % 2 === 0 ? 0.01 : 1 }));
    const odd = bent.map((p, i) => ({ ...p, spread: i % 2 === 0 ? 1 : 0.01 }));
    expect((fitResonance(even) as ResonanceFit).gainDb).toBeCloseTo(-33, 1);
    expect((fitResonance(odd) as ResonanceFit).gainDb).toBeCloseTo(-32.5, 1);
  });
});

describe('there is none', () => {
  it('of fewer than eight levels', () => {
    expect(why({ count: 7 })).toBe('resonance-no-fit');
    expect(why({ count: 8 })).toBeNull();
  });

  it('where the sweep does not go 12 % beyond it on either side', () => {
    expect(why({ f0: 5.7, from: 5 })).toBeNull();
    expect(why({ f0: 5.55, from: 5 })).toBe('resonance-not-enclosed');
    expect(why({ f0: 17.7, to: 20 })).toBeNull();
    expect(why({ f0: 18, to: 20 })).toBe('resonance-not-enclosed');
  });

  it('where Q lies outside of 0.35 to 25, or more is left than 2.5 dB', () => {
    expect(why({ q: 0.37, count: 90, from: 2, to: 60 })).toBeNull();
    expect(why({ q: 0.33, count: 90, from: 2, to: 60 })).toBe('resonance-no-fit');
    expect(why({ q: 24, count: 200 })).toBeNull();
    expect(why({ q: 27, count: 200 })).toBe('resonance-no-fit');
    // ± in turns: what is left is as large
    const shaken = (by: number) => why({ q: 1, spread: 1, add: (_, i) => (i % 2 === 0 ? by : -by) });
    expect(shaken(2.4)).toBeNull();
    expect(shaken(2.6)).toBe('resonance-no-fit');
  });
});
