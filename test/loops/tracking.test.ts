/** The level at which each wall starts to mistrack, and which side gives way first, against decks whose tips fall back at a known speed or lag gently from a known acceleration on. */
import { expect, it } from 'vitest';
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import { checkAdvice } from '../../src/core/job/checkAdvice.ts';
import { noteOf, readSteps, type Way } from './steppedSide.ts';

const SEEDS = Number(process.env.TRACKING_SEEDS ?? 4);
const TRACKED = Number(process.env.TRACKED_SEEDS ?? 2);
const FROM = Number(process.env.TRACKING_FROM ?? 1);

it('each wall between the step that is silent and the one that is surely lost; the side that gives way first', {
  timeout: Math.max(300_000, 120_000 * SEEDS),
}, async () => {
  let [inside, all, width] = [0, 0, 0];
  for (let seed = FROM; seed < FROM + SEEDS; seed++) {
    const draw = dice(seed + 4500);
    const way: Way = draw(0, 1) < 0.6 ? 'slips' : 'falls back';
    const limits = { left: draw(3.5, 16), right: draw(3.5, 16) };
    const { found, document, hz, sampleRateHz } = await readSteps(way, limits, seed);
    for (const channel of ['left', 'right'] as const) {
      // a lateral tone gives each wall 1/√2 of it
      const truth = Math.SQRT2 * limits[channel];
      const { low, high } = found[channel] ?? { low: 0, high: null };
      const holds = truth >= low! && (high === null || truth <= high!);
      all += 1;
      if (holds) inside += 1;
      width += Math.log(Math.min(30, high ?? 30) / Math.max(2, low!));
      console.log(
        `seed ${seed} ${channel}, ${way}, ${hz} Hz at ${sampleRateHz}: ${low!.toFixed(1)} to ${high}, true ${truth.toFixed(1)}${holds ? '' : ' OUTSIDE'}`,
      );
    }
    const way1 = noteOf(found.left ?? found.right);
    const ratio = limits.left / limits.right;
    if (ratio < 0.7) expect(way1, `seed ${seed}`).not.toMatch(/more anti-skating/);
    if (ratio > 1.4) expect(way1, `seed ${seed}`).not.toMatch(/less anti-skating/);
    const move = document.advice.find(({ action }) => action === 'set-skating');
    if (move !== undefined && Math.abs(Math.log(ratio)) > 0.1) {
      expect(move.direction, `seed ${seed}`).toBe(ratio > 1 ? 'more' : 'less');
    }
  }
  console.log(
    `tracking limits: ${inside} of ${all} inside what is said, ends ${Math.exp(width / all).toFixed(2)} apart`,
  );
  expect(inside / all).toBeGreaterThanOrEqual(0.9);
});

it('the move foretold is what the walls then do', { timeout: 240_000 }, async () => {
  // as far apart as that, the intervals leave the side force one sign
  const limits = { left: 14, right: 5 };
  const before = await readSteps('slips', limits, 4);
  const { advice } = before.document;
  const move = advice.find(({ action }) => action === 'set-skating');
  expect(move).toMatchObject({ direction: 'more', unit: '%' });
  // the side force that makes these of their mean, with the forces on both walls in the same proportion
  const mean = (limits.left + limits.right) / 2;
  const pull = (100 * (limits.left - limits.right)) / (limits.left + limits.right);
  expect(Math.abs(move!.amount! - pull)).toBeLessThanOrEqual(move!.uncertainty!);
  const left = mean * (1 + (pull - move!.amount!) / 100);
  const after = await readSteps('slips', { left, right: 2 * mean - left }, 8);
  const [{ came }] = checkAdvice(move!, after.document, before.document);
  expect(came).toBe('as-predicted');
});

it('limits that their steps do not tell apart name the side by the bursts, without an amount', {
  timeout: 240_000,
}, async () => {
  const { advice } = (await readSteps('falls back', { left: 11, right: 6 }, 4)).document;
  expect(advice.find(({ action }) => action === 'set-skating')).toMatchObject({ direction: 'more', amount: null });
});

it('what tracks everything is never called lost, and how much would have been heard is said', {
  timeout: Math.max(240_000, 120_000 * TRACKED),
}, async () => {
  let [lost, open] = [0, 0];
  for (let seed = FROM; seed < FROM + TRACKED; seed++) {
    const { found, hz } = await readSteps('slips', { left: null, right: null }, seed);
    for (const channel of ['left', 'right'] as const) {
      const one = found[channel];
      expect(one, `seed ${seed}`).toBeDefined();
      open += 1;
      if (one!.high !== null) lost += 1;
      console.log(`seed ${seed} ${channel}, ${hz} Hz: over ${one!.low!.toFixed(1)}, ${one!.high}; ${noteOf(one)}`);
      expect(one!.low!).toBeLessThan(25);
      if (one!.high === null) expect(noteOf(one)).toMatch(/% of the tone’s velocity would have been heard/);
    }
  }
  console.log(`called lost: ${lost} of ${open} walls that track everything`);
  expect(lost).toBe(0);
});

it('what is lost from the first step on is, and the other wall is not', { timeout: 240_000 }, async () => {
  const { left, right } = (await readSteps('falls back', { left: 2, right: 30 }, 4)).found;
  expect(left).toMatchObject({ low: 0, high: 4 });
  expect(right!.high).toBeNull();
});
