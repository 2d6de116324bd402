/** Powers that follow the law exactly, without chance: what the fit must give back, and every reason to tell nothing. */
import { describe, expect, it } from 'vitest';
import { bodyItself, fitHump, type HumpPoint, tipAgainstBody, tipAlong } from './humpFit.ts';

const BIN = 0.25;
interface Law {
  readonly f0?: number;
  readonly q?: number;
  readonly fall?: number;
  readonly level?: number;
  readonly averages?: number;
  readonly from?: number;
  readonly to?: number;
  readonly but?: (hz: number, power: number) => number;
}
const H2 = (f: number, f0: number, q: number): number => {
  const x = f / f0;
  return x ** 4 / ((1 - x * x) ** 2 + (x / q) ** 2);
};
/** a window sees a sixth of either neighbour */
function points(law: Law, kernel = H2): HumpPoint[] {
  const { f0 = 9.3, q = 3.1, fall = 1.4, level = 2e-8, averages = 24, from = 1.5, to = 42, but = (_, p) => p } = law;
  const at = (f: number): number => level * (f / f0) ** -fall * kernel(f, f0, q);
  const of: HumpPoint[] = [];
  for (let hz = from; hz <= to; hz += BIN) {
    const power = (2 / 3) * at(hz) + (at(hz - BIN) + at(hz + BIN)) / 6;
    of.push({ hz, power: but(hz, power), spread: (m) => m / Math.sqrt(averages) });
  }
  return of;
}
const read = (law: Law) => fitHump(points(law), BIN, tipAgainstBody);

describe('kernels', () => {
  it('tip against body |H|², the body |1 − H|², along the groove a mixture, from H = s²/(s² + sω₀/Q + ω₀²)', () => {
    for (const [f, f0, q] of [
      [6, 9, 2],
      [9, 9, 3],
      [20, 9, 1.2],
    ]) {
      const d = { re: 1 - (f / f0) ** 2, im: f / f0 / q };
      const size = d.re ** 2 + d.im ** 2;
      const top = -((f / f0) ** 2);
      const h = { re: (top * d.re) / size, im: (-top * d.im) / size };
      expect(tipAgainstBody(f, f0, q)).toBeCloseTo(h.re ** 2 + h.im ** 2, 12);
      expect(bodyItself(f, f0, q)).toBeCloseTo((1 - h.re) ** 2 + h.im ** 2, 12);
      expect(tipAlong(f, f0, q)).toBeCloseTo((0.85 * h.re + 0.15) ** 2 + (0.85 * h.im) ** 2, 12);
    }
  });
});

describe('a hump that follows the law', () => {
  it.each([
    [9.3, 3.1, 1.4],
    [6.2, 1.8, -0.5],
    [14.1, 6, 2.6],
  ])('f₀ %f Hz, Q %f, a drive that falls by the power %f: as they are', (f0, q, fall) => {
    const hump = read({ f0, q, fall });
    expect(hump?.hz).toBeCloseTo(f0, 3);
    expect(hump?.q).toBeCloseTo(q, 3);
    expect(hump?.fall).toBeCloseTo(fall, 3);
    expect((hump?.level ?? 0) / 2e-8).toBeCloseTo(1, 3);
    const near = points({ f0, q, fall }).filter(({ hz }) => hz > f0 / 2 && hz < f0 * 2);
    expect(hump?.points.map(({ hz, power }) => [hz, power])).toEqual(near.map(({ hz, power }) => [hz, power]));
    for (const { power, fitted } of hump?.points ?? []) expect(fitted / power).toBeCloseTo(1, 4);
  });

  it('as the body moves, and as the tip goes along the groove', () => {
    for (const kernel of [bodyItself, tipAlong]) {
      const hump = fitHump(points({}, kernel), BIN, kernel);
      expect(hump?.hz).toBeCloseTo(9.3, 3);
      expect(hump?.q).toBeCloseTo(3.1, 3);
    }
  });

  it('its ± by Fisher’s information of what each bin allows, and neighbours that hold the same noise', () => {
    const law = { f0: 9.3, q: 3.1, fall: 1.4, averages: 24 };
    const hump = read(law);
    // slopes of ln m against ln f₀, ln Q, ln A and the fall
    const at = ([f0, q, a, p]: readonly number[]) =>
      points({ f0: Math.exp(f0), q: Math.exp(q), level: Math.exp(a), fall: p })
        .filter(({ hz }) => hz > 9.3 / 2 && hz < 9.3 * 2)
        .map(({ power }) => Math.log(power));
    const centre = [Math.log(9.3), Math.log(3.1), Math.log(2e-8), 1.4];
    const slopes = centre.map((_, j) => {
      const [up, down] = [1, -1].map((by) => at(centre.map((v, i) => (i === j ? v + by * 1e-4 : v))));
      return up.map((v, k) => (v - down[k]) / 2e-4);
    });
    const m = slopes.map((a) => slopes.map((b) => 24 * a.reduce((s, v, k) => s + v * b[k], 0)));
    // inverse by elimination
    const size = 4;
    const rows = m.map((row, i) => [...row, ...Array.from({ length: size }, (_, k) => (k === i ? 1 : 0))]);
    for (let p = 0; p < size; p++) {
      const pivot = rows[p][p];
      rows[p] = rows[p].map((v) => v / pivot);
      for (let r = 0; r < size; r++) if (r !== p) rows[r] = rows[r].map((v, c) => v - rows[r][p] * rows[p][c]);
    }
    expect((hump?.hzSpread ?? 0) / Math.sqrt(1.944 * rows[0][4])).toBeCloseTo(1, 2);
    expect((hump?.qSpread ?? 0) / Math.sqrt(1.944 * rows[1][5])).toBeCloseTo(1, 2);
    // four times as many averages, half of it
    expect((read({ ...law, averages: 96 })?.hzSpread ?? 0) / (hump?.hzSpread ?? 1)).toBeCloseTo(0.5, 3);
  });

  it('more scatter than the bins allow makes it less sure by as much', () => {
    const ripple = (hz: number, power: number): number => power * (1 + 0.4 * Math.cos(40 * hz * hz));
    const [calm, rough] = [read({ averages: 400 }), read({ averages: 400, but: ripple })];
    expect(rough?.hz).toBeCloseTo(9.3, 0);
    const near = points({ averages: 400, but: ripple }).filter(({ hz }) => hz > 9.3 / 2 && hz < 18.6);
    const chi = near.reduce(
      (s, p) => s + ((p.power / (rough?.points.find(({ hz }) => hz === p.hz)?.fitted ?? 1) - 1) * 20) ** 2,
      0,
    );
    const grown = (rough?.hzSpread ?? 0) / (calm?.hzSpread ?? 1);
    expect(grown / Math.sqrt(chi / (near.length - 4))).toBeGreaterThan(0.7);
    expect(grown / Math.sqrt(chi / (near.length - 4))).toBeLessThan(1.4);
  });

  it('a line that stands out of it counts no more for being louder', () => {
    for (const at of [5, 8.5, 9.25]) {
      const of = (by: number) => read({ but: (hz, power) => (hz === at ? by * power : power) });
      const [loud, louder] = [of(10), of(30)];
      expect(Math.abs((louder?.hz ?? 0) - 9.3), `${at} Hz`).toBeLessThan(0.08);
      expect(Math.abs((louder?.q ?? 0) / 3.1 - 1), `${at} Hz`).toBeLessThan(0.07);
      expect(louder?.hz).toBeCloseTo(loud?.hz ?? 0, 6);
      // it is less sure for it
      expect(louder?.hzSpread ?? 0).toBeGreaterThan(1.5 * (loud?.hzSpread ?? 1));
    }
  });
});

describe('where no resonance is told', () => {
  const told = (law: Law): boolean => read(law) !== null;
  it('of fewer than twenty points from 2 to 40 Hz, or fewer than twelve about it', () => {
    expect(told({ from: 7, to: 11.75 })).toBe(false);
    const wide = points({ f0: 9.3, from: 2, to: 40 });
    expect(
      fitHump(
        wide.filter((_, i) => i % 8 === 0),
        BIN,
        tipAgainstBody,
      ),
    ).toBeNull();
    expect(
      fitHump(
        wide.filter((_, i) => i % 5 === 0),
        BIN,
        tipAgainstBody,
      ),
    ).toBeNull();
    // what lies below 2 or above 40 Hz does not count
    const beyond = { but: (hz: number, power: number) => (hz < 2 || hz > 40 ? 1e6 * power : power) };
    expect(read({ ...beyond, f0: 12, from: 1, to: 44 })?.hz).toBeCloseTo(12, 2);
    expect(fitHump([], BIN, tipAgainstBody)).toBeNull();
  });

  it('less damped than Q 15 or more than Q 0.9', () => {
    const sure = (q: number): boolean => told({ q, averages: 400 });
    expect([0.85, 0.95, 14.5, 15.5].map(sure)).toEqual([false, true, true, false]);
  });

  it('where the points end less than a third beside it', () => {
    expect(told({ f0: 9.3, from: 9.3 / 1.3, averages: 400 })).toBe(false);
    expect(told({ f0: 9.3, from: 9.3 / 1.4, averages: 400 })).toBe(true);
    expect(told({ f0: 9.3, to: 9.3 * 1.3, averages: 400 })).toBe(false);
    expect(told({ f0: 9.3, to: 9.3 * 1.4, averages: 400 })).toBe(true);
  });

  it('where a smooth curve fits as well within what the bins allow', () => {
    // by how much it fits better goes with the averages
    expect([1, 1.5, 2, 4].map((averages) => told({ q: 3, averages }))).toEqual([false, false, true, true]);
    expect([0.4, 1, 2].map((averages) => told({ q: 6, averages }))).toEqual([false, true, true]);
    expect([12, 16].map((averages) => told({ q: 1.6, averages }))).toEqual([false, true]);
    expect(read({ but: () => 1e-9 })).toBeNull();
  });

  it('where there is nothing, or what is no number', () => {
    expect(read({ but: () => 0 })).toBeNull();
    expect(read({ but: (hz, power) => (hz === 9 ? Number.NaN : power) })).toBeNull();
  });
});
