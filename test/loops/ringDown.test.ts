/** The arm ringing down where the tip drops in: f₀ and Q in any capture that holds the drop, and nothing where nothing rings. */
import { expect, it } from 'vitest';
import { dice, shortSheet } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const SEEDS = Number(process.env.RING_DOWN_SEEDS ?? 5);
const sheet = { ...shortSheet, bands: shortSheet.bands.slice(0, 2) };

function deckOf(seed: number) {
  const draw = dice(seed + 300);
  const resonance = () => ({ hz: draw(6.5, 14), q: draw(1, 6) });
  return {
    record: {
      surfaceNoiseDb: draw(-65, -50),
      warp: [{ harmonic: 1, mm: draw(0, 0.2), phaseDeg: draw(-180, 180) }],
      clicksPerMinute: draw(0, 40),
    },
    bearing: { rumbleLateralDb: draw(-65, -45), rumbleVerticalDb: draw(-65, -45) },
    arm: {
      lateralResonance: resonance(),
      verticalResonance: resonance(),
      dropUm: { lateral: draw(20, 80), vertical: draw(20, 80) },
    },
    leads: { leftInverted: seed % 5 === 0 },
    preamp: { equalisation: seed % 2 === 0 ? 'riaa-7950' : 'riaa', noiseDb: -80, lowCornerHz: 0.5 * 2 ** draw(0, 3) },
  } as const;
}

const read = async (deck: unknown, seed: number) => {
  const { recording } = virtualCapture(deck, sheet, seed % 3 === 0 ? 96_000 : 44_100, seed);
  return (await examineRecording(recording, { sheet })).document;
};

it('f₀ and Q from the drop lie within what is said', { timeout: Math.max(300_000, 120_000 * SEEDS) }, async () => {
  const tallies = { hz: new Tally(), q: new Tally(), 'hz, signal': new Tally() };
  for (let seed = 1; seed <= SEEDS; seed++) {
    const deck = deckOf(seed);
    const { findings } = await read(deck, seed);
    for (const direction of ['lateral', 'vertical'] as const) {
      // a channel upside down is undone by a lateral tone, which this side has not
      if (deck.leads.leftInverted) continue;
      const truth = deck.arm[`${direction}Resonance`];
      const hz = findings.find((f) => f.quantity === `arm-resonance-${direction}`);
      const q = findings.find((f) => f.quantity === `arm-resonance-${direction}-q`);
      tallies.hz.add(hz?.value, hz?.uncertainty, truth.hz);
      tallies['hz, signal'].add(hz?.value, hz?.repeatability, truth.hz);
      tallies.q.add(q?.value, q?.uncertainty, truth.q);
    }
  }
  console.log(
    Object.entries(tallies)
      .map(([name, tally]) => tally.line(name, name === 'q' ? '' : 'Hz'))
      .join('\n'),
  );
  expect(tallies.hz.count).toBeGreaterThan(SEEDS);
  expect(tallies.hz.coverage).toBeGreaterThanOrEqual(90);
  expect(tallies.q.coverage).toBeGreaterThanOrEqual(85);
  expect(tallies.hz.largest).toBeLessThan(0.8);
});

it('no drop, or a knock that rings on its own, gives no resonance', { timeout: 120_000 }, async () => {
  for (const seed of [1, 2]) {
    const deck = deckOf(seed);
    const knocked = { ...deck, record: { ...deck.record, thumpDb: -6 } };
    const still = { ...deck, arm: { ...deck.arm, dropUm: { lateral: 0, vertical: 0 } } };
    for (const one of [knocked, still]) {
      const { findings } = await read(one, seed);
      expect(findings.filter((f) => f.quantity.startsWith('arm-resonance'))).toEqual([]);
    }
  }
});
