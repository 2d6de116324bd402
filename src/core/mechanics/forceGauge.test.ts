import { describe, expect, test } from 'vitest';
import { calibrateGauge, correctReading } from './forceGauge.ts';

describe('calibration of a force gauge', () => {
  test('one known mass: a factor, its uncertainty from mass and last digit', () => {
    const calibration = calibrateGauge([{ reference: 2, referenceUncertainty: 0.002, reading: 2.04 }], 0.01);
    expect(calibration.factor).toBeCloseTo(2 / 2.04, 12);
    const u = Math.hypot(0.001, 0.01 / Math.sqrt(12)) / 2.04;
    expect(calibration.factorStandardUncertainty).toBeCloseTo(u, 12);
    const corrected = correctReading(calibration, 1.8);
    expect(corrected.value).toBeCloseTo((1.8 * 2) / 2.04, 12);
    expect(corrected.uncertainty).toBeCloseTo(2 * Math.hypot(1.8 * u, (2 / 2.04) * (0.01 / Math.sqrt(12))), 12);
  });

  test('three masses by hand: weighted through zero', () => {
    const readings = [
      { reference: 1, referenceUncertainty: 0, reading: 1.01 },
      { reference: 2, referenceUncertainty: 0, reading: 2.03 },
      { reference: 5, referenceUncertainty: 0, reading: 5.05 },
    ];
    const { factor } = calibrateGauge(readings, 0.01);
    const top = 1 * 1.01 + 2 * 2.03 + 5 * 5.05;
    const bottom = 1.01 ** 2 + 2.03 ** 2 + 5.05 ** 2;
    expect(factor).toBeCloseTo(top / bottom, 12);
  });

  test('readings that scatter more than their digit widen the uncertainty', () => {
    const steady = [1, 2, 3].map((reference) => ({ reference, referenceUncertainty: 0, reading: reference }));
    const loose = [1.05, 1.96, 3.04].map((reading, i) => ({ reference: i + 1, referenceUncertainty: 0, reading }));
    const a = calibrateGauge(steady, 0.01);
    const b = calibrateGauge(loose, 0.01);
    expect(b.factorStandardUncertainty).toBeGreaterThan(5 * a.factorStandardUncertainty);
    expect(b.readingStandardUncertainty).toBeGreaterThan(0.02);
  });

  test('unit and scale: the same in mg', () => {
    const grams = calibrateGauge([{ reference: 2, referenceUncertainty: 0.002, reading: 2.04 }], 0.01);
    const milligrams = calibrateGauge([{ reference: 2000, referenceUncertainty: 2, reading: 2040 }], 10);
    expect(milligrams.factor).toBeCloseTo(grams.factor, 14);
    expect(correctReading(milligrams, 1800).uncertainty).toBeCloseTo(1000 * correctReading(grams, 1.8).uncertainty, 9);
  });

  test('refuses what is no reading', () => {
    expect(() => calibrateGauge([], 0.01)).toThrow(/number of readings is 0/);
    expect(() => calibrateGauge([{ reference: 2, referenceUncertainty: 0, reading: Number.NaN }], 0.01)).toThrow(
      /reading is NaN/,
    );
  });
});

test('two readings of one mass that lie 0.2 apart: by n − 1 the scatter of one is 0.141', () => {
  const readings = [1.9, 2.1].map((reading) => ({ reference: 2, referenceUncertainty: 0, reading }));
  const { readingStandardUncertainty, factor } = calibrateGauge(readings, 0.001);
  const residuals = [1.9, 2.1].map((reading) => 2 - factor * reading);
  expect(readingStandardUncertainty).toBeCloseTo(Math.hypot(...residuals), 12);
  expect(readingStandardUncertainty).toBeCloseTo(0.1414, 3);
});
