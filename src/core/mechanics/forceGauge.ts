/** Calibration of a stylus-force gauge from readings of known masses. Any one unit throughout; g is what gauges show. */
import { within } from '../units/bounds.ts';

export interface GaugeReading {
  /** known mass, above 0 */
  readonly reference: number;
  /** of the known mass, k = 2 */
  readonly referenceUncertainty: number;
  /** what the gauge showed, tared to zero before */
  readonly reading: number;
}

export interface GaugeCalibration {
  /** true = reading × factor */
  readonly factor: number;
  /** standard uncertainty of `factor` */
  readonly factorStandardUncertainty: number;
  /** standard uncertainty of one reading: its last digit, or the scatter of the readings where that is more */
  readonly readingStandardUncertainty: number;
  readonly readings: number;
}

/**
 * A gauge that is tared before each weighing can be wrong by a factor only: the factor is fitted through zero by weighted
 * least squares, its uncertainty taken from the masses, the gauge's last digit and the scatter seen.
 *
 *   k = Σ w m r / Σ w r²,  w = 1/u²,  u² = (U_m/2)² + u_d²,  u_d = d/√12
 *
 * Where the scatter is larger than u allows, all uncertainties grow by it (Birge ratio).
 *
 * @param readings at least one
 * @param resolution last digit of the gauge, d, above 0
 * @throws RangeError naming the argument, its value and its bounds
 * @source JCGM 100:2008, 5.1.2 and H.3 (a straight-line calibration), here through zero
 * @checked src/core/mechanics/forceGauge.test.ts
 */
export function calibrateGauge(readings: readonly GaugeReading[], resolution: number): GaugeCalibration {
  within('number of readings', readings.length, 1, 1000);
  within('resolution', resolution, 1e-6, 100);
  const digit = resolution / Math.sqrt(12);
  let numerator = 0;
  let denominator = 0;
  for (const { reference, referenceUncertainty, reading } of readings) {
    within('reference', reference, 1e-6, 1e6);
    within('referenceUncertainty', referenceUncertainty, 0, reference);
    within('reading', reading, 1e-6, 1e6);
    const weight = 1 / ((referenceUncertainty / 2) ** 2 + digit ** 2);
    numerator += weight * reference * reading;
    denominator += weight * reading * reading;
  }
  const factor = numerator / denominator;
  let chiSquare = 0;
  let residuals = 0;
  for (const { reference, referenceUncertainty, reading } of readings) {
    const residual = reference - factor * reading;
    chiSquare += residual ** 2 / ((referenceUncertainty / 2) ** 2 + digit ** 2);
    residuals += residual ** 2;
  }
  const freedom = readings.length - 1;
  const birge = freedom > 0 ? Math.max(1, Math.sqrt(chiSquare / freedom)) : 1;
  const scatter = freedom > 0 ? Math.sqrt(residuals / freedom) : 0;
  return {
    factor,
    factorStandardUncertainty: birge / Math.sqrt(denominator),
    readingStandardUncertainty: Math.max(digit, scatter),
    readings: readings.length,
  };
}

/** A reading corrected, in the gauge's unit: value and expanded uncertainty (k = 2). `reading` 0 to 10⁶. */
export function correctReading(
  calibration: GaugeCalibration,
  reading: number,
): { readonly value: number; readonly uncertainty: number } {
  within('reading', reading, 0, 1e6);
  const { factor, factorStandardUncertainty, readingStandardUncertainty } = calibration;
  const u = Math.hypot(reading * factorStandardUncertainty, factor * readingStandardUncertainty);
  return { value: factor * reading, uncertainty: 2 * u };
}
