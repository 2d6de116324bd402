/** Two recordings of one sweep, a known capacitance across the inputs in the second: coil, load and tip's resonance against decks that have them. */
import { expect, it } from 'vitest';
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { withAddedCapacitance } from '../../src/core/advise/loading/withAddedCapacitance.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const SEEDS = Number(process.env.CAPACITANCE_SEEDS ?? 2);
const sheet = {
  schema: 1,
  name: 'Sweep',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 130, durationS: 2.5 },
    {
      ...{ signal: 'sweep', motion: 'lateral', fromHz: 200, toHz: 20_000, law: 'log', cut: 'riaa' },
      ...{ peakVelocityCmS: 1, radiusMm: 120, durationS: 12 },
    },
  ],
} as const;

const read = async (deck: unknown, seed: number) => {
  const { recording } = virtualCapture(deck, sheet, 44_100, seed);
  return (await examineRecording(recording, { sheet: sheet as never })).document;
};

it('coil, load and tip lie within what is said', { timeout: 900_000 }, async () => {
  const tallies = new Map<string, Tally>();
  for (let seed = 1; seed <= SEEDS; seed++) {
    const draw = dice(seed + 8800);
    const coil = { resistanceOhm: draw(400, 1100), inductanceMh: draw(300, 700) };
    const top = () => ({ hz: draw(14_000, 24_000), q: draw(0.8, 3) });
    const topResonance = { left: top(), right: top() };
    const capacitancePf = draw(120, 300);
    const added = draw(90, 220);
    const resistanceOhm = 47_000 * draw(0.985, 1.015);
    const deck = (pf: number) => ({
      platter: { speedErrorPercent: draw(-0.3, 0.3), wow: [{ harmonic: 1, percent: 0.08, phaseDeg: draw(-180, 180) }] },
      record: { surfaceNoiseDb: draw(-62, -54), clicksPerMinute: draw(0, 20) },
      cartridge: { coil, topResonance, gainDb: { left: draw(-1, 1), right: 0 }, tipRadiusUm: 6 },
      preamp: { load: { resistanceOhm, capacitancePf: pf }, noiseDb: draw(-85, -75) },
      converter: { referenceDbfs: -24 },
      side: { beforeDropS: 0.3, leadInS: 0.5, gapS: 0.6, leadOutS: 0.3, afterLiftS: 0 },
    });
    const [first, second] = [await read(deck(capacitancePf), seed), await read(deck(capacitancePf + added), seed + 50)];
    const { findings, problems } = withAddedCapacitance(first, second, {
      addedF: added * 1e-12,
      coilOhm: coil.resistanceOhm,
    });
    for (const channel of ['left', 'right'] as const) {
      const truths = {
        'coil-inductance-heard': coil.inductanceMh,
        'load-capacitance-heard': capacitancePf,
        'tip-resonance': topResonance[channel].hz,
        'tip-resonance-q': topResonance[channel].q,
      };
      for (const [quantity, truth] of Object.entries(truths)) {
        const found = findings.find((f) => f.quantity === quantity && f.channel === channel);
        const tally = tallies.get(quantity) ?? new Tally();
        tallies.set(quantity, tally);
        tally.add(found?.value, found?.uncertainty, truth);
      }
    }
    expect(problems.filter(({ quantity }) => quantity === 'coil-inductance-heard')).toEqual([]);
  }
  console.log([...tallies].map(([name, tally]) => tally.line(name, '')).join('\n'));
  for (const [name, tally] of tallies) {
    expect(tally.count, name).toBeGreaterThanOrEqual(name.startsWith('tip') ? SEEDS : 2 * SEEDS);
    expect(tally.coverage, name).toBeGreaterThanOrEqual(75);
  }
  expect(tallies.get('coil-inductance-heard')!.coverage).toBe(100);
});

it('says what it cannot tell: a coil that no capacitance changes, two sweeps that end early', {
  timeout: 300_000,
}, async () => {
  const deck = {
    cartridge: { coil: { resistanceOhm: 10, inductanceMh: 0.05 }, topResonance: { left: null, right: null } },
    side: { beforeDropS: 0.3, leadInS: 0.5, gapS: 0.6, leadOutS: 0.3, afterLiftS: 0 },
  };
  const same = await read(deck, 3);
  const { findings, problems } = withAddedCapacitance(same, same, { addedF: 1e-10 });
  expect(findings.filter(({ quantity }) => quantity.endsWith('-heard'))).toEqual([]);
  expect(problems.filter(({ quantity }) => quantity === 'coil-inductance-heard')).toHaveLength(2);
  expect(problems.at(-1)?.message).toMatch(/changes the response by 0.00 dB only/);
  const none = withAddedCapacitance({ ...same, curves: [] }, same, { addedF: 1e-10 });
  expect(none.problems.at(-1)?.message).toMatch(/no sweep of both recordings/);
});
