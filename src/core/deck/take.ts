/** One take: a deck and a record put together, the side laid out and the speed known. */
import { type Deck, type DeckFile, readDeck } from './deck.ts';
import { LEAK_DELAY } from './leaks.ts';
import { random } from './random.ts';
import { firShape } from './realise.ts';
import { readSheet, type Sheet, type SheetFile } from './sheet.ts';
import { layOut, type Side } from './side.ts';
import { type SpeedModel, speedModel, timesOf } from './speed.ts';
import { checkShift } from './tipReading.ts';
import { readingAt } from './tracking.ts';

export interface SimulateOptions {
  /** Hz, 32000 to 384000 */
  readonly sampleRateHz: number;
  /** integer, 0 to 2³² − 1 */
  readonly seed: number;
}

/** Frames worked on at a time; the random numbers are drawn in this rhythm, whatever the caller's block is. */
export const CHUNK = 2048;
/** A capture that starts in mid-side finds the filters settled: so much is played before it and dropped, s. */
const PREROLL_S = 0.5;

/** Streams of random numbers, one for each source; 1 belongs to the drift of the speed. Noise bands take those from `band` on. */
export const STREAM = {
  surface: 2,
  surfaceOther: 3,
  rumbleLateral: 4,
  rumbleVertical: 5,
  inputLeft: 6,
  inputRight: 7,
  ditherLeft: 8,
  ditherRight: 9,
  clicks: 10,
  band: 11,
} as const;

/** Everything that one take is made of. */
export interface Take {
  readonly deck: Deck;
  readonly sheet: Sheet;
  readonly side: Side;
  readonly speed: SpeedModel;
  readonly sampleRateHz: number;
  readonly seed: number;
  /** s of the whole take at the first frame that is played */
  readonly fromS: number;
  /** frames played before the capture's first */
  readonly prerollFrames: number;
  readonly frames: number;
  /** s of the whole take at which each stretch starts, and the end */
  readonly edgesAtS: readonly number[];
  readonly dropAtS: number;
  readonly liftAtS: number;
}

/**
 * @throws RangeError naming what is wrong with the deck, the sheet or the options
 */
export function prepareTake(
  deckFile: DeckFile | unknown,
  sheetFile: SheetFile | unknown,
  { sampleRateHz, seed }: SimulateOptions,
): Take {
  if (!(sampleRateHz >= 32000 && sampleRateHz <= 384000)) {
    throw new RangeError(`sampleRateHz: ${sampleRateHz} given, expected a number from 32000 to 384000`);
  }
  random(seed, 0); // refuses a seed that is not one
  const deck = readDeck(deckFile);
  const sheet = readSheet(sheetFile);
  sheet.bands.forEach((band, index) => {
    const top = Math.max(band.frequencyHz ?? 0, band.fromHz ?? 0, band.toHz ?? 0, ...(band.frequenciesHz ?? []));
    if (!(top < sampleRateHz / 2)) {
      throw new RangeError(
        `bands[${index}]: ${top} Hz given, expected less than ${sampleRateHz / 2} Hz, half the sample rate`,
      );
    }
  });
  const side = layOut(sheet, deck.side, deck.record.groovePitchMm);
  // Refuses an arm that cannot reach a band, and a band that its tip could not follow.
  for (const stretch of side.stretches) {
    const band = sheet.bands[stretch.band];
    if (band !== undefined) checkShift(deck, sheet, band, readingAt(deck, sheet, stretch.radiusMm), stretch.band);
  }
  const speed = speedModel(deck, side, seed);
  const edgesAtS = timesOf(speed, [...side.stretches.map((one) => one.startS), side.endS]);
  const endAtS = edgesAtS[edgesAtS.length - 1];
  const captureFromS = deck.side.captureFromS;
  const captureToS = Math.min(endAtS, deck.side.captureToS ?? endAtS);
  if (!(captureToS - captureFromS >= 0.01)) {
    throw new RangeError(
      `side.captureFromS: ${captureFromS} given, expected at least 0.01 s before the recording ends at ${captureToS.toFixed(2)} s`,
    );
  }
  const prerollFrames = Math.floor(Math.min(captureFromS, PREROLL_S) * sampleRateHz);
  return {
    deck,
    sheet,
    side,
    speed,
    sampleRateHz,
    seed,
    fromS: captureFromS - prerollFrames / sampleRateHz,
    prerollFrames,
    frames: Math.floor((captureToS - captureFromS) * sampleRateHz),
    edgesAtS,
    dropAtS: edgesAtS[side.stretches.findIndex((one) => one.startS >= side.dropS)],
    liftAtS: edgesAtS[side.stretches.findLastIndex((one) => one.endS <= side.liftS) + 1],
  };
}

/** Frames by which the leaks' and the preamp's filters together are late. */
export const latencyFrames = (sampleRateHz: number): number => LEAK_DELAY + firShape(sampleRateHz).delay;

/** s of the whole take at the capture's first frame */
export const captureStart = (take: Take): number => take.fromS + take.prerollFrames / take.sampleRateHz;
