/** The rumble weightings against what is known of them. Corners and slopes of DIN 45539 and IEC 60098 from memory: no printed table was seen. */
import { expect, it } from 'vitest';
import { rumbleGain } from '../../src/core/signal/rumbleWeighting.ts';

const db = (weighting: 'unweighted' | 'weighted', hz: number, shape: 'lines' | 'smooth' = 'lines'): number =>
  20 * Math.log10(rumbleGain(weighting, shape, hz));

it('unweighted: flat from 10 to 315 Hz (ČSN 36 8401, second-hand), 6 and 12 dB an octave beyond', () => {
  for (const hz of [10, 31.5, 100, 315]) expect(db('unweighted', hz)).toBeCloseTo(0, 9);
  expect(db('unweighted', 5)).toBeCloseTo(-6.02, 2);
  expect(db('unweighted', 630)).toBeCloseTo(-12.04, 2);
});

it('weighted: its maximum at 315 Hz, where the unweighted one is flat still (leaflet of the test record of DIN 45544)', () => {
  expect(db('weighted', 315)).toBeCloseTo(0, 9);
  for (const hz of [10, 100, 250, 400, 1000]) expect(db('weighted', hz)).toBeLessThan(0);
  expect(db('weighted', 157.5)).toBeCloseTo(-12.04, 2);
  expect(db('weighted', 630)).toBeCloseTo(-12.04, 2);
  expect(db('weighted', 31.5)).toBeCloseTo(-40, 2);
});

it('filters with the same ends run into the lines far from 315 Hz, and pass up to 2.5 dB more beside it', () => {
  expect(db('weighted', 315, 'smooth')).toBeCloseTo(0, 9);
  for (const hz of [20, 5000]) expect(db('weighted', hz, 'smooth') - db('weighted', hz)).toBeCloseTo(0, 1);
  // x² = 1/2: 1/((1 − x²)² + x²) = 4/3
  expect(db('weighted', 315 * Math.SQRT1_2, 'smooth') - db('weighted', 315 * Math.SQRT1_2)).toBeCloseTo(2.4988, 3);
  expect(db('unweighted', 10, 'smooth')).toBeCloseTo(-3.01, 2);
  // flat still at 315 Hz, as the leaflet has it; 1.25 dB up at x² = 1/2
  expect(db('unweighted', 315, 'smooth')).toBeCloseTo(0, 1);
  expect(db('unweighted', 315 * Math.SQRT1_2, 'smooth')).toBeCloseTo(1.25, 1);
});

it('refuses what is no frequency', () => {
  for (const hz of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => rumbleGain('weighted', 'lines', hz)).toThrow(RangeError);
  }
});
