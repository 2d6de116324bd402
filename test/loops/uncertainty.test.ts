/**
 * Captures of decks whose faults are drawn at random: errors, and whether k = 2 holds the truth in 90 to 99 % of them, as far as so
 * many captures can tell (tally.ts).
 *
 * Band edges are taken from the deck and moved inwards at random, so that this loop is about the figures alone.
 *
 * Three figures have more than one truth. Accuracy is judged by that of the very stretch measured: of the speed, what the
 * platter did while the tones taken in were playing; of wow and flutter, the stretch's, unweighted its whole turns (of 4.8 turns
 * the mean itself is uncertain). Uncertainty says how far the deck may differ, and is judged by the deck's setting and by the
 * whole band; the weighting, whose table gives points only, is joined by a smooth curve in one half of the captures and by
 * straight lines in the other. The weighted figure is held to the deck's 2σ over five minutes too. Eccentricity, whose seating,
 * radii and arm are not the signal's, has a loop of its own (hole.test.ts).
 */
import { expect, it } from 'vitest';
import { dice, randomDeck, shortSheet } from '../../src/cli/selfcheck/randomDeck.ts';
import { Tally } from '../../src/cli/selfcheck/tally.ts';
import { assumedOf } from '../../src/core/advise/budget/assumedOf.ts';
import { recordError } from '../../src/core/advise/budget/recordError.ts';
import { readDeck } from '../../src/core/deck/deck.ts';
import { readSheet } from '../../src/core/deck/sheet.ts';
import { layOut } from '../../src/core/deck/side.ts';
import { type SpeedModel, speedModel } from '../../src/core/deck/speed.ts';
import { flutterTruth } from '../../src/core/deck/speedTruth.ts';
import { measureSide } from '../../src/core/measure/measureSide.ts';
import type { Band } from '../../src/core/record/band.ts';
import { virtualCapture } from './virtualCapture.ts';

const assumed = assumedOf(recordError(undefined));

const CAPTURES = Number(process.env.CAPTURES ?? 40);
/** Hz; every figure rests on a baseband of 1 kHz, so this spares time and nothing else: rates.test.ts has the others */
const RATE_HZ = 32_000;
const FIRST_SEED = Number(process.env.SEED ?? 40_000);

/** unit, and the accuracy that is asked for: `of(truth)` */
const asked: Record<string, { unit: string; accuracy: (truth: number) => number }> = {
  'azimuth-error': { unit: '°', accuracy: () => 0.05 },
  'separation-left-to-right': { unit: 'dB', accuracy: (t) => 0.3 * 10 ** (Math.max(0, t - 30) / 20) },
  'separation-right-to-left': { unit: 'dB', accuracy: (t) => 0.3 * 10 ** (Math.max(0, t - 30) / 20) },
  'channel-balance': { unit: 'dB', accuracy: () => 0.03 },
  'speed-error': { unit: '%', accuracy: () => 0.005 },
  'wow-flutter-weighted': { unit: '%', accuracy: (t) => Math.max(0.05 * t, 0.003) },
  'wow-flutter-unweighted': { unit: '%', accuracy: (t) => Math.max(0.05 * t, 0.003) },
  'once-per-turn': { unit: '%', accuracy: () => 0.01 },
};

it('holds the truth of random decks', { timeout: Math.max(1_800_000, 120_000 * CAPTURES) }, async () => {
  const tallies = new Map(Object.keys(asked).map((name) => [name, new Tally()]));
  const longRun = new Tally();
  const missed: string[] = [];
  const sheet = readSheet(shortSheet);
  for (let i = 0; i < CAPTURES; i++) {
    const seed = FIRST_SEED + i;
    const deck = randomDeck(seed, { record: 'faultless' });
    const { recording, truth } = virtualCapture(deck, shortSheet, RATE_HZ, seed);
    const draw = dice(seed + 1_000_000);
    const bands = truth.bands.map((b, index): Band => {
      const heard = b.motion === 'lateral' && deck.leads.leftInverted ? 'vertical' : b.motion;
      return {
        index,
        startS: b.startS + draw(0.02, 0.2),
        endS: b.endS - draw(0.02, 0.2),
        signal: 'tone',
        motion: heard as Band['motion'],
        frequencyHz: (b.frequencyHz ?? 0) * (1 + draw(-1e-4, 1e-4)),
        radiusMm: b.radiusMm,
        sheetBand: null,
      };
    });
    const { findings } = await measureSide(recording, bands, { assumed });
    const found = (name: string) => findings.find((f) => f.quantity === name);
    const trueOf = (name: string, band: number): number => {
      const figure = truth.figures.find(
        (f) => f.quantity === name && (f.bands.length !== 1 || name === 'channel-balance' || f.bands[0] === band),
      );
      return typeof figure?.value === 'number' ? figure.value : Number.NaN;
    };
    const whole = readDeck(deck);
    const model = speedModel(whole, layOut(sheet, whole.side), seed);
    const joined = seed % 2 === 0 ? 'smooth' : 'straight';
    const run = flutterTruth(model, 100, 0, 300, joined);
    const { startS, endS } = bands[3];
    const turnS = (2 * Math.PI) / model.turning;
    const wholeTurns = startS + Math.floor((endS - startS) / turnS) * turnS;
    const stretch: Record<string, number> = {
      'wow-flutter-weighted': flutterTruth(model, 100, startS, endS, joined).weightedPercent,
      'wow-flutter-unweighted': flutterTruth(model, 100, startS, wholeTurns).unweightedPercent,
      'speed-error': meanWhile(model, bands.slice(2)),
    };
    const band = flutterTruth(model, 100, truth.bands[3].startS, truth.bands[3].endS, joined);
    for (const [name, tally] of tallies) {
      const figure = found(name);
      const t = name === 'wow-flutter-weighted' ? band.weightedPercent : trueOf(name, 3);
      tally.add(figure?.value, figure?.uncertainty, t);
      const judged = stretch[name] ?? t;
      if (typeof figure?.value === 'number' && !(Math.abs(figure.value - judged) <= asked[name].accuracy(judged))) {
        missed.push(`seed ${seed}: ${name} ${figure.value} ± ${figure.uncertainty}, true ${judged}`);
      }
    }
    const weighted = found('wow-flutter-weighted');
    longRun.add(weighted?.value, weighted?.uncertainty, run.weightedPercent);
    expect(found('polarity')?.value, `seed ${seed}`).toBe(deck.leads.leftInverted ? 'antiphase' : 'in-phase');
  }
  const lines = [...tallies].map(([name, tally]) => tally.line(name, asked[name].unit));
  lines.push(longRun.line('weighted, deck over 5 min', '%'));
  console.log([`${CAPTURES} captures, seeds from ${FIRST_SEED}`, ...lines, ...missed].join('\n'));
  expect(missed).toEqual([]);
  const held = new Map<string, Tally>([...tallies]);
  held.set('weighted, deck over 5 min', longRun);
  for (const [name, tally] of held) {
    expect(tally.count, name).toBeGreaterThan(0.95 * CAPTURES);
    expect(tally.objection, name).toBeNull();
  }
});

/** Speed error over some bands, each by its length, %: the setting and what the platter drifted meanwhile. */
function meanWhile(model: SpeedModel, bands: readonly Band[]): number {
  let drifted = 0;
  let length = 0;
  for (const { startS, endS } of bands) {
    length += endS - startS;
    for (const { kind, omega, amplitude, phase } of model.lines) {
      if (kind !== 'drift') continue;
      drifted += (amplitude / omega) * (Math.sin(omega * endS + phase) - Math.sin(omega * startS + phase));
    }
  }
  return 100 * (model.mean * (1 + drifted / length) - 1);
}
