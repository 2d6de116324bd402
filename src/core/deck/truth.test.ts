/** The truth beside a capture says what the deck does, in the signs of docs/signs.md: what every loop is judged by. */
import { expect, test } from 'vitest';
import type { DeckFile } from './deck.ts';
import { toneBand } from './listen.fixture.ts';
import { aWeight } from './noiseTruth.ts';
import { simulateSide } from './simulate.ts';

const truthOf = (deck: DeckFile, bands = [toneBand('lateral')]) =>
  simulateSide(deck, { bands }, { sampleRateHz: 48000, seed: 1 }).truth;
const figure = (deck: DeckFile, quantity: string) =>
  truthOf(deck).figures.find((f) => f.quantity === quantity)?.value as number;

test('a left channel that is louder is a positive balance, whichever way the leads are plugged', () => {
  const cartridge = { gainDb: { left: 1.2 } };
  expect(figure({ cartridge }, 'channel-balance')).toBeCloseTo(1.2, 6);
  expect(figure({ cartridge, leads: { swapped: true } }, 'channel-balance')).toBeCloseTo(1.2, 6);
  expect(figure({ cartridge: { gainDb: { right: 0.7 } }, leads: { swapped: true } }, 'channel-balance')).toBeCloseTo(
    -0.7,
    6,
  );
});

test('harmonics are of the wall, whichever way the leads are plugged', () => {
  const of = (swapped: boolean, motion: 'left' | 'lateral') =>
    truthOf({ cartridge: { secondHarmonicPercent: { left: 1, right: 0.3 } }, leads: { swapped } }, [toneBand(motion)])
      .figures.filter(({ quantity }) => quantity === 'second-harmonic')
      .map(({ channel, value }) => [channel, Number(Number(value).toFixed(3))]);
  expect(of(false, 'left')).toEqual([['left', 1]]);
  expect(of(true, 'left')).toEqual([['left', 1]]);
  expect(of(true, 'lateral')).toEqual(of(false, 'lateral'));
});

test('a platter that turns fast has a positive error, and its tones are told higher and their bands shorter', () => {
  const fast = truthOf({ platter: { speedErrorPercent: 0.8 } });
  expect(fast.figures.find((f) => f.quantity === 'speed-error')?.value).toBe(0.8);
  expect(fast.bands[0].meanSpeedErrorPercent).toBeCloseTo(0.8, 9);
  expect(fast.bands[0].frequencyHz).toBeCloseTo(1008, 6);
  const even = truthOf({});
  const length = ({ bands: [band] }: typeof even) => band.endS - band.startS;
  expect(length(fast)).toBeCloseTo(length(even) / 1.008, 6);
});

test('the path inwards makes every tone read slow: 0.002 to 0.012 % for a pitch of 0.1 mm on a 9-inch arm (computed)', () => {
  const arm = { geometry: { spindleToPivotMm: 222, effectiveLengthMm: 239.296, offsetDeg: 22.986 } };
  for (const radiusMm of [140, 100, 62]) {
    const bands = [{ ...toneBand('lateral', 1000, 5, 4), radiusMm }];
    const slow = truthOf({ arm, record: { groovePitchMm: 0.1 } }, bands).bands[0].meanSpeedErrorPercent;
    expect(slow).toBeLessThan(-0.002);
    expect(slow).toBeGreaterThan(-0.0125);
    // pitch · tan θ / (2π r): the groove comes towards the tip along the arm's arc
    const theta = Math.asin((radiusMm ** 2 + 239.296 ** 2 - 222 ** 2) / (2 * radiusMm * 239.296));
    expect(slow).toBeCloseTo((-100 * 0.1 * Math.tan(theta)) / (2 * Math.PI * radiusMm), 4);
  }
});

test('a record turned half round on the platter keeps its hole and turns the platter against it', () => {
  const at = (turnedDeg: number, offCentreMm: number) =>
    truthOf({ platter: { wow: [{ harmonic: 1, percent: 0.05 }] }, record: { offCentreMm, turnedDeg } }, [
      toneBand('lateral', 1000, 5, 4),
    ]).bands[0].flutter;
  const hole = (0.1 / 100) * 100;
  expect(at(0, 0.1)?.oncePerTurnPercent).toBeCloseTo(hole + 0.05, 4);
  expect(at(180, 0.1)?.oncePerTurnPercent).toBeCloseTo(hole - 0.05, 4);
  expect(at(180, 0.1)?.fromPlatterPercent).toBeCloseTo(0.05, 9);
  expect(at(180, 0)?.oncePerTurnPercent).toBeCloseTo(0.05, 9);
});

test('A-weighting, all 34 entries of IEC 61672-1, table 2 (as GOST 17187-2010 prints it), at the exact third-octave frequencies', () => {
  const table = [
    -70.4, -63.4, -56.7, -50.5, -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8,
    -3.2, -1.9, -0.8, 0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5, -4.3, -6.6, -9.3,
  ];
  table.forEach((db, i) => {
    expect(20 * Math.log10(aWeight(10 ** ((10 + i) / 10))), `entry ${i}`).toBeCloseTo(db, 1);
  });
});

test('dither trebles the noise of rounding: a quarter of a squared step against a twelfth', () => {
  const noise = (dither: boolean) =>
    truthOf({ converter: { bits: 16, dither } }, [{ ...toneBand('lateral'), signal: 'silent-groove' } as never]).noise
      .flatDbfs.left;
  expect(noise(true) - noise(false)).toBeCloseTo(10 * Math.log10(3), 3);
  // 1/12 of a squared step over half the rate, 20 Hz to 20 kHz of 24 kHz, against a full-scale sine
  const band = (20000 - 20) / 24000;
  expect(noise(false)).toBeCloseTo(10 * Math.log10((2 * band * 2 ** -30) / 12), 2);
});
