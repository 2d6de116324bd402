/** Thermal noise of coil and load at the input, with the input's own noise beside it. V, Ω, Hz, K. */

import { within } from '../units/bounds.ts';
import { magnitude } from '../units/complex.ts';
import { BOLTZMANN } from '../units/units.ts';
import { AUDIO_SPAN, type FrequencySpan } from './flattestLoad.ts';
import { type CoilAndLoad, checkCoilAndLoad, loadResponse, nodeImpedance } from './loading.ts';

/** Temperature that noise figures are given for, K. */
const NOISE_TEMPERATURE = 300;

/**
 * Density of the thermal noise at the input, V/√Hz.
 *
 *   e = √(4 k T Re Z(f)),  Z the coil, cable and load in parallel
 *
 * Everything at one temperature, so the resistance seen at the input is all that counts (Nyquist): a coil's inductance
 * takes its own noise away at the top and lets the load's come through.
 *
 * @throws RangeError naming the argument, its value and its bounds
 * @source Nyquist 1928 (from memory, not seen in a source); k exact by definition, SI 2019
 * @checked test/standards/coilAndLoad.test.ts, against a circuit simulator
 */
export function thermalNoiseDensity(network: CoilAndLoad, frequency: number, temperature = NOISE_TEMPERATURE): number {
  within('temperature', temperature, 1, 1000, 'K');
  return Math.sqrt(4 * BOLTZMANN * temperature * nodeImpedance(network, frequency).re);
}

/** √∫ density² df over a span, V rms, by adaptive Simpson over ln f to 10⁻⁸ of the whole. */
function integratedNoise(density: (frequency: number) => number, span: FrequencySpan = AUDIO_SPAN): number {
  within('fromHz', span.fromHz, 1e-3, 1e7, 'Hz');
  within('toHz', span.toHz, span.fromHz, 1e7, 'Hz');
  const power = (x: number) => {
    const f = Math.exp(x);
    return density(f) ** 2 * f;
  };
  const pieces = 16;
  const from = Math.log(span.fromHz);
  const width = (Math.log(span.toHz) - from) / pieces;
  let total = 0;
  let scale = 0;
  const edges = Array.from({ length: pieces + 1 }, (_, i) => power(from + i * width));
  for (const edge of edges) scale += edge * width;
  for (let i = 0; i < pieces; i++) {
    const a = from + i * width;
    const middle = power(a + width / 2);
    const whole = (width / 6) * (edges[i] + 4 * middle + edges[i + 1]);
    total += simpson(power, a, width, edges[i], middle, edges[i + 1], whole, (scale * 1e-8) / pieces, 30);
  }
  return Math.sqrt(total);
}

function simpson(
  f: (x: number) => number,
  a: number,
  width: number,
  left: number,
  middle: number,
  right: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const half = width / 2;
  const first = f(a + half / 2);
  const second = f(a + half + half / 2);
  const one = (half / 6) * (left + 4 * first + middle);
  const two = (half / 6) * (middle + 4 * second + right);
  const error = one + two - whole;
  if (depth === 0 || Math.abs(error) <= 15 * tolerance) return one + two + error / 15;
  return (
    simpson(f, a, half, left, first, middle, one, tolerance / 2, depth - 1) +
    simpson(f, a + half, half, middle, second, right, two, tolerance / 2, depth - 1)
  );
}

/** Thermal noise of coil and load at the input over a span, unweighted, V rms. */
export function thermalNoise(
  network: CoilAndLoad,
  span: FrequencySpan = AUDIO_SPAN,
  temperature = NOISE_TEMPERATURE,
): number {
  checkCoilAndLoad(network);
  return integratedNoise((f) => thermalNoiseDensity(network, f, temperature), span);
}

/** Noise of an amplifier referred to its input. */
export interface InputNoise {
  /** V/√Hz */
  readonly voltage: number;
  /** A/√Hz */
  readonly current: number;
}

export interface NoiseBudget {
  /** all V rms at the input over the span */
  readonly coil: number;
  readonly load: number;
  /** null where the input's noise is not known */
  readonly input: number | null;
  readonly total: number;
}

/**
 * Who makes the noise: the coil's resistance, the load's, and the input's own voltage and current.
 *
 *   coil √(4kT R_s)·|H|,  load √(4kT/R_L)·|Z|,  input √(e_n² + (i_n |Z|)²)
 *
 * @param weight multiplies every density, for a playback curve; default 1
 */
export function noiseBudget(
  network: CoilAndLoad,
  input: InputNoise | null = null,
  span: FrequencySpan = AUDIO_SPAN,
  temperature = NOISE_TEMPERATURE,
  weight: (frequency: number) => number = () => 1,
): NoiseBudget {
  checkCoilAndLoad(network);
  within('temperature', temperature, 1, 1000, 'K');
  const coilSource = Math.sqrt(4 * BOLTZMANN * temperature * network.coilResistance);
  const loadSource = Math.sqrt((4 * BOLTZMANN * temperature) / network.loadResistance);
  const coil = integratedNoise((f) => coilSource * magnitude(loadResponse(network, f)) * weight(f), span);
  const load = integratedNoise((f) => loadSource * magnitude(nodeImpedance(network, f)) * weight(f), span);
  let own: number | null = null;
  if (input !== null) {
    within('input voltage noise', input.voltage, 0, 1e-5, 'V/√Hz');
    within('input current noise', input.current, 0, 1e-7, 'A/√Hz');
    own = integratedNoise(
      (f) => Math.hypot(input.voltage, input.current * magnitude(nodeImpedance(network, f))) * weight(f),
      span,
    );
  }
  return { coil, load, input: own, total: Math.hypot(coil, load, own ?? 0) };
}
