/** What once per turn, its mean and their variances are, against the same written plainly: full least squares and sums over every bin. */
import { describe, expect, it } from 'vitest';
import { fitRotation, type Rotation } from './rotation.ts';
import type { ThinTrace } from './thinTrace.ts';

const RATE_HZ = 12;
const GROUP_S = 1 / RATE_HZ;

/** Solution and inverse of AᵀA by Gauss and Jordan. */
function leastSquares(rows: number[][], y: number[]) {
  const n = rows[0].length;
  const m = Array.from({ length: n }, (_, i) => [
    ...Array.from({ length: n }, (_, j) => rows.reduce((s, r) => s + r[i] * r[j], 0)),
    ...Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)),
    rows.reduce((s, r, k) => s + r[i] * y[k], 0),
  ]);
  for (let i = 0; i < n; i++) {
    const pivot = m[i][i];
    m[i] = m[i].map((v) => v / pivot);
    for (let k = 0; k < n; k++) if (k !== i) m[k] = m[k].map((v, j) => v - m[k][i] * m[i][j]);
  }
  return { solution: m.map((row) => row[2 * n]), inverse: m.map((row) => row.slice(n, 2 * n)) };
}

const clamp = (v: number): number => Math.min(1, Math.max(0, v));

function reference({ deviation, rateHz, startS, groupS }: ThinTrace, hz: number): Rotation {
  const x = [...deviation];
  const count = x.length;
  const lengthS = count / rateHz;
  const turns = lengthS * hz;
  const harmonics = turns >= 3 ? 3 : turns >= 2 ? 2 : 1;
  const middleS = startS + (count - 1) / 2 / rateHz;
  const times = x.map((_, n) => startS + n / rateHz - middleS);
  const rows = times.map((t) => [
    1,
    t / lengthS,
    ...Array.from({ length: harmonics }, (_, h) => {
      const a = 2 * Math.PI * (h + 1) * hz * t;
      return [Math.cos(a), Math.sin(a)];
    }).flat(),
  ]);
  const { solution, inverse } = leastSquares(rows, x);
  const left = x.map((v, n) => v - rows[n].reduce((s, r, i) => s + r * solution[i], 0));

  const weight = (b: number): number => {
    let w = clamp((b - 1) / 0.5);
    for (let h = 1; h <= harmonics; h++) w *= clamp((Math.abs(b - h * turns) - 0.75) / 0.5);
    return w;
  };
  const power = (b: number): number => {
    let [re, im] = [0, 0];
    left.forEach((v, n) => {
      re += v * Math.cos((2 * Math.PI * b * n) / count);
      im += v * Math.sin((2 * Math.PI * b * n) / count);
    });
    return re * re + im * im;
  };
  const density = (from: number, to: number) => {
    const all = Array.from({ length: Math.round(2 * (to - from)) + 1 }, (_, k) => from + k / 2)
      .filter((b) => b <= count / 2.5)
      .map((b) => ({ b, w: weight(b) }))
      .filter(({ w }) => w > 0);
    const bins = all.reduce((s, { w }) => s + w, 0);
    if (bins === 0) return { mean: 0, bins: 0, centre: from };
    return {
      mean: all.reduce((s, { b, w }) => s + w * power(b), 0) / bins / count,
      bins: bins / 2,
      centre: Math.exp(all.reduce((s, { b, w }) => s + w * Math.log(b), 0) / bins),
    };
  };
  type Density = ReturnType<typeof density>;
  const slope = (low: Density, above: Density, a: number, b: number): number =>
    low.mean > 0 && above.mean > 0 ? Math.log(low.mean / above.mean) / Math.log(b / a) : 0;
  const steepOf = (v: number): number => Math.min(2, Math.max(0, v));
  const isShort = turns < 2.3;

  const from = Math.max(turns / 1.75, turns - 8);
  const [below, over] = [density(from, turns), density(turns, turns ** 2 / from)];
  const around: Density =
    below.bins >= 1.5 && over.bins >= 1.5
      ? { mean: Math.sqrt(below.mean * over.mean), bins: below.bins + over.bins, centre: turns }
      : density(turns - 5, turns + 5);

  const [low, above, all, high] = [density(1.5, 3), density(3.5, 7), density(1.5, 7), density(7.5, 20)];
  let zero: number;
  if (isShort) {
    const steep = steepOf(slope(all, high, all.centre, high.centre) + 0.35);
    zero = all.mean * (all.centre / 2.2) ** steep * (1 + 4 * steep);
  } else if (low.mean < all.mean) zero = Math.sqrt(low.mean * all.mean);
  else zero = Math.max(all.mean, low.mean * (1 + 1.5 * steepOf(slope(low, above, 2.2, 5) - 0.7)));

  const slow = (): number => {
    const [a, b] = isShort ? [all, high] : [low, above];
    const steep = steepOf(slope(a, b, a.centre, b.centre) + (isShort ? 0.35 : 0));
    const levels = Math.min(0.5, lengthS / (2 * Math.PI * 10));
    const along =
      Math.abs(steep - 1) < 1e-6 ? Math.log(0.5 / levels) : (0.5 ** (1 - steep) - levels ** (1 - steep)) / (1 - steep);
    return a.mean * a.centre ** steep * 2 * (along + levels ** (1 - steep));
  };
  const chance = zero * inverse[1][1];
  const drift = Math.max(0, Math.min(solution[1] ** 2 - chance, 2 * (solution[1] ** 2 - 2.5 * chance)));

  const back = (Math.PI * hz * groupS) / Math.sin(Math.PI * hz * groupS);
  const [p, q] = [solution[2] * back, solution[3] * back];
  const angle = 2 * Math.PI * hz * middleS;
  let [along, square] = [0, 0];
  times.forEach((t, n) => {
    const a = 2 * Math.PI * hz * t;
    const g = t * (solution[3] * Math.cos(a) - solution[2] * Math.sin(a));
    along += g * left[n];
    square += g * g;
  });
  return {
    meanCorrection: solution[0],
    meanVariance: zero * inverse[0][0] + drift / 9,
    meanFreedom: Math.max(2, 2 * all.bins),
    slowVariance: slow() * inverse[0][0] + drift * 1.7 * (10 / lengthS),
    re: p * Math.cos(angle) - q * Math.sin(angle),
    im: -q * Math.cos(angle) - p * Math.sin(angle),
    variance: around.mean * ((inverse[2][2] + inverse[3][3]) / 2),
    degreesOfFreedom: Math.max(2, 2 * around.bins),
    turning: square > 0 ? along / square : 0,
    turningVariance: (around.mean + 1e-30) / Math.max(square, 1e-30),
    turns,
    middleS,
  };
}

/** Numbers from −1 to 1, the same in every test. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
}
const noises: Record<string, (seed: number, count: number) => number[]> = {
  even: (seed, count) => Array.from({ length: count }, chance(seed)),
  'that wanders': (seed, count) => {
    const next = chance(seed);
    let at = 0;
    return Array.from({ length: count }, () => (at = 0.97 * at + 0.3 * next()));
  },
  'as of a phase': (seed, count) => {
    const next = chance(seed);
    let before = 0;
    return Array.from({ length: count }, () => {
      const now = next();
      const rise = now - before;
      before = now;
      return rise;
    });
  },
};
const trace = (
  noise: keyof typeof noises,
  lengthS: number,
  hz: number,
  swing: number,
  drift = 0,
  seed = 7,
): ThinTrace => {
  const startS = 3.7;
  const count = Math.floor(lengthS * RATE_HZ);
  const of = noises[noise](seed, count);
  return {
    rateHz: RATE_HZ,
    startS,
    meanHz: 3150,
    groupS: GROUP_S,
    deviation: Float64Array.from({ length: count }, (_, n) => {
      const t = startS + n / RATE_HZ;
      const turn = 2 * Math.PI * hz * t;
      return swing * Math.cos(turn + 1) + 0.3 * swing * Math.sin(2 * turn) + 1e-4 * of[n] + (drift * n) / count;
    }),
  };
};
const agrees = (of: ThinTrace, hz: number): void => {
  const told = fitRotation(of, hz)!;
  const plain = reference(of, hz);
  for (const key of Object.keys(plain) as (keyof Rotation)[]) {
    const size = Math.max(Math.abs(plain[key]), key === 're' || key === 'im' ? 1e-6 : 1e-12);
    expect(Math.abs(told[key] - plain[key]) / size, `${key}: ${told[key]}, ${plain[key]}`).toBeLessThan(1e-6);
  }
};

describe.each(Object.keys(noises))('with noise %s', (noise) => {
  // below two turns, below 2.3, below three, and beyond; of few values and of many
  it.each([
    [3.2, 0.5],
    [4.4, 0.5],
    [5, 0.5],
    [9, 0.5556],
    [22, 0.75],
    [70, 0.3],
    [50, 1.3],
  ])('%f s at %f turns a second', (lengthS, hz) => {
    agrees(trace(noise, lengthS, hz, 1e-3), hz);
    agrees(trace(noise, lengthS, hz, 0, 0, 11), hz);
  });

  it('and a drift, from next to none to far beyond chance', () => {
    for (const drift of [2e-5, 5e-5, 1e-4, 2e-4, 5e-4, -2e-3]) agrees(trace(noise, 18, 0.5556, 1e-3, drift), 0.5556);
  });
});

it('a trace that wanders as f⁻¹ just between is one of all slopes', () => {
  // many seeds: densities that fall, rise, and do neither
  for (let seed = 1; seed < 14; seed++) {
    agrees(trace('that wanders', 6 + seed, 0.5556, 1e-4, 0, seed), 0.5556);
    agrees(trace('even', 3 + seed / 5, 0.5556, 1e-4, 0, seed), 0.5556);
  }
});

it('needs a turn and a half, and a rotation of 0.05 to 3 turns a second', () => {
  const of = trace('even', 3, 0.5, 1e-3);
  expect(fitRotation(of, 0.5)).not.toBeNull();
  expect(fitRotation({ ...of, deviation: of.deviation.slice(0, 35) }, 0.5)).toBeNull();
  expect(fitRotation({ ...of, deviation: new Float64Array(0) }, 0.5)).toBeNull();
  for (const hz of [0.05, 3, Number.NaN]) expect(() => fitRotation(of, hz)).toThrow('must be from 0.05 to 3');
  expect(() => fitRotation(of, 2.99)).not.toThrow();
  expect(fitRotation(of, 0.051)).toBeNull();
});

it('of a trace that does nothing nothing turns', () => {
  const still = { ...trace('even', 9, 0.5, 0), deviation: new Float64Array(108) };
  expect(fitRotation(still, 0.5)).toMatchObject({
    meanCorrection: 0,
    meanVariance: 0,
    slowVariance: 0,
    variance: 0,
    turning: 0,
    turningVariance: 1,
  });
});
