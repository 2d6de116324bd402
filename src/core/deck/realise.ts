/**
 * Analogue responses as digital filters: poles and zeros where they fall (matched z), and a short FIR fitted by least
 * squares to the complex ratio that is left, so that magnitude and phase both hold to the top of the band.
 *
 * A bilinear or a plain matched-z equaliser misses RIAA by several dB at 20 kHz and 44.1 or 48 kHz; with the FIR it is
 * within 0.001 dB from 20 Hz to 20 kHz at 44.1 to 192 kHz (realise.test.ts). The output is late by exactly `delay` frames.
 */
import { type Complex, magnitude, over, polar, times } from '../units/complex.ts';

export interface FirShape {
  readonly taps: number;
  readonly delay: number;
  readonly edge: number;
}

/**
 * Length of the FIR, the frames by which it is late, and the share of the sample rate up to which it is fitted; above
 * that the response is free. At 44.1 and 48 kHz the fit must come close to half the rate, which takes more taps.
 */
export function firShape(sampleRateHz: number): FirShape {
  return sampleRateHz < 80000 ? { taps: 64, delay: 32, edge: 0.458 } : { taps: 40, delay: 20, edge: 0.42 };
}
const FIT_POINTS = 1024;

/** One first- or second-order section: (b0 + b1 z⁻¹ + b2 z⁻²) / (1 + a1 z⁻¹ + a2 z⁻²). */
export interface Section {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
}

export interface Realised {
  readonly sections: readonly Section[];
  readonly fir: Float64Array;
  readonly delay: number;
}

export function sectionsAt(sections: readonly Section[], hz: number, sampleRateHz: number): Complex {
  const z1 = polar(1, (-2 * Math.PI * hz) / sampleRateHz);
  const z2 = times(z1, z1);
  let response: Complex = { re: 1, im: 0 };
  for (const { a, b } of sections) {
    const top = { re: b[0] + b[1] * z1.re + b[2] * z2.re, im: b[1] * z1.im + b[2] * z2.im };
    const bottom = { re: 1 + a[0] * z1.re + a[1] * z2.re, im: a[0] * z1.im + a[1] * z2.im };
    response = times(response, over(top, bottom));
  }
  return response;
}

/** Response of the whole, its delay taken out. */
export function realisedAt(filter: Realised, hz: number, sampleRateHz: number): Complex {
  const omega = (2 * Math.PI * hz) / sampleRateHz;
  let re = 0;
  let im = 0;
  filter.fir.forEach((tap, k) => {
    re += tap * Math.cos(omega * (filter.delay - k));
    im += tap * Math.sin(omega * (filter.delay - k));
  });
  return times({ re, im }, sectionsAt(filter.sections, hz, sampleRateHz));
}

/** First-order section with pole and zero where s-plane corners 1/τ fall; `zeroTau` null puts none, Infinity one at 0 Hz. */
export function matchedFirstOrder(sampleRateHz: number, poleTau: number | null, zeroTau: number | null): Section {
  const at = (tau: number | null) => (tau === null ? 0 : Math.exp(-1 / (tau * sampleRateHz)));
  return { b: [1, -at(zeroTau), 0], a: [-at(poleTau), 0] };
}

/** Pole pair of 1/(1 + s/(ω₀Q) + s²/ω₀²) where it falls. */
export function matchedResonance(sampleRateHz: number, hz: number, q: number): Section {
  const omega = (2 * Math.PI * hz) / sampleRateHz;
  const decay = Math.exp(-omega / (2 * q));
  const inside = 1 - 1 / (4 * q * q);
  const turn = omega * Math.sqrt(Math.abs(inside));
  return { b: [1, 0, 0], a: [-2 * decay * (inside >= 0 ? Math.cos(turn) : Math.cosh(turn)), decay * decay] };
}

/**
 * Sections times an FIR that together follow `target`.
 * @param target complex response wanted at a frequency in Hz, without the delay
 */
export function realise(
  sections: readonly Section[],
  target: (hz: number) => Complex,
  sampleRateHz: number,
  shape: FirShape = firShape(sampleRateHz),
): Realised {
  // Scale the sections to the target at 1 kHz, so that the FIR's job is near one.
  const first = sections[0];
  const gain = magnitude(over(target(1000), sectionsAt(sections, 1000, sampleRateHz)));
  const scaled: Section[] =
    first === undefined ? [] : [{ a: first.a, b: [first.b[0] * gain, first.b[1] * gain, first.b[2] * gain] }];
  scaled.push(...sections.slice(1));

  // Normal equations of Σ |Σ h_k e^(−jωk) − R(ω) e^(−jωD)|²: a symmetric Toeplitz matrix of cosines.
  const { taps: n, delay, edge } = shape;
  const lags = new Float64Array(n);
  const right = new Float64Array(n);
  for (let i = 0; i < FIT_POINTS; i++) {
    const hz = ((i + 0.5) / FIT_POINTS) * edge * sampleRateHz;
    const omega = (2 * Math.PI * hz) / sampleRateHz;
    const ratio = over(target(hz), sectionsAt(scaled, hz, sampleRateHz));
    for (let k = 0; k < n; k++) {
      lags[k] += Math.cos(omega * k);
      right[k] += ratio.re * Math.cos(omega * (k - delay)) - ratio.im * Math.sin(omega * (k - delay));
    }
  }
  lags[0] *= 1 + 1e-11;
  return { sections: scaled, fir: solveToeplitz(lags, right), delay };
}

/** Cholesky of the symmetric positive-definite matrix lags[|i − j|], then both substitutions. */
function solveToeplitz(lags: Float64Array, right: Float64Array): Float64Array {
  const n = right.length;
  const lower = Array.from({ length: n }, () => new Float64Array(n));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = lags[i - j];
      for (let k = 0; k < j; k++) sum -= lower[i][k] * lower[j][k];
      lower[i][j] = i === j ? Math.sqrt(Math.max(sum, lags[0] * 1e-15)) : sum / lower[j][j];
    }
  }
  const x = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] -= lower[i][k] * x[k];
    x[i] /= lower[i][i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] -= lower[k][i] * x[k];
    x[i] /= lower[i][i];
  }
  return x;
}
