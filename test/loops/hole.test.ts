/**
 * Hole, platter and wow of decks and records with everything at random, uncertified: bias, spread and coverage of eccentricity
 * (with and without the arm's geometry), of the platter's own part, of once per turn as heard, of wow as heard and of the deck.
 * The hole is that of this playing: how the record seats is none of its uncertainty. Radii are stated to ±1 mm.
 */
import { expect, it } from 'vitest';
import { assumedOf } from '../../src/core/advise/budget/assumedOf.ts';
import { recordError } from '../../src/core/advise/budget/recordError.ts';
import { readDeck } from '../../src/core/deck/deck.ts';
import { readSheet } from '../../src/core/deck/sheet.ts';
import { layOut } from '../../src/core/deck/side.ts';
import { speedModel } from '../../src/core/deck/speed.ts';
import { flutterTruth } from '../../src/core/deck/speedTruth.ts';
import type { PassageTask, Readings } from '../../src/core/measure/estimators.ts';
import { measureSide, readPassage } from '../../src/core/measure/measureSide.ts';
import type { Band } from '../../src/core/record/band.ts';
import { dice, normal, randomDeck } from './randomDeck.ts';
import { Tally } from './tally.ts';
import { virtualCapture } from './virtualCapture.ts';

const assumed = assumedOf(recordError(undefined));

const CAPTURES = Number(process.env.CAPTURES ?? 8);
const FIRST_SEED = Number(process.env.SEED ?? 60_000);
const RATE_HZ = 32_000;

const sheet = {
  schema: 1,
  name: 'Speed tones at three radii',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 138, durationS: 12 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 104, durationS: 8 },
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150, peakVelocityCmS: 5, radiusMm: 68, durationS: 12 },
  ],
} as const;

it('tells the hole from the platter, and says how sure it is', { timeout: 1_800_000 }, async () => {
  const names = [
    'eccentricity',
    'eccentricity, arm given',
    'platter',
    'platter, arm given',
    'once per turn',
    'wow',
    'wow of the deck',
    'wow of the deck, one radius',
    'eccentricity, one radius',
  ] as const;
  const tallies = Object.fromEntries(names.map((name) => [name, new Tally()])) as Record<(typeof names)[number], Tally>;
  for (let i = 0; i < CAPTURES; i++) {
    const seed = FIRST_SEED + i;
    const drawn = randomDeck(seed);
    const draw = dice(seed + 2_000_000);
    const gauss = normal(draw);
    const holeMm = drawn.record.offCentreMm;
    const deck = { ...drawn, side: { ...drawn.side, gapS: draw(1, 30) } };
    const { recording, truth } = virtualCapture(deck, sheet, RATE_HZ, seed);
    const bands = truth.bands.map(
      (b, index): Band => ({
        index,
        startS: b.startS + draw(0.02, 0.2),
        endS: b.endS - draw(0.02, 0.2),
        signal: 'tone',
        motion: (deck.leads.leftInverted ? 'vertical' : 'lateral') as Band['motion'],
        frequencyHz: b.frequencyHz,
        radiusMm: b.radiusMm + gauss(0.5),
        sheetBand: null,
      }),
    );
    const { spindleToPivotMm: spindleToPivot, effectiveLengthMm: effectiveLength } = deck.arm.geometry;
    // read once, asked three times
    let readings: Promise<readonly Readings[]> | null = null;
    const readPassages = (tasks: readonly PassageTask[]) => {
      readings ??= Promise.all(tasks.map((task) => readPassage(recording, task)));
      return readings;
    };
    const figuresOf = async (heard: Band[], arm?: { spindleToPivot: number; effectiveLength: number }) => {
      const { findings } = await measureSide(recording, heard, {
        assumed,
        readPassages,
        ...(arm === undefined ? {} : { arm }),
      });
      return (quantity: string) => findings.find((f) => f.quantity === quantity);
    };
    const unknown = await figuresOf(bands);
    const known = await figuresOf(bands, { spindleToPivot, effectiveLength });
    const single = await figuresOf(
      bands.map((b, k) => (k === 2 ? b : { ...b, radiusMm: null })),
      { spindleToPivot, effectiveLength },
    );
    const add = (name: (typeof names)[number], f: ReturnType<typeof unknown>, t: number) =>
      tallies[name].add(f?.value, f?.uncertainty, t);
    const whole = readDeck(deck);
    const model = speedModel(whole, layOut(readSheet(sheet), whole.side, whole.record.groovePitchMm), seed);
    const at = (f: ReturnType<typeof unknown>) => {
      const b = truth.bands[f?.bands[0] ?? 0];
      return flutterTruth(model, b.radiusMm, b.startS, b.endS, seed % 2 === 0 ? 'smooth' : 'straight');
    };
    const platter = truth.figures.find((f) => f.quantity === 'once-per-turn-platter')?.value as number;
    add('eccentricity', unknown('eccentricity'), holeMm);
    add('eccentricity, arm given', known('eccentricity'), holeMm);
    add('eccentricity, one radius', single('eccentricity'), holeMm);
    add('platter', unknown('once-per-turn-platter'), platter);
    add('platter, arm given', known('once-per-turn-platter'), platter);
    add('once per turn', known('once-per-turn'), at(known('once-per-turn')).oncePerTurnPercent);
    add('wow', known('wow-flutter-weighted'), at(known('wow-flutter-weighted')).weightedPercent);
    add(
      'wow of the deck',
      known('wow-flutter-weighted-deck'),
      at(known('wow-flutter-weighted-deck')).weightedOfDeckPercent,
    );
    add(
      'wow of the deck, one radius',
      single('wow-flutter-weighted-deck'),
      at(single('wow-flutter-weighted-deck')).weightedOfDeckPercent,
    );
  }
  const unit = (name: string) => (name.startsWith('ecc') ? 'mm' : '%');
  console.log(
    `${CAPTURES} captures, seeds from ${FIRST_SEED}\n${names.map((name) => tallies[name].line(name, unit(name))).join('\n')}`,
  );
  for (const name of names) {
    expect(tallies[name].count, name).toBeGreaterThan(0.8 * CAPTURES);
    expect(tallies[name].objection, name).toBeNull();
  }
});
