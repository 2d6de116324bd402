/** The signs of docs/signs.md, heard in captures: a flat preamp, so that nothing turns the phase. */

import { expect, test } from 'vitest';
import { magnitude, over, phaseOf } from '../units/complex.ts';
import type { DeckFile } from './deck.ts';
import { hear, lineAt, toneBand } from './listen.fixture.ts';

const flat = { preamp: { equalisation: 'flat' } } as const satisfies DeckFile;
const deg = (rad: number) => (rad * 180) / Math.PI;

/** Left and right at 1 kHz, each against the reference tone's amplitude (0.1 of full scale). */
function heardOf(deck: DeckFile, motion: 'left' | 'right' | 'lateral' | 'vertical', v = 5) {
  const { left, right } = hear({ ...flat, ...deck }, { bands: [toneBand(motion, 1000, v)] });
  const at = (samples: Float64Array) => {
    const line = lineAt(samples, 48000, 1000, 0.1, 0.5);
    return { re: line.re * 10, im: line.im * 10 };
  };
  return { left: at(left), right: at(right) };
}

test('a wall at the reference velocity comes out at the reference level in its own channel alone', () => {
  const left = heardOf({}, 'left');
  expect(left.left.re).toBeCloseTo(1, 6);
  expect(magnitude(left.right)).toBeLessThan(1e-6);
  const right = heardOf({}, 'right');
  expect(right.right.re).toBeCloseTo(1, 6);
  expect(magnitude(right.left)).toBeLessThan(1e-6);
});

test('lateral motion is in phase, vertical in antiphase with left positive, each 1/√2 in a channel', () => {
  const lateral = heardOf({}, 'lateral');
  expect(lateral.left.re).toBeCloseTo(Math.SQRT1_2, 6);
  expect(lateral.right.re).toBeCloseTo(Math.SQRT1_2, 6);
  const vertical = heardOf({}, 'vertical');
  expect(vertical.left.re).toBeCloseTo(Math.SQRT1_2, 6);
  expect(vertical.right.re).toBeCloseTo(-Math.SQRT1_2, 6);
});

test('a clockwise tilt leaks right into left in phase and left into right in antiphase, by tan φ', () => {
  const deck = { cartridge: { tiltDeg: 2 } };
  const tan = Math.tan((2 * Math.PI) / 180);
  const left = heardOf(deck, 'left');
  expect(over(left.right, left.left).re).toBeCloseTo(-tan, 6);
  const right = heardOf(deck, 'right');
  expect(over(right.left, right.right).re).toBeCloseTo(tan, 6);
});

test('a record cut with a clockwise tilt looks like a cartridge tilted anticlockwise', () => {
  const { left, right } = hear(flat, { cut: { tiltDeg: 1.5 }, bands: [toneBand('left')] });
  const leak = over(lineAt(right, 48000, 1000, 0.1, 0.5), lineAt(left, 48000, 1000, 0.1, 0.5));
  expect(leak.re).toBeCloseTo(Math.tan((1.5 * Math.PI) / 180), 6);
});

test("the certificate's level correction is what is cut over what is stated", () => {
  const { left } = hear(flat, { bands: [{ ...toneBand('left'), levelCorrectionDb: -0.5 }] });
  expect(20 * Math.log10(magnitude(lineAt(left, 48000, 1000, 0.1, 0.5)) / 0.1)).toBeCloseTo(-0.5, 5);
});

test('leaks have the size and phase asked for at 1 kHz', () => {
  const deck = { cartridge: { leftIntoRight: { db: -30, phaseDeg: 40 }, rightIntoLeft: { db: -26, phaseDeg: -110 } } };
  const left = heardOf(deck, 'left');
  const lr = over(left.right, left.left);
  expect(20 * Math.log10(magnitude(lr))).toBeCloseTo(-30, 4);
  expect(deg(phaseOf(lr))).toBeCloseTo(40, 3);
  const right = heardOf(deck, 'right');
  const rl = over(right.left, right.right);
  expect(20 * Math.log10(magnitude(rl))).toBeCloseTo(-26, 4);
  expect(deg(phaseOf(rl))).toBeCloseTo(-110, 3);
});

test('swapped leads cross the channels, an inverted generator turns its own', () => {
  const swapped = heardOf({ leads: { swapped: true } }, 'left');
  expect(swapped.right.re).toBeCloseTo(1, 6);
  expect(magnitude(swapped.left)).toBeLessThan(1e-6);
  const inverted = heardOf({ leads: { leftInverted: true } }, 'lateral');
  expect(inverted.left.re).toBeCloseTo(-Math.SQRT1_2, 6);
  expect(inverted.right.re).toBeCloseTo(Math.SQRT1_2, 6);
  const both = heardOf({ leads: { swapped: true, leftInverted: true } }, 'left');
  expect(both.right.re).toBeCloseTo(-1, 6);
});

test('gains are dB, positive louder; a later right channel lags', () => {
  const deck = {
    cartridge: { gainDb: { left: 1.5, right: -0.5 } },
    preamp: { equalisation: 'flat', gainDb: { right: 0.25 }, rightDelayUs: 20 },
  } as const;
  const { left, right } = heardOf(deck, 'lateral');
  expect(20 * Math.log10(magnitude(over(left, right)))).toBeCloseTo(1.75, 4);
  expect(deg(phaseOf(over(right, left)))).toBeCloseTo(-360 * 1000 * 20e-6, 4);
});

test('a record that turns fast sounds higher', () => {
  const { left } = hear({ ...flat, platter: { speedErrorPercent: 1 } }, { bands: [toneBand('left')] });
  // 1 % faster: 1010 Hz, and the velocity grows with the speed.
  expect(magnitude(lineAt(left, 48000, 1010, 0.1, 0.5))).toBeCloseTo(0.101, 7);
  expect(magnitude(lineAt(left, 48000, 1000, 0.1, 0.5))).toBeLessThan(1e-4);
});

// Second harmonic of a tracking error, exact law H2/H1 = J2(2e)/J1(e): v/V, degrees, percent (computed values of docs/virtual-deck.md).
const published: readonly [number, number, number][] = [
  [0.1, 1, 0.174551],
  [0.3, 2, 1.047599],
  [0.5, 2, 1.745928],
  [1, 3, 5.23778],
];
const grooveSpeed = (((2 * Math.PI * 100) / 3 / 60) * 100) / 10; // cm/s at 100 mm

test.each(published)(
  'v/V = %d at a tracking error of %d° gives a second harmonic of %d percent',
  (share, error, percent) => {
    const sheet = { bands: [toneBand('lateral', 1000, share * grooveSpeed)] };
    const second = (trackingErrorDeg: number) => {
      const { left } = hear({ ...flat, arm: { trackingErrorDeg } }, sheet);
      const h1 = lineAt(left, 48000, 1000, 0.1, 0.5);
      const h2 = lineAt(left, 48000, 2000, 0.1, 0.5);
      expect(Math.abs(phaseOf(h1))).toBeLessThan(1e-6);
      return over(h2, h1);
    };
    // In phase with the sign of ε: v cos ωt + v (v tan ε/V) cos 2ωt.
    const positive = second(error);
    expect(100 * positive.re).toBeCloseTo(percent, 5);
    expect(Math.abs(positive.im)).toBeLessThan(1e-6);
    expect(100 * second(-error).re).toBeCloseTo(-percent, 5);
  },
);

test('too large a vertical angle turns the second harmonic of a vertical tone the other way', () => {
  const sheet = { bands: [toneBand('vertical', 1000, 0.2 * grooveSpeed)] };
  const { left, right } = hear({ ...flat, arm: { verticalAngleDeg: 24 } }, sheet);
  const e = 0.2 * (Math.tan((24 * Math.PI) / 180) - Math.tan((20 * Math.PI) / 180));
  const ratio = (samples: Float64Array) =>
    over(lineAt(samples, 48000, 2000, 0.1, 0.5), lineAt(samples, 48000, 1000, 0.1, 0.5));
  // v cos ωt − e v cos 2ωt with left +: both channels are ± that, so h2/h1 is −e in each.
  expect(ratio(left).re).toBeCloseTo(-e, 5);
  expect(ratio(right).re).toBeCloseTo(-e, 5);
});

test('a tracking error leaves vertical motion alone, a vertical error lateral motion', () => {
  const second = (deck: DeckFile, motion: 'lateral' | 'vertical') => {
    const { left } = hear({ ...flat, ...deck }, { bands: [toneBand(motion, 1000, 10)] });
    return magnitude(lineAt(left, 48000, 2000, 0.1, 0.5));
  };
  expect(second({ arm: { trackingErrorDeg: 3 } }, 'vertical')).toBeLessThan(1e-7);
  expect(second({ arm: { verticalAngleDeg: 30 } }, 'lateral')).toBeLessThan(1e-7);
});

test("the arm's tracking error follows the radius by the exact law", () => {
  // Worked example: d = 222, L = 239.296, offset 22.9855°: −0.9276° at 80 mm, +1.8056° at 146.05 mm.
  const geometry = { spindleToPivotMm: 222, effectiveLengthMm: 239.296, offsetDeg: 22.9855 };
  const { simulation } = hear(
    { arm: { geometry } },
    { bands: [toneBand('lateral', 1000, 5, 0.2, 80), toneBand('lateral', 1000, 5, 0.2, 146.05)] },
  );
  expect(simulation.truth.bands[0].trackingErrorDeg).toBeCloseTo(-0.9276, 3);
  expect(simulation.truth.bands[1].trackingErrorDeg).toBeCloseTo(1.8056, 3);
});
