/**
 * Random practice decks, each measured as a capture from a bench would be, and held against the truth that they were made from. With
 * `test/loops` the only place where `core/deck` and `core/measure` meet.
 */

import type { JudgedFinding } from '../../core/advise/document.ts';
import { bytesOf } from '../../core/capture/bytesOf.ts';
import { openRecording } from '../../core/capture/openRecording.ts';
import { readDeck } from '../../core/deck/deck.ts';
import { readSheet } from '../../core/deck/sheet.ts';
import { layOut } from '../../core/deck/side.ts';
import { simulateSide } from '../../core/deck/simulate.ts';
import { speedModel } from '../../core/deck/speed.ts';
import { flutterTruth } from '../../core/deck/speedTruth.ts';
import { wavFrames, wavHeader } from '../../core/deck/wavBytes.ts';
import { parseSheet } from '../../core/record/sheet.ts';
import { examineRecording } from '../../core/side/examineSide.ts';
import { say } from '../../core/words/statement.ts';
import { CLAIMS } from './claims.ts';
import { randomDeck, shortSheet } from './randomDeck.ts';
import { Tally } from './tally.ts';

const RATE_HZ = 44_100;

export interface Tallies {
  /** errors against the claims, the signal's own ±: records without fault */
  readonly accuracy: ReadonlyMap<string, Tally>;
  /** the stated ± of the deck: records with faults of their own */
  readonly coverage: ReadonlyMap<string, Tally>;
  /** `azimuth-error of deck 7: 0.061 deg beside the truth` */
  readonly missed: readonly string[];
  readonly decks: number;
  /** s of sound, and s that measuring it took */
  readonly playedS: number;
  readonly measuringS: number;
}

/**
 * @param decks how many, half of them on records without fault
 * @param now s of processor time so far
 */
export async function playDecks(
  decks: number,
  firstSeed: number,
  now: () => number,
  onProgress: (done: number) => void,
): Promise<Tallies> {
  const tallies = () => new Map(CLAIMS.map(({ quantity }) => [quantity, new Tally()]));
  const [accuracy, coverage] = [tallies(), tallies()];
  const missed: string[] = [];
  let [playedS, measuringS] = [0, 0];
  const parsed = parseSheet(JSON.stringify(shortSheet), 'selfcheck.record.json');
  if (!parsed.ok) throw new Error(say(parsed.why));
  for (let i = 0; i < decks; i++) {
    const seed = firstSeed + i;
    const faultless = i % 2 === 0;
    const deck = randomDeck(seed, { record: faultless ? 'faultless' : 'uncertified' });
    const { bytes, truth, durationS } = capture(deck, seed);
    const began = now();
    const { document } = await examineRecording(await openRecording(bytesOf(bytes, `deck ${seed}.wav`)), {
      sheet: parsed.sheet,
    });
    measuringS += now() - began;
    playedS += durationS;
    for (const { quantity, within, unit } of CLAIMS) {
      const finding = document.findings.find((f) => f.quantity === quantity);
      const band = document.bands.find(({ index }) => finding?.bands[0] === index);
      const figure = truth.figures.find((f) => f.quantity === quantity);
      const t =
        quantity === 'wow-flutter-weighted' && band !== undefined
          ? flutterOver(deck, seed, band)
          : ((figure?.value as number | undefined) ?? Number.NaN);
      if (!faultless) {
        addStated(coverage.get(quantity), finding, t);
        continue;
      }
      accuracy.get(quantity)?.add(finding?.value, finding?.repeatability, t);
      if (typeof finding?.value === 'number' && !(Math.abs(finding.value - t) <= within(t))) {
        missed.push(
          `${quantity} of deck ${seed}: ${(finding.value - t).toPrecision(2)} ${unit} beside the truth ${t.toPrecision(4)}`,
        );
      }
    }
    onProgress((i + 1) / decks);
  }
  return { accuracy, coverage, missed, decks, playedS, measuringS };
}

/** Where a figure states an interval, open ends and all, that is what must hold the truth. */
function addStated(tally: Tally | undefined, finding: JudgedFinding | undefined, truth: number): void {
  if (finding?.low === undefined || typeof finding.value !== 'number') {
    tally?.add(finding?.value, finding?.uncertainty, truth);
    return;
  }
  const { low, high } = finding;
  // as an error of its side of the interval
  const side = truth < finding.value ? finding.value - low : (high ?? Number.MAX_VALUE) - finding.value;
  tally?.add(finding.value, side, truth);
}

function capture(deck: unknown, seed: number) {
  const simulation = simulateSide(deck, shortSheet, { sampleRateHz: RATE_HZ, seed });
  const { frames, truth } = simulation;
  const { bits } = simulation.deck.converter;
  const parts = [wavHeader({ sampleRateHz: RATE_HZ, bits, frames })];
  for (const block of simulation.blocks()) parts.push(wavFrames(block.left, block.right, block.frames, bits).slice());
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return { bytes, truth, durationS: frames / RATE_HZ };
}

/** Of the very stretch that was measured. */
function flutterOver(deck: unknown, seed: number, { startS, endS }: { startS: number; endS: number }): number {
  const whole = readDeck(deck);
  const model = speedModel(whole, layOut(readSheet(shortSheet), whole.side), seed);
  return flutterTruth(model, 100, startS, endS, 'smooth').weightedPercent;
}
