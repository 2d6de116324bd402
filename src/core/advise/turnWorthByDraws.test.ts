import { describe, expect, it } from 'vitest';
import { normalDraws } from './budget/normalDraws.ts';
import { SET_BY_EYE, type TurnWorth, turnWorth, usualBody, verdictOfWorth } from './turnWorth.ts';

const DEG = Math.PI / 180;
type Leaks = Parameters<typeof turnWorth>[0];
const leaning = (deg: number): Leaks => ({
  leftIntoRight: { re: 0.013 - deg * DEG, im: 0.01 },
  rightIntoLeft: { re: 0.018 + deg * DEG, im: -0.012 },
});
const noise = { leftIntoRight: { re: 1e-6, im: 2e-6 }, rightIntoLeft: { re: 3e-6, im: 4e-6 } };
const doubtOf = (sigma: number) => ({ tilt: sigma ** 2 / 2, common: sigma ** 2 / 3, quadrature: sigma ** 2, noise });

/** Posterior of two parts by brute force: their prior, and what was heard of each, on a grid about the mean. */
function gridPosterior(prior: number[][], noiseCov: number[][], heard: number[]) {
  const inverse = ([[a, b], [c, d]]: number[][]) => {
    const det = a * d - b * c;
    return [
      [d / det, -b / det],
      [-c / det, a / det],
    ];
  };
  const [p, n] = [inverse(prior), inverse(noiseCov)];
  // precision adds: Λ = P⁻¹ + N⁻¹, mean Λ⁻¹ N⁻¹ y
  const precision = p.map((row, i) => row.map((v, j) => v + n[i][j]));
  const cov = inverse(precision);
  const at = n.map((row) => row[0] * heard[0] + row[1] * heard[1]);
  return { cov, mean: cov.map((row) => row[0] * at[0] + row[1] * at[1]) };
}

/** The same answer by other algebra: precisions in place of gains, the turn by rotating each leak. */
function reference(heard: Leaks, doubt: ReturnType<typeof doubtOf>, bodyDeg: number) {
  const own = 10 ** -3 / 2;
  const body = Math.tan(bodyDeg * DEG) ** 2;
  const draws = (by: number) => {
    const [t, c, q] = [by * doubt.tilt, by * doubt.common, by * doubt.quadrature];
    const real = gridPosterior(
      [
        [own + body, -body],
        [-body, own + body],
      ],
      [
        [c + t + noise.leftIntoRight.re, c - t],
        [c - t, c + t + noise.rightIntoLeft.re],
      ],
      [heard.leftIntoRight.re, heard.rightIntoLeft.re],
    );
    const part = (n: number, y: number) => {
      const gain = own / (own + q + n);
      return { mean: gain * y, spread: Math.sqrt(own * (1 - gain)) };
    };
    const [left, right] = [
      part(noise.leftIntoRight.im, heard.leftIntoRight.im),
      part(noise.rightIntoLeft.im, heard.rightIntoLeft.im),
    ];
    const l11 = Math.sqrt(real.cov[0][0]);
    const l21 = real.cov[0][1] / l11;
    const l22 = Math.sqrt(real.cov[1][1] - l21 ** 2);
    const all = normalDraws(160).map(([a, b, c4, d]) => ({
      a: [real.mean[0] + l11 * a, left.mean + left.spread * c4],
      b: [real.mean[1] + l21 * a + l22 * b, right.mean + right.spread * d],
    }));
    return { all, real };
  };
  const now = draws(1);
  const tilt = Math.atan((now.real.mean[1] - now.real.mean[0]) / 2);
  const [[v11, v12], [, v22]] = now.real.cov;
  return { draws: now.all, ifWorse: draws(2).all, tilt, tiltSpread: Math.sqrt(v11 - 2 * v12 + v22) / 2 };
}

describe('the posterior of the deck’s own leaks, by other algebra', () => {
  it.each([
    [1.5, 0.004, 0.7],
    [-1.5, 0.004, 0.7],
    [2.2, 0.015, 0.7],
    [0.8, 0.01, 0.5],
    [-3, 0.02, 0.5],
  ])('a lean of %d° heard through a record of σ = %d', (deg, sigma, bodyDeg) => {
    const doubt = doubtOf(sigma);
    const of = turnWorth(leaning(deg), doubt, { ...SET_BY_EYE, bodyTilt: bodyDeg * DEG });
    const { tilt, tiltSpread, draws, ifWorse } = reference(leaning(deg), doubt, bodyDeg);
    expect(of.tilt).toBeCloseTo(tilt, 9);
    expect(of.tiltSpread).toBeCloseTo(tiltSpread, 9);
    // what each share of it gains and harms
    const worse = ({ a, b }: (typeof draws)[number], t = 0) => {
      const tan = Math.tan(t);
      // (c ± t)/(1 ∓ c t)
      const turned = ([re, im]: number[], by: number) => Math.hypot(re + by, im) / Math.hypot(1 - re * by, im * by);
      return Math.max(turned(a, tan), turned(b, -tan));
    };
    const losses = (of: typeof draws, turn: number) => of.map((one) => 20 * Math.log10(worse(one, turn) / worse(one)));
    const outcome = (set: typeof draws, turn: number) => {
      const all = losses(set, turn);
      return { gain: -all.reduce((x, y) => x + y, 0) / 160, harm: all.filter((db) => db > 0.5).length / 160 };
    };
    const tried = [0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, 1.1].map((share) => ({
      turn: share * tilt,
      ...outcome(draws, share * tilt),
      ifWorse: outcome(ifWorse, share * tilt).harm,
    }));
    const safe = tried.filter(({ gain, harm, ifWorse: other }) => gain >= 1.75 && harm <= 0.02 && other <= 0.04);
    const best = (set: typeof tried) => set.toSorted((x, y) => y.gain - x.gain)[0];
    const chosen = best(safe.length > 0 ? safe : tried);
    const action = safe.length > 0 ? 'tilt' : chosen.gain >= 1 ? 'trial-tilt' : 'leave-tilt';
    expect(of.action).toBe(action);
    expect(of.turn).toBeCloseTo(action === 'leave-tilt' ? 0 : chosen.turn, 9);
    expect(of.expectedGainDb).toBeCloseTo(chosen.gain, 6);
    expect(of.harmProbability).toBeCloseTo(chosen.harm, 9);
    // nobody gains more than who knows the leaks
    expect(of.gainIfKnownDb).toBeGreaterThan(chosen.gain);
    const finest = draws.map((one) => {
      let most = 0;
      for (let t = -0.2; t <= 0.2; t += 0.0005)
        most = Math.max(most, -20 * Math.log10(worse(one, Math.atan(t)) / worse(one)));
      return most;
    });
    const known = finest.reduce((x, y) => x + y, 0) / 160;
    expect(of.gainIfKnownDb).toBeLessThanOrEqual(known + 0.01);
    expect(of.gainIfKnownDb).toBeGreaterThan(0.75 * known);
  });

  it('all three answers come up, each way', () => {
    const actions = (sigma: number) =>
      [-3, -1, -0.2, 0.2, 1, 3].map((deg) => turnWorth(leaning(deg), doubtOf(sigma)).action);
    expect(actions(0.002)).toEqual(expect.arrayContaining(['tilt', 'leave-tilt']));
    expect(actions(0.02)).toContain('trial-tilt');
    for (const deg of [-3, 3]) expect(Math.sign(turnWorth(leaning(deg), doubtOf(0.002)).turn)).toBe(Math.sign(deg));
  });

  it('the body is believed as it was set', () => {
    expect(usualBody(true)).toEqual({ ownLeakDb: -30, bodyTilt: expect.closeTo(0.5 * DEG, 12) });
    expect(usualBody(false)).toEqual({ ownLeakDb: -30, bodyTilt: expect.closeTo(0.7 * DEG, 12) });
    expect(turnWorth(leaning(1), doubtOf(0.01))).toEqual(turnWorth(leaning(1), doubtOf(0.01), usualBody(false)));
  });
});

it.each([
  ['tilt', 0, 'adjust'],
  ['tilt', 5, 'adjust'],
  ['trial-tilt', 0, 'undecided'],
  ['trial-tilt', 5, 'undecided'],
  ['leave-tilt', 0.99, 'good'],
  ['leave-tilt', 1, 'undecided'],
] as const)('%s that %d dB could be gained on is %s', (action, gainIfKnownDb, verdict) => {
  expect(verdictOfWorth({ action, gainIfKnownDb } as TurnWorth)).toBe(verdict);
});
