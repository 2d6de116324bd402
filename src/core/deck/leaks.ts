/** Leaks between the generators as running filters; the driven channels are held back as long as the leaks take. */
import type { Deck } from './deck.ts';
import { runDelay, runRealised } from './filters.ts';
import { type FirShape, matchedFirstOrder, realise, realisedAt } from './realise.ts';
import { LEAK_CORNER_HZ, leakParts, leakSlope } from './response.ts';

/** The differentiator's FIR: within 1e-3 of the analogue law to 10 kHz, exact at 1 kHz. */
const LEAK_SHAPE: FirShape = { taps: 24, delay: 11, edge: 0.43 };
/** frames by which both channels are late */
export const LEAK_DELAY = LEAK_SHAPE.delay;

/** @returns adds to each of two channels what leaks into it, in place */
export function leakage(
  cartridge: Deck['cartridge'],
  sampleRateHz: number,
  longest: number,
): (left: Float64Array, right: Float64Array, count: number) => void {
  const slope = realise(
    [matchedFirstOrder(sampleRateHz, 1 / (2 * Math.PI * LEAK_CORNER_HZ), Number.POSITIVE_INFINITY)],
    leakSlope,
    sampleRateHz,
    LEAK_SHAPE,
  );
  const slopeAt1k = realisedAt(slope, 1000, sampleRateHz);
  const intoRight = leakParts(cartridge.leftIntoRight, slopeAt1k);
  const intoLeft = leakParts(cartridge.rightIntoLeft, slopeAt1k);
  const steep = { left: new Float64Array(longest), right: new Float64Array(longest) };
  const steepen = { left: runRealised(slope, longest), right: runRealised(slope, longest) };
  const holdBack = { left: runDelay(LEAK_DELAY, longest), right: runDelay(LEAK_DELAY, longest) };
  return (left, right, count) => {
    for (let i = 0; i < count; i++) {
      steep.left[i] = left[i];
      steep.right[i] = right[i];
    }
    if (intoRight.b !== 0) steepen.left(steep.left, count);
    if (intoLeft.b !== 0) steepen.right(steep.right, count);
    holdBack.left(left, count);
    holdBack.right(right, count);
    for (let i = 0; i < count; i++) {
      const l = left[i];
      const r = right[i];
      left[i] = l + intoLeft.a * r + intoLeft.b * steep.right[i];
      right[i] = r + intoRight.a * l + intoRight.b * steep.left[i];
    }
  };
}
