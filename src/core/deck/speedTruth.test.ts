import { expect, test } from 'vitest';
import { type DeckFile, readDeck } from './deck.ts';
import { readSheet } from './sheet.ts';
import { layOut } from './side.ts';
import { speedModel } from './speed.ts';
import { flutterTruth, flutterWeight } from './speedTruth.ts';

const truthOf = (deck: DeckFile, radiusMm = 100, fromS = 0, toS = 40) => {
  const whole = readDeck(deck);
  const side = layOut(readSheet({ bands: [{ signal: 'silent-groove', durationS: 60, radiusMm }] }), whole.side);
  return flutterTruth(speedModel(whole, side, 5), radiusMm, fromS, toS);
};
/** A sinusoid's magnitude is above this share of its peak for 5 % of the time. */
const SINE_2_SIGMA = Math.sin((Math.PI / 2) * 0.95);

test('one sinusoid of flutter: 2σ is sin(0.95·90°) of its peak, weighted by the table', () => {
  for (const [hz, weightDb] of [
    [4, 0],
    [0.8, -6],
    [0.2, -30.6],
    [20, -5.9],
    [100, -17.3],
  ]) {
    const { weightedPercent, unweightedPercent } = truthOf({ platter: { flutter: [{ hz, percent: 0.1 }] } });
    expect(unweightedPercent).toBeCloseTo(0.1 * SINE_2_SIGMA, 3);
    expect(weightedPercent).toBeCloseTo(0.1 * SINE_2_SIGMA * 10 ** (weightDb / 20), 3);
  }
});

test('the weighting is highest at 4 Hz and falls about 6 dB an octave on both sides', () => {
  const db = (hz: number) => 20 * Math.log10(flutterWeight(hz));
  expect(db(4)).toBeCloseTo(0, 7);
  for (let hz = 0.1; hz < 200; hz *= 1.1) expect(db(hz)).toBeLessThan(0.05);
  expect(db(50) - db(100)).toBeGreaterThan(4);
  expect(db(50) - db(100)).toBeLessThan(7);
  expect(db(200)).toBeCloseTo(-23, 6);
  expect(Number.isFinite(db(1000)) && Number.isFinite(db(0.01))).toBe(true);
});

test('wow and hole add as phasors once a turn', () => {
  const wow = [{ harmonic: 1, percent: 0.1, phaseDeg: 30 }];
  const apart = (offCentreAngleDeg: number) =>
    truthOf({ platter: { wow, startAngleDeg: 70 }, record: { offCentreMm: 0.1, offCentreAngleDeg } })
      .oncePerTurnPercent;
  // Wow is a·cos(Θ + 30°), the hole e/r·cos(Θ − ψ): together at ψ = −30°, against each other at 150°.
  expect(apart(-30)).toBeCloseTo(0.2, 7);
  expect(apart(150)).toBeCloseTo(0, 7);
  expect(apart(60)).toBeCloseTo(0.1 * Math.SQRT2, 7);
});

test('what lies outside 0.1 to 200 Hz does not count unweighted; nothing wrong is nothing', () => {
  expect(truthOf({ platter: { flutter: [{ hz: 0.06, percent: 1 }] } }).unweightedPercent).toBe(0);
  expect(new Set(Object.values(truthOf({})))).toEqual(new Set([0]));
});
