/**
 * The arm's resonance where nothing is cut for it: from a steady tone that wavers as the arm swings, and from groove noise beside it; and none where
 * the deck has none.
 */
import { expect, it } from 'vitest';
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const SEEDS = Number(process.env.SWAY_SEEDS ?? 2);
const sheet = {
  schema: 1,
  name: 'A long tone and silence',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 120, durationS: 26 },
    { signal: 'silent-groove', motion: 'none', radiusMm: 80, durationS: 9 },
  ],
} as const;

/** @param swings the arm carries the tip along @param sprung it has a resonance */
function deckOf(seed: number, { swings = true, sprung = true } = {}) {
  const draw = dice(seed + 52_100);
  const angle = (): number => draw(-180, 180);
  const resonance = () => (sprung ? { hz: draw(6.5, 14), q: draw(1.5, 6) } : null);
  const rumbleDb = draw(-52, -36);
  return {
    platter: {
      speedErrorPercent: draw(-0.4, 0.4),
      wow: [
        { harmonic: 1, percent: draw(0, 0.1), phaseDeg: angle() },
        { harmonic: 4, percent: draw(0, 0.03), phaseDeg: angle() },
      ],
      // a motor's and a belt's line, anywhere about the resonance
      flutter: [
        { hz: draw(4, 25), percent: draw(0, 0.03), phaseDeg: angle() },
        { hz: draw(4, 25), percent: draw(0, 0.01), phaseDeg: angle() },
      ],
      driftPercent: draw(0, 0.03),
    },
    record: {
      offCentreMm: draw(0, 0.3),
      offCentreAngleDeg: angle(),
      warp: [1, 2, 3].map((harmonic) => ({ harmonic, mm: draw(0, 0.15) / harmonic, phaseDeg: angle() })),
      surfaceNoiseDb: draw(-65, -50),
      surfaceCorrelation: draw(-0.5, 0.5),
      clicksPerMinute: draw(0, 40),
    },
    bearing: { rumbleLateralDb: rumbleDb, rumbleVerticalDb: rumbleDb + draw(-6, 6) },
    arm: {
      swings,
      geometry: { spindleToPivotMm: draw(210, 230), effectiveLengthMm: draw(230, 245), offsetDeg: 23 },
      verticalAngleDeg: draw(16, 26),
      pivotHeightMm: draw(5, 20),
      lateralResonance: resonance(),
      verticalResonance: resonance(),
    },
    cartridge: { tiltDeg: draw(-1, 1), gainDb: { left: draw(-1, 1), right: 0 }, tipRadiusUm: draw(0, 16) },
    preamp: {
      equalisation: seed % 2 === 0 ? 'riaa-7950' : 'riaa',
      hum: [{ harmonic: 1, leftDb: draw(-80, -55), rightDb: draw(-80, -55) }],
      noiseDb: draw(-85, -75),
    },
    // the recording starts with the tip in the groove: a drop would tell it too
    side: { captureFromS: 0.6, beforeDropS: 0.2, leadInS: 0.8, gapS: 0.6, leadOutS: 0.5, afterLiftS: 0 },
  };
}

const read = async (deck: ReturnType<typeof deckOf>, seed: number) => {
  const { recording } = virtualCapture(deck, sheet, 44_100, seed);
  return (await examineRecording(recording, { sheet: sheet as never })).document;
};

it('f₀ and Q lie within what is said', { timeout: 600_000 }, async () => {
  const names = ['hz', 'hz, signal', 'q', 'q, signal'] as const;
  const tallies = new Map<string, Tally>();
  for (let seed = 1; seed <= SEEDS; seed++) {
    const deck = deckOf(seed);
    const { findings } = await read(deck, seed);
    for (const direction of ['lateral', 'vertical'] as const) {
      const truth = deck.arm[`${direction}Resonance`]!;
      const hz = findings.find((f) => f.quantity === `arm-resonance-${direction}`);
      const q = findings.find((f) => f.quantity === `arm-resonance-${direction}-q`);
      const values = [
        [hz?.value, hz?.uncertainty, truth.hz],
        [hz?.value, hz?.repeatability, truth.hz],
        [q?.value, q?.uncertainty, truth.q],
        [q?.value, q?.repeatability, truth.q],
      ] as const;
      names.forEach((name, i) => {
        const tally = tallies.get(name) ?? new Tally();
        tallies.set(name, tally);
        tally.add(...values[i]);
      });
    }
  }
  console.log([...tallies].map(([name, tally]) => tally.line(name, name.startsWith('q') ? '' : 'Hz')).join('\n'));
  const { hz, q } = Object.fromEntries(tallies);
  expect(hz.count).toBeGreaterThanOrEqual(SEEDS / 2);
  expect(hz.coverage).toBeGreaterThanOrEqual(90);
  expect(q.coverage).toBeGreaterThanOrEqual(85);
});

it('none where the arm has no resonance, or does not carry the tip along', { timeout: 600_000 }, async () => {
  for (let seed = 1; seed <= Math.ceil(SEEDS / 2); seed++) {
    for (const without of [{ sprung: false }, { swings: false }]) {
      const { findings } = await read(deckOf(seed, without), seed);
      expect(
        findings.filter((f) => f.quantity.startsWith('arm-resonance')).map((f) => `${f.quantity} ${f.value}`),
        `seed ${seed} ${JSON.stringify(without)}`,
      ).toEqual([]);
    }
  }
});
