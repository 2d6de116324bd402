import { describe, expect, it } from 'vitest';
import { exchangeAmong } from './exchangedChannels.ts';

/** Readings of a tone's ratio, right over left, with a scatter of 0.2 %; from `at` on as a lost sample leaves them. */
function readings(count: number, at: number | null, nepers: number, radians: number, turn: number) {
  let seed = 3;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return 0.006 * (seed / 2 ** 32 - 0.5);
  };
  return Array.from({ length: count }, (_, i) => {
    const isAfter = at !== null && i >= at;
    return {
      nepers: (isAfter ? -nepers : nepers) + hiss(),
      radians: (isAfter ? turn - radians : radians) + hiss(),
    };
  });
}

describe('left and right change places', () => {
  const turn = (2 * Math.PI * 1000) / 48_000;
  it.each([
    [0.1, 0],
    [-0.02, 0.01],
    [0, 0.05],
    [3.5, 2.9],
    [-4, -3],
  ])('ratio of %d nepers and %d rad', (nepers, radians) => {
    expect(Math.abs((exchangeAmong(readings(120, 47, nepers, radians, turn), turn) ?? -9) - 47)).toBeLessThanOrEqual(1);
    expect(Math.abs((exchangeAmong(readings(120, 47, nepers, radians, -turn), turn) ?? -9) - 47)).toBeLessThanOrEqual(
      1,
    );
    expect(exchangeAmong(readings(120, null, nepers, radians, turn), turn)).toBeNull();
  });

  it('a channel that loses 1 dB in the middle, or a headshell that is turned, is none', () => {
    const loses = readings(120, null, 0.1, 0.02, turn).map((one, i) => ({
      ...one,
      nepers: one.nepers - (i > 50 ? 0.115 : 0),
    }));
    expect(exchangeAmong(loses, turn)).toBeNull();
    const turned = readings(120, null, -3.5, 0, turn).map((one, i) =>
      i > 50 ? { nepers: -2.9, radians: Math.PI } : one,
    );
    expect(exchangeAmong(turned, turn)).toBeNull();
  });
});
