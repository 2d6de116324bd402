import { describe, expect, it } from 'vitest';
import { weightedLeastSquares } from '../weightedLeastSquares.ts';
import { fitCoil, fitTip, type LevelAt, withoutCoil } from './coilFit.ts';

/** sixths of an octave from 1.5 kHz to 20 kHz */
const HZ = Array.from({ length: 23 }, (_, i) => 1500 * 2 ** (i / 6)).filter((hz) => hz <= 20_000);
const known = { addedF: 100e-12, loadOhm: 47_000, coilOhm: 700 };
function responseDb(hz: number, henry: number, farad: number): number {
  const w = 2 * Math.PI * hz;
  const { coilOhm, loadOhm } = known;
  return (
    -10 *
    Math.log10((1 + coilOhm / loadOhm - w * w * henry * farad) ** 2 + (w * (henry / loadOhm + coilOhm * farad)) ** 2)
  );
}
const changeOf = (henry: number, farad: number, level = 0, spread = 0.05): LevelAt[] =>
  HZ.map((hz) => ({
    hz,
    db: responseDb(hz, henry, farad + known.addedF) - responseDb(hz, henry, farad) + level,
    spread,
  }));
const tipDb = (hz: number, f0: number, q: number) => -10 * Math.log10((1 - (hz / f0) ** 2) ** 2 + (hz / f0 / q) ** 2);
const restOf = (f0: number, q: number, spread = 0.1, level = 0): LevelAt[] =>
  HZ.map((hz) => ({ hz, db: tipDb(hz, f0, q) + level, spread }));
/** k = 1 of the first two parameters as logarithms, by the slopes of a model with a free level. */
function spreadsOf(
  points: readonly LevelAt[],
  model: (hz: number, a: number, b: number) => number,
  at: [number, number],
) {
  const slope = (hz: number, i: number) => {
    const by = (share: number) => at.map((v, k) => (k === i ? v * Math.exp(share) : v)) as [number, number];
    return (model(hz, ...by(1e-5)) - model(hz, ...by(-1e-5))) / 2e-5;
  };
  const fit = weightedLeastSquares(
    points.map(({ hz }) => [slope(hz, 0), slope(hz, 1), 1]),
    points.map(() => 0),
    points.map(({ spread }) => spread ** -2),
  );
  return fit.found ? [0, 1].map((k) => at[k] * Math.sqrt(fit.covariance[k][k])) : [Number.NaN, Number.NaN];
}
const changeDb = (hz: number, henry: number, farad: number) =>
  responseDb(hz, henry, farad + known.addedF) - responseDb(hz, henry, farad);

describe('coil and load of a change', () => {
  it.each([
    [0.03, 400e-12, 0],
    [0.5, 60e-12, 0.4],
    [1.4, 800e-12, -0.3],
  ])('%d H and %d F, whatever the gain between', (henry, farad, level) => {
    const of = fitCoil(changeOf(henry, farad, level), known)!;
    expect(of.inductance / henry).toBeCloseTo(1, 5);
    expect(of.capacitance / farad).toBeCloseTo(1, 5);
    expect(of.leftDb).toBeLessThan(1e-6);
  });

  it('spreads are those of the points, more where they scatter more than they say', () => {
    const change = changeOf(0.5, 200e-12).map((one, i) => ({ ...one, spread: i % 2 === 0 ? 0.05 : 0.1 }));
    const of = fitCoil(change, known)!;
    const [henry, farad] = spreadsOf(change, changeDb, [0.5, 200e-12]);
    expect(of.inductanceSpread / henry).toBeCloseTo(1, 4);
    expect(of.capacitanceSpread / farad).toBeCloseTo(1, 4);
    // off to and fro by four spreads
    const rough = change.map((one, i) => ({ ...one, db: one.db + (i % 4 < 2 ? 4 : -4) * one.spread }));
    const worse = fitCoil(rough, known)!;
    const weights = change.map(({ spread }) => spread ** -2);
    const whole = weights.reduce((a, b) => a + b);
    const miss = rough.map(
      ({ hz, db }) =>
        db -
        responseDb(hz, worse.inductance, worse.capacitance + known.addedF) +
        responseDb(hz, worse.inductance, worse.capacitance),
    );
    const level = miss.reduce((sum, v, i) => sum + weights[i] * v, 0) / whole;
    const squares = miss.reduce((sum, v, i) => sum + weights[i] * (v - level) ** 2, 0);
    expect(worse.leftDb).toBeCloseTo(Math.sqrt(squares / whole), 4);
    const chi = Math.sqrt(squares / (HZ.length - 3));
    expect(chi).toBeGreaterThan(3);
    const [plain] = spreadsOf(rough, changeDb, [worse.inductance, worse.capacitance]);
    expect(worse.inductanceSpread / (chi * plain)).toBeCloseTo(1, 4);
  });

  it('nothing fits where there is nothing to fit', () => {
    expect(fitCoil([], known)).toBeNull();
    expect(fitCoil(changeOf(0.5, 200e-12).slice(0, 2), known)).toBeNull();
  });

  it('what it leaves of a response is the rest, re 1 kHz', () => {
    const coil = { inductance: 0.5, capacitance: 200e-12 };
    const first = HZ.map((hz) => ({
      hz,
      db: responseDb(hz, 0.5, 200e-12) - responseDb(1000, 0.5, 200e-12) + hz / 1e4,
      spread: 0.3,
    }));
    expect(withoutCoil(first, coil, known)).toEqual(
      HZ.map((hz) => ({ hz, db: expect.closeTo(hz / 1e4, 9), spread: 0.3 })),
    );
  });
});

describe('the tip of what is left', () => {
  it.each([
    [9000, 0.6, 0],
    [14_000, 3, 0.5],
    [18_000, 1, -1],
    [26_000, 1.5, 0],
  ])('%d Hz with a Q of %d', (f0, q, level) => {
    const rest = restOf(f0, q, 0.02, level);
    const of = fitTip(rest)!;
    expect(of.hz / f0).toBeCloseTo(1, 5);
    expect(of.q / q).toBeCloseTo(1, 5);
    const [hz, ofQ] = spreadsOf(rest, tipDb, [f0, q]);
    expect(of.hzSpread / hz).toBeCloseTo(1, 3);
    expect(of.qSpread / ofQ).toBeCloseTo(1, 3);
    expect(of.leftDb).toBeLessThan(1e-5);
  });

  it('is not told far above the top, too low, or of no Q that a tip has', () => {
    const top = Math.max(...HZ);
    const told = (f0: number, q: number) => fitTip(restOf(f0, q, 1e-4)) !== null;
    expect(told(1.58 * top, 1.5)).toBe(true);
    expect(told(1.62 * top, 1.5)).toBe(false);
    expect(told(4100, 1.5)).toBe(true);
    expect(told(3900, 1.5)).toBe(false);
    expect(told(14_000, 0.31)).toBe(true);
    expect(told(14_000, 0.29)).toBe(false);
    expect(told(14_000, 14.5)).toBe(true);
    expect(told(14_000, 15.5)).toBe(false);
  });

  it('nor where frequency or Q are told by less than a tenth and three tenths', () => {
    const bare = fitTip(restOf(24_000, 1.2, 1e-4))!;
    const [ofHz, ofQ] = [bare.hzSpread / bare.hz, bare.qSpread / bare.q].map((share) => share / 1e-4);
    const edge = Math.min(0.1 / ofHz, 0.3 / ofQ);
    expect(fitTip(restOf(24_000, 1.2, 0.97 * edge))).not.toBeNull();
    expect(fitTip(restOf(24_000, 1.2, 1.03 * edge))).toBeNull();
    // where the other of both is the first to go
    const other = fitTip(restOf(9000, 0.5, 1e-4))!;
    const [hz, q] = [other.hzSpread / other.hz, other.qSpread / other.q].map((share) => share / 1e-4);
    const first = Math.min(0.1 / hz, 0.3 / q);
    expect(fitTip(restOf(9000, 0.5, 0.97 * first))).not.toBeNull();
    expect(fitTip(restOf(9000, 0.5, 1.03 * first))).toBeNull();
  });
});
