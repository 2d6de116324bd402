/** The whole fit written out: the same grid, the same scoring, every condition by itself. */
import { describe, expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { median } from '../signal/robust.ts';
import { solveSymmetric } from '../signal/solveSymmetric.ts';
import { bodyItself, fitHump, type HumpPoint, tipAgainstBody } from './humpFit.ts';

type Kernel = typeof tipAgainstBody;
type Model = (hz: number, at: readonly number[]) => number;

const hump =
  (kernel: Kernel, bin: number): Model =>
  (hz, [f, q, a, p]) => {
    const at = (one: number) => kernel(one, Math.exp(f), Math.exp(q)) / (one / Math.exp(f)) ** p;
    return (Math.exp(a) * (4 * at(hz) + at(hz - bin) + at(hz + bin))) / 6;
  };
const smooth =
  (middle: number): Model =>
  (hz, [a, b, c]) =>
    Math.exp(a + Math.log(hz / middle) * (b + c * Math.log(hz / middle)));

function scored(points: readonly HumpPoint[], model: Model, from: readonly number[]) {
  let at = [...from];
  let spread: number[] = [];
  for (let round = 0; round < 40; round++) {
    const miss = points.map((p) => (p.power - model(p.hz, at)) / p.spread(model(p.hz, at)));
    if (points.some((p, i) => !(p.spread(model(p.hz, at)) > 0) || !Number.isFinite(miss[i]))) return null;
    const unit = Math.max(1, 1.4826 * median(miss.map(Math.abs)));
    const weight = miss.map((v) => (Math.abs(v) > 3 * unit ? (3 * unit) / Math.abs(v) : 1));
    const slope = points.map((p) =>
      at.map((_, j) => {
        const moved = (d: number) =>
          model(
            p.hz,
            at.map((v, i) => (i === j ? v + d : v)),
          );
        return (moved(1e-4) - moved(-1e-4)) / 2e-4 / p.spread(model(p.hz, at));
      }),
    );
    const matrix = at.map((_, a) =>
      Float64Array.from(
        at,
        (_v, b) => slope.reduce((s, row, i) => s + weight[i] * row[a] * row[b], 0) * (a === b ? 1 + 1e-6 : 1),
      ),
    );
    const right = Float64Array.from(at, (_, a) => slope.reduce((s, row, i) => s + weight[i] * row[a] * miss[i], 0));
    const solved = solveSymmetric(matrix, right);
    if (solved === null) return null;
    const largest = Math.max(...solved.solution.map(Math.abs));
    at = at.map((v, k) => v + Math.min(1, 0.3 / largest) * solved.solution[k]);
    const chi = miss.reduce((s, v, i) => s + weight[i] * v * v, 0) / Math.max(1, points.length - at.length);
    spread = solved.inverse.map((row, k) => Math.sqrt(1.944 * Math.max(1, chi) * row[k]));
    if (largest < 1e-6) break;
  }
  return { at, spread };
}

function plain(points: readonly HumpPoint[], bin: number, kernel: Kernel) {
  const inside = points.filter(({ hz }) => hz >= 2 && hz <= 40);
  const about = (f0: number) => inside.filter(({ hz }) => hz > f0 / 2 && hz < 2 * f0);
  const model = hump(kernel, bin);
  let best: number[] | null = null;
  let least = Number.POSITIVE_INFINITY;
  if (inside.length < 20) return null;
  for (let f0 = 4; f0 < 24; f0 *= 1.09) {
    const near = about(f0);
    if (near.length < 12) continue;
    for (const q of [1, 2, 4, 8]) {
      for (const p of [-1, 1, 3]) {
        const level = median(near.map((one) => one.power / model(one.hz, [Math.log(f0), Math.log(q), 0, p])));
        if (!(level > 0)) continue;
        const at = [Math.log(f0), Math.log(q), Math.log(level), p];
        const cost =
          near.reduce(
            (s, one) => s + Math.min(9, ((one.power - model(one.hz, at)) / one.spread(model(one.hz, at))) ** 2),
            0,
          ) / near.length;
        if (cost < least) [least, best] = [cost, at];
      }
    }
  }
  if (best === null) return null;
  let fit: ReturnType<typeof scored> = { at: best, spread: [] };
  let near = inside;
  for (let round = 0; round < 3; round++) {
    near = about(Math.exp(fit.at[0]));
    if (near.length < 12) return null;
    fit = scored(near, model, fit.at);
    if (fit === null) return null;
  }
  const { at, spread } = fit;
  const [hz, q] = [Math.exp(at[0]), Math.exp(at[1])];
  const curve = scored(near, smooth(hz), [Math.log(median(near.map(({ power }) => power))), 0, 0]);
  const left = (m: Model, of: readonly number[]) =>
    near.reduce((s, p) => s + ((p.power - m(p.hz, of)) / p.spread(model(p.hz, at))) ** 2, 0);
  const gain = curve === null ? 0 : left(smooth(hz), curve.at) - left(model, at);
  const reasons = {
    gain: gain <= 1.944 * 6,
    damped: q <= 0.9,
    sharp: q >= 15,
    low: hz <= near[0].hz * 1.35,
    high: hz >= near[near.length - 1].hz / 1.35,
    unsureHz: spread[0] >= 0.1,
    unsureQ: spread[1] >= 0.5,
  };
  return {
    hz,
    q,
    spread,
    level: Math.exp(at[2]),
    fall: at[3],
    reasons,
    near,
    fitted: near.map((p) => model(p.hz, at)),
  };
}

const BIN = 0.3;
function heard(
  seed: number,
  {
    f0 = 9,
    q = 3,
    fall = 1,
    averages = 20,
    from = 1.5,
    to = 43,
    floor = 0,
    kernel = tipAgainstBody as Kernel,
    line = 0,
  },
) {
  const draw = gaussian(seed);
  const points: HumpPoint[] = [];
  for (let hz = from; hz < to; hz += BIN) {
    const power = 1e-8 * (hz / f0) ** -fall * kernel(hz, f0, q) + floor;
    const one = Math.max(0.02, 1 + draw() / Math.sqrt(averages)) * power * (Math.abs(hz - line) < BIN / 2 ? 8 : 1);
    points.push({ hz, power: one, spread: (m) => Math.hypot(m, 1e-12) / Math.sqrt(averages) });
  }
  return { points, kernel };
}

describe('a hump out of noise, written out', () => {
  const cases: [string, Parameters<typeof heard>[1]][] = [
    ['a plain one', {}],
    ['with a hum line in it', { line: 11.4 }],
    ['of few averages', { averages: 5, q: 4 }],
    ['of next to none', { averages: 2, q: 2 }],
    ['low', { f0: 5.2, q: 2.5 }],
    ['high', { f0: 17, q: 5, fall: 2 }],
    ['sharp', { q: 13, averages: 60 }],
    ['too sharp', { q: 19, averages: 60 }],
    ['hardly one', { q: 0.95, averages: 300 }],
    ['near the upper end', { f0: 12, to: 15.9 }],
    ['near the lower end', { f0: 9, from: 7 }],
    ['as the body moves', { kernel: bodyItself, fall: 2 }],
    ['over a floor', { floor: 3e-8, q: 5 }],
    ['of a rising drive', { fall: -1.3 }],
    ['too few points', { from: 6, to: 11 }],
  ];
  it.each(cases)('%s', (_, of) => {
    const { points, kernel } = heard(of.averages ?? 7, of);
    const [found, wanted] = [fitHump(points, BIN, kernel), plain(points, BIN, kernel)];
    const isTold = wanted !== null && !Object.values(wanted.reasons).includes(true);
    expect(found !== null, JSON.stringify(wanted?.reasons)).toBe(isTold);
    if (found === null || wanted === null) return;
    expect(found.hz / wanted.hz).toBeCloseTo(1, 8);
    expect(found.q / wanted.q).toBeCloseTo(1, 8);
    expect(found.hzSpread / wanted.spread[0]).toBeCloseTo(1, 6);
    expect(found.qSpread / wanted.spread[1]).toBeCloseTo(1, 6);
    expect(found.fall).toBeCloseTo(wanted.fall, 7);
    expect(found.level / wanted.level).toBeCloseTo(1, 7);
    expect(found.points.map(({ hz, power }) => [hz, power])).toEqual(wanted.near.map(({ hz, power }) => [hz, power]));
    found.points.forEach(({ fitted }, i) => {
      expect(fitted / wanted.fitted[i]).toBeCloseTo(1, 7);
    });
  });
});
