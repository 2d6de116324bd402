/** The load that makes the electrical response flattest. Ω, H, F, Hz, dB. */
import { within } from '../units/bounds.ts';
import { type CoilAndLoad, checkCoilAndLoad, loadPeak, loadResponseDb } from './loading.ts';

export interface FrequencySpan {
  readonly fromHz: number;
  readonly toHz: number;
}

export const AUDIO_SPAN: FrequencySpan = { fromHz: 20, toHz: 20000 };

/** Frequencies spread evenly over the logarithm, ends included; `count` 2 or more. */
export function logFrequencies(span: FrequencySpan, count: number): number[] {
  within('fromHz', span.fromHz, 1e-3, 1e7, 'Hz');
  within('toHz', span.toHz, span.fromHz, 1e7, 'Hz');
  within('count', count, 2, 100000);
  const step = Math.log(span.toHz / span.fromHz) / (count - 1);
  return Array.from({ length: count }, (_, i) => (i === count - 1 ? span.toHz : span.fromHz * Math.exp(i * step)));
}

/**
 * Largest departure from the level at 1 kHz within a span, dB, 0 or more.
 *
 * The response has one maximum at most and falls beyond it, so the extremes lie at the span's ends or at the maximum.
 */
export function deviationWithin(network: CoilAndLoad, span: FrequencySpan = AUDIO_SPAN): number {
  const ends = Math.max(Math.abs(loadResponseDb(network, span.fromHz)), Math.abs(loadResponseDb(network, span.toHz)));
  const peak = loadPeak(network);
  if (!peak.found || peak.value.frequency <= span.fromHz || peak.value.frequency >= span.toHz) return ends;
  return Math.max(ends, Math.abs(peak.value.level));
}

export interface FlatCapacitance {
  /** F */
  readonly capacitance: number;
  /** what is left, dB */
  readonly deviation: number;
  /** the least capacitance allowed was the best: less would be flatter still */
  readonly atLeast: boolean;
}

/**
 * Total capacitance, not less than what is there, for the flattest response.
 *
 * The departure falls with capacitance while the top droops, then rises with the peak; it is searched on 80 steps up to
 * `most` and refined by golden section to 0.01 pF.
 *
 * @param network `loadCapacitance` in it is ignored
 * @param least capacitance that cannot be removed (cable and input), F
 * @param most F, above `least`; default 2 nF more
 * @throws RangeError naming the argument, its value and its bounds
 * @checked src/core/electrics/flattestLoad.test.ts, against a plain scan
 */
export function flattestCapacitance(
  network: CoilAndLoad,
  least: number,
  most: number = least + 2e-9,
  span: FrequencySpan = AUDIO_SPAN,
): FlatCapacitance {
  checkCoilAndLoad(network);
  within('least', least, 0, 1e-3, 'F');
  within('most', most, least, 1e-3, 'F');
  const cost = (loadCapacitance: number) => deviationWithin({ ...network, loadCapacitance }, span);
  const steps = 80;
  const at = (i: number) => least + (most - least) * (i / steps) ** 2;
  let best = 0;
  for (let i = 1; i <= steps; i++) if (cost(at(i)) < cost(at(best))) best = i;
  let low = at(Math.max(0, best - 1));
  let high = at(Math.min(steps, best + 1));
  const golden = (Math.sqrt(5) - 1) / 2;
  while (high - low > 1e-14) {
    const a = high - golden * (high - low);
    const b = low + golden * (high - low);
    if (cost(a) <= cost(b)) high = b;
    else low = a;
  }
  const middle = (low + high) / 2;
  const atLeast = cost(least) <= cost(middle);
  const capacitance = atLeast ? least : middle;
  return { capacitance, deviation: cost(capacitance), atLeast };
}

/** The flattest of several load resistances, each with its best capacitance; sorted flattest first. */
export function flattestLoads(
  network: CoilAndLoad,
  least: number,
  resistances: readonly number[],
  span: FrequencySpan = AUDIO_SPAN,
): readonly (FlatCapacitance & { readonly resistance: number })[] {
  return resistances
    .map((resistance) => ({
      resistance,
      ...flattestCapacitance({ ...network, loadResistance: resistance }, least, undefined, span),
    }))
    .sort((a, b) => a.deviation - b.deviation);
}
