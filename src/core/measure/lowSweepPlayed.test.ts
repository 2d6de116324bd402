/** What the phase tells of a sweep as played, against the same least squares written out, round by round. */
import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import type { LowSweepReading } from './lowSweepEstimator.ts';
import { sweptResonance } from './lowSweepFit.ts';
import { lawAt, type SweepCut } from './lowSweepPlace.ts';
import { fitResonance, type LevelPoint } from './secondOrder.ts';
import { armTransfer } from './sweptArm.ts';

const place = { startS: 2, lengthS: 24 };
function reading(
  cut: SweepCut,
  off: { startS: number; lengthS: number },
  noise: number,
  seed: number,
): LowSweepReading {
  const draw = gaussian(seed);
  const points = [];
  for (let s = 0.6; s < 23.5; s += 0.6) {
    const law = lawAt(cut, place, place.startS + s);
    const played = lawAt(cut, off, place.startS + s);
    const arm = armTransfer(played.hz, 10, 2.6);
    const size = 0.1 * Math.hypot(arm.re, arm.im);
    const angle = Math.atan2(arm.im, arm.re) + 2 * Math.PI * (played.cycles - law.cycles);
    const of = (by: number, turn: number) => ({
      re: by * size * Math.cos(angle + turn) + noise * draw(),
      im: by * size * Math.sin(angle + turn) + noise * draw(),
    });
    points.push({
      s,
      hz: law.hz,
      hzPerS: 0,
      windowS: 0.8,
      left: of(1, 0.2),
      right: of(0.7, 1.1),
      noise: 2 * noise ** 2 + 1e-9 * s,
    });
  }
  return { sheetBand: 0, cut, place, points };
}

const besideDb = (cycles: number): number => {
  const x = Math.min(1.5, Math.abs(cycles));
  return x < 1e-6
    ? 0
    : 20 * Math.log10(Math.abs(x - 1) < 1e-6 ? 0.5 : Math.sin(Math.PI * x) / (Math.PI * x * (1 - x * x)));
};

function plain({ cut, points }: LowSweepReading, offDb: (hz: number) => number) {
  // right against left over the whole sweep
  const cross = points.reduce(
    (sum, { left: l, right: r }) => ({
      re: sum.re + l.re * r.re + l.im * r.im,
      im: sum.im + l.re * r.im - l.im * r.re,
    }),
    { re: 0, im: 0 },
  );
  const turn = -Math.atan2(cross.im, cross.re);
  const heard = points
    .map((p) => ({
      ...p,
      z: {
        re: (p.left.re + p.right.re * Math.cos(turn) - p.right.im * Math.sin(turn)) / Math.SQRT2,
        im: (p.left.im + p.right.re * Math.sin(turn) + p.right.im * Math.cos(turn)) / Math.SQRT2,
      },
      power: p.left.re ** 2 + p.left.im ** 2 + p.right.re ** 2 + p.right.im ** 2,
    }))
    .filter(({ power, noise }) => power > 3 * noise);
  let hz = heard.map((p) => p.hz);
  const levels = (): LevelPoint[] =>
    heard.map((p, i) => {
      const power = Math.max(p.power - p.noise, 0.1 * p.power);
      return {
        hz: hz[i],
        hzPerS: 0,
        windowS: 0.8,
        rise: 0,
        db: 10 * Math.log10(power) - offDb(hz[i]) - besideDb(0.8 * (hz[i] - p.hz)),
        spread: ((10 / Math.LN10) * Math.sqrt(2 * power * p.noise + p.noise ** 2)) / power,
      };
    });
  let fit = fitResonance(levels());
  for (let round = 0; round < 4; round++) {
    if ('why' in fit) break;
    const k = cut.law === 'log' ? Math.log(cut.toHz / cut.fromHz) / place.lengthS : null;
    const shapes = (s: number): number[] => (k === null ? [1, s, s * s] : [1, Math.exp(k * s), s * Math.exp(k * s)]);
    const slopes = (s: number): number[] =>
      k === null ? [0, 1, 2 * s] : [0, k * Math.exp(k * s), (1 + k * s) * Math.exp(k * s)];
    const { hz: f0, q } = fit;
    const phases = heard.map(({ z }, i) => {
      const arm = armTransfer(hz[i], f0, q);
      return (Math.atan2(z.im, z.re) - Math.atan2(arm.im, arm.re)) / (2 * Math.PI);
    });
    // half a turn and more from one point to the next is taken for the other way round
    const cycles: number[] = [];
    phases.forEach((at, i) => {
      const first = at - Math.round(at);
      cycles.push(i === 0 ? first : cycles[i - 1] + (at - phases[i - 1] - Math.round(at - phases[i - 1])));
    });
    const weight = heard.map(({ power, noise }) => power / (noise + 1e-4 * power));
    const rows = heard.map(({ s }) => shapes(s));
    const matrix = [0, 1, 2].map((a) =>
      Float64Array.from([0, 1, 2], (b) => rows.reduce((sum, row, i) => sum + weight[i] * row[a] * row[b], 0)),
    );
    const right = Float64Array.from([0, 1, 2], (a) =>
      rows.reduce((sum, row, i) => sum + weight[i] * row[a] * cycles[i], 0),
    );
    const solved = solveSymmetric(matrix, right);
    if (solved === null) break;
    hz = heard.map((p) => Math.max(0.5, p.hz + slopes(p.s).reduce((sum, v, a) => sum + v * solved.solution[a], 0)));
    fit = fitResonance(levels());
  }
  return { fit, points: levels(), seconds: heard.map(({ s }) => s) };
}

it.each([
  [
    'linear, late and fast',
    { fromHz: 4, toHz: 24, law: 'linear', durationS: null },
    { startS: 2.2, lengthS: 23.6 },
    2e-4,
  ],
  [
    'linear, falling, in noise',
    { fromHz: 24, toHz: 4, law: 'linear', durationS: null },
    { startS: 1.9, lengthS: 24.3 },
    4e-3,
  ],
  ['log, early and slow', { fromHz: 25, toHz: 4, law: 'log', durationS: null }, { startS: 1.9, lengthS: 24.2 }, 1e-3],
  [
    'log, rising, in much noise',
    { fromHz: 4, toHz: 25, law: 'log', durationS: null },
    { startS: 2.1, lengthS: 24.1 },
    1e-2,
  ],
] as const)('%s', (_, cut, played, noise) => {
  const of = reading(cut, played, noise, 5);
  const offDb = (hz: number): number => 0.7 * Math.log2(hz);
  const [found, wanted] = [sweptResonance(of, 'lateral', true, offDb), plain(of, offDb)];
  expect(found.seconds).toEqual(wanted.seconds);
  found.points.forEach((point, i) => {
    expect(point.hz).toBeCloseTo(wanted.points[i].hz, 6);
    expect(point.db).toBeCloseTo(wanted.points[i].db, 6);
    expect(point.spread).toBeCloseTo(wanted.points[i].spread, 9);
  });
  expect('why' in found.fit).toBe('why' in wanted.fit);
  if ('why' in found.fit || 'why' in wanted.fit) return;
  expect(found.fit.hz).toBeCloseTo(wanted.fit.hz, 6);
  expect(found.fit.q).toBeCloseTo(wanted.fit.q, 6);
});
