import { expect, it } from 'vitest';
import { readDeck } from './deck.ts';
import { slippingTip } from './slipping.ts';

const RATE_HZ = 192_000;
const [HZ, V] = [300, 7];
const PERIOD = RATE_HZ / HZ;

/** Both walls of a lateral tone in the last of 20 periods, with and without the fault. */
function lost(slips: object, bothCmS = V) {
  const { cartridge } = readDeck({ cartridge: { slips } });
  const frames = 20 * PERIOD;
  const wall = () => Float64Array.from({ length: frames }, (_, n) => bothCmS * Math.sin((2 * Math.PI * n) / PERIOD));
  const [left, right] = [wall(), wall()];
  const slip = slippingTip(cartridge.slips, RATE_HZ)!;
  // in parts, as the deck does
  for (let from = 0; from < frames; from += 1024) {
    const to = Math.min(frames, from + 1024);
    slip(left.subarray(from, to), right.subarray(from, to), to - from);
  }
  const plain = wall();
  const last = (of: Float64Array) => [...of.subarray(frames - PERIOD)].map((v, i) => v - plain[frames - PERIOD + i]);
  return { left: last(left), right: last(right) };
}
const most = (values: readonly number[]) => values.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
const limit = (share: number) => (share * 2 * Math.PI * HZ * V) / 100;

it('up to its limit nothing is lost, beyond it a share of what is lacking', () => {
  const both = (share: number) => ({ leftUpToMS2: limit(share), rightUpToMS2: limit(share), otherWallPercent: 0 });
  expect(most(lost(both(1.005)).left)).toBe(0);
  // ∫ of what is over cos φ: 2 (sin φ − φ cos φ) of the velocity
  for (const share of [0.95, 0.8, 0.5]) {
    const phi = Math.acos(share);
    const lag = 0.05 * V * 2 * (Math.sin(phi) - phi * share);
    const { left, right } = lost({ ...both(share), lostPercent: 5, ringQ: 0.5 });
    expect(most(left) / lag).toBeCloseTo(1, 1);
    expect(most(right) / lag).toBeCloseTo(1, 1);
  }
});

it('the inner wall is lost where it draws away, half a period from the outer one; either brings its share to the other', () => {
  const place = (values: readonly number[]) =>
    values.indexOf(values.reduce((m, v) => (Math.abs(v) > Math.abs(m) ? v : m), 0));
  const both = lost({ leftUpToMS2: limit(0.8), rightUpToMS2: limit(0.8), otherWallPercent: 0, ringQ: 0.5 });
  expect(Math.abs(place(both.left) - place(both.right))).toBe(PERIOD / 2);
  // the outer wall draws away with positive velocity: the tip lags, so there it is negative
  expect(both.right[place(both.right)]).toBeLessThan(0);
  expect(both.left[place(both.left)]).toBeGreaterThan(0);
  const one = lost({ leftUpToMS2: limit(0.8), rightUpToMS2: null, otherWallPercent: 25 });
  one.right.forEach((v, i) => {
    expect(v).toBeCloseTo(0.25 * one.left[i], 9);
  });
});
