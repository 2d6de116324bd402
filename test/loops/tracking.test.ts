/** The level at which each wall starts to mistrack, and which side gives way first, against decks whose tips fall back at a known speed. */
import { expect, it } from 'vitest';
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import { checkAdvice } from '../../src/core/job/checkAdvice.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const SEEDS = Number(process.env.TRACKING_SEEDS ?? 3);
const LEVELS = [4, 6, 8, 11, 15, 20, 25] as const;
const tone = (motion: string, frequencyHz: number, peakVelocityCmS: number, durationS: number) => ({
  signal: 'tone',
  motion,
  frequencyHz,
  peakVelocityCmS,
  radiusMm: 120,
  durationS,
});
const sheet = {
  schema: 1,
  name: 'Steps',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [tone('left', 1000, 5, 2.5), tone('right', 1000, 5, 2.5), ...LEVELS.map((v) => tone('lateral', 300, v, 2.5))],
};

const read = async (limits: { left: number | null; right: number | null }, seed: number) => {
  const draw = dice(seed + 4000);
  const deck = {
    platter: { speedErrorPercent: draw(-0.5, 0.5), wow: [{ harmonic: 1, percent: draw(0, 0.15), phaseDeg: 0 }] },
    record: { surfaceNoiseDb: draw(-62, -50), clicksPerMinute: draw(0, 40), clickDb: draw(-6, 8) },
    bearing: { rumbleLateralDb: -50, rumbleVerticalDb: -50 },
    cartridge: {
      tipRadiusUm: draw(5, 18),
      tracksUpToCmS: limits,
      secondHarmonicPercent: { left: draw(0, 1), right: draw(0, 1) },
      thirdHarmonicPercent: { left: draw(0, 0.5), right: 0 },
    },
    leads: { swapped: seed % 3 === 0 },
    converter: { referenceDbfs: -24 },
    preamp: { noiseDb: draw(-85, -75) },
  };
  const { recording } = virtualCapture(deck, sheet, 44_100, seed);
  const { document } = await examineRecording(recording, { sheet: sheet as never });
  const found = (['left', 'right'] as const).map((channel) => {
    const limit = document.findings.find((f) => f.quantity === 'tracking-limit' && f.channel === channel);
    expect(limit, channel).toBeDefined();
    return limit!;
  });
  return { document, found };
};

it('each wall between the step that is tracked and the one that is lost; the side that gives way first', {
  timeout: Math.max(300_000, 120_000 * SEEDS),
}, async () => {
  let [inside, all] = [0, 0];
  for (let seed = 1; seed <= SEEDS; seed++) {
    const draw = dice(seed + 4500);
    const limits = { left: draw(3.5, 16), right: draw(3.5, 16) };
    const { found } = await read(limits, seed);
    found.forEach((one, i) => {
      // a lateral tone gives each wall 1/√2 of it
      const truth = Math.SQRT2 * (i === 0 ? limits.left : limits.right);
      all += 1;
      if (Math.abs((one.value as number) - truth) <= one.uncertainty!) inside += 1;
      else console.log(`seed ${seed} ${one.channel}: ${one.value} ± ${one.uncertainty}, true ${truth}`);
    });
    const ratio = limits.left / limits.right;
    if (ratio < 0.7) expect(found[0].note, `seed ${seed}`).toMatch(/less anti-skating/);
    if (ratio > 1.4) expect(found[0].note, `seed ${seed}`).toMatch(/more anti-skating/);
  }
  console.log(`tracking limits: ${inside} of ${all} inside what is said`);
  expect(inside / all).toBeGreaterThanOrEqual(0.9);
});

it('the move foretold is what the walls then do', { timeout: 120_000 }, async () => {
  const before = await read({ left: 11, right: 6 }, 5);
  const { advice } = before.document;
  const move = advice.find(({ action }) => action === 'set-skating');
  expect(move).toMatchObject({ direction: 'more', unit: '%' });
  // the side force that makes 11 and 6 of it, with the forces on both walls in the same proportion
  const pull = (100 * (11 - 6)) / (11 + 6);
  expect(Math.abs(move!.amount! - pull)).toBeLessThanOrEqual(move!.uncertainty!);
  const left = 8.5 + (0.085 * (pull - move!.amount!)) / 1;
  const after = await read({ left, right: 17 - left }, 6);
  const [{ came }] = checkAdvice(move!, after.document, before.document);
  expect(came).toBe('as-predicted');
});

it('what tracks everything is never called lost; what is lost from the first step on is', {
  timeout: 120_000,
}, async () => {
  for (const seed of [1, 2]) {
    for (const one of (await read({ left: null, right: null }, seed)).found) {
      expect(one).toMatchObject({ value: 25, low: 25, high: null, uncertainty: null });
    }
  }
  const [left, right] = (await read({ left: 2, right: 30 }, 4)).found;
  expect(left).toMatchObject({ low: 0, high: 4 });
  expect(right.high).toBeNull();
});
