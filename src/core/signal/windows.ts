/**
 * Windows for spectra, periodic form: w[n] for n = 0 … N−1 is one period of a sum of cosines, so that hops of N/2, N/3, …
 * add up to a constant and bins fall on whole multiples of 1/N.
 *
 * @source A. V. Nuttall / F. J. Harris cosine-sum coefficients (from memory, not seen in a source; their published
 *   side-lobe levels are what windows.test.ts checks)
 */

export type WindowName = 'rectangular' | 'hann-periodic' | 'blackman-harris-periodic' | 'flat-top-periodic';

const COSINE_TERMS: Readonly<Record<WindowName, readonly number[]>> = {
  rectangular: [1],
  'hann-periodic': [0.5, 0.5],
  // 4 terms, highest side lobe −92 dB
  'blackman-harris-periodic': [0.35875, 0.48829, 0.14128, 0.01168],
  // 5 terms, a tone anywhere between two bins reads within 0.01 dB
  'flat-top-periodic': [0.21557895, 0.41663158, 0.277263158, 0.083578947, 0.006947368],
};

/** The window's samples. @param length points, 1 to 2²⁴ */
export function windowSamples(name: WindowName, length: number): Float64Array {
  if (!(Number.isInteger(length) && length >= 1 && length <= 1 << 24)) {
    throw new RangeError(`length ${length} must be a whole number from 1 to ${1 << 24}`);
  }
  const terms = COSINE_TERMS[name];
  const w = new Float64Array(length);
  for (let n = 0; n < length; n++) {
    let sum = 0;
    for (let k = 0; k < terms.length; k++) {
      sum += (k % 2 === 0 ? terms[k] : -terms[k]) * Math.cos((2 * Math.PI * k * n) / length);
    }
    w[n] = sum;
  }
  return w;
}

export const hannPeriodic = (length: number): Float64Array => windowSamples('hann-periodic', length);
