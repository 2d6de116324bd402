/**
 * A recording of a test side → the whole document: bands, figures with verdicts, what to turn, problems, curves.
 * The one path for the command line, the page and the practice deck.
 */

import { assumedOf } from '../advise/budget/assumedOf.ts';
import type { BenchKnown } from '../advise/budget/bench.ts';
import type { LearnedRecord } from '../advise/budget/learnedRecord.ts';
import { recordError } from '../advise/budget/recordError.ts';
import type { SideDocument } from '../advise/document.ts';
import type { NamedLimits } from '../advise/limitsFile.ts';
import { openRecording } from '../capture/openRecording.ts';
import { type Problem, problem } from '../capture/problem.ts';
import type { ByteSource, Recording } from '../capture/recording.ts';
import type { ArmGeometry } from '../measure/armPhase.ts';
import type { PreampResponse } from '../measure/chainLevel.ts';
import type { TurnAtStart } from '../measure/halfTurn.ts';
import type { ReadPassages } from '../measure/measureOptions.ts';
import { measureSide, sideKnown } from '../measure/measureSide.ts';
import type { Overview } from '../record/bandFinder.ts';
import type { RecordSheet } from '../record/sheet.ts';
import type { Shelf } from '../record/shelf.ts';
import { type ChannelSeam, findChannelSeam } from './channelSeam.ts';
import { beforeSeam, withoutChannels, withoutOrder } from './exchanged.ts';
import { findExchange } from './exchangedChannels.ts';
import { firstDrop } from './firstDrop.ts';
import { type Heard, listen } from './listen.ts';
import { sideDocument } from './sideDocument.ts';
import { afterTurn, findTurned, turnedProblem } from './turnedBands.ts';
import { whatMayBeMeasured } from './whatMayBeMeasured.ts';
import { withLowSweeps } from './withLowSweeps.ts';

export interface Progress {
  readonly stage: 'finding-bands' | 'measuring';
  /** of this stage, 0 to 1 */
  readonly fraction: number;
}

/** What is told of a side beside its sound. */
export interface SideOptions {
  readonly sheet?: RecordSheet;
  /** turns a minute of the record; the sheet's, else 33⅓ */
  readonly rpm?: number;
  /** Hz, the tone that speed is judged by */
  readonly nominalSpeedToneHz?: number;
  /** captured without playback equalisation */
  readonly flat?: boolean;
  readonly limits?: NamedLimits;
  /** spectra of the bands among the curves */
  readonly withSpectra?: boolean;
  /** what the shop has learned of the record */
  readonly learned?: LearnedRecord;
  /** what the bench knows of its chain, and the speed that was read while it played */
  readonly bench?: BenchKnown;
  /** the preamplifier's response, where it was measured */
  readonly preamp?: PreampResponse;
  /** what is cut over what is stated, from the record's calibration */
  readonly recordResponse?: PreampResponse;
  /** the arm that played: where a hole off centre turns its phase, which overhang it asks for */
  readonly arm?: ArmGeometry;
}

export interface ExamineOptions extends SideOptions {
  readonly sha256?: string | null;
  readonly onProgress?: (progress: Progress) => void;
  /** the two passes over the samples, where they are made elsewhere, for instance in several threads; the result is the same */
  readonly passes?: SidePasses;
  /** where what is kept of a long recording goes, unless `passes` has its own */
  readonly shelf?: Shelf | null;
  /** set `aborted` to stop at the next block */
  readonly signal?: { readonly aborted: boolean };
}

export interface SidePasses {
  listen(onProgress: (fraction: number) => void): Promise<Heard>;
  readonly readPassages: ReadPassages;
}

export interface ExaminedSide {
  readonly document: SideDocument;
  readonly overview: Overview;
  /** once per turn of each tone, for a second recording with the record turned by half a turn */
  readonly turns: readonly TurnAtStart[];
}

/** Thrown when `signal.aborted` was set. */
class StoppedError extends Error {
  constructor() {
    super('stopped before the end');
  }
}

/** Passes blocks on, tells how far along they are, and stops when asked. */
function watched(recording: Recording, stage: Progress['stage'], options: ExamineOptions): Recording {
  return {
    ...recording,
    async *blocks(range) {
      for await (const block of recording.blocks(range)) {
        if (options.signal?.aborted === true) throw new StoppedError();
        yield block;
        options.onProgress?.({
          stage,
          fraction: Math.min(1, (block.startFrame + block.frames) / recording.format.frames),
        });
      }
    },
  };
}

/**
 * @throws CaptureError for what is no readable recording; StoppedError when stopped
 */
export async function examineSide(source: ByteSource, options: ExamineOptions = {}): Promise<ExaminedSide> {
  return examineRecording(await openRecording(source), options);
}

export async function examineRecording(recording: Recording, options: ExamineOptions = {}): Promise<ExaminedSide> {
  const { passes } = options;
  const tell =
    (stage: Progress['stage']) =>
    (fraction: number): void =>
      options.onProgress?.({ stage, fraction });
  const heard =
    passes === undefined
      ? await listen(watched(recording, 'finding-bands', options), options.shelf)
      : await passes.listen(tell('finding-bands'));
  const damaged = recording.problems.flatMap(({ code, startS, endS }) =>
    code === 'damaged-frames' && startS !== undefined && endS !== undefined ? [{ startS, endS }] : [],
  );
  const { format } = recording;
  const spoiled = [...heard.spoiled, ...damaged];
  const matched = (bands: Heard['bands']) => whatMayBeMeasured(bands, spoiled, options.sheet, format.durationS);
  const whole = matched(heard.bands);
  const isOff = recording.problems.some(({ code }) => code === 'one-sample-off');
  const seam =
    (await findChannelSeam(recording, whole.bands)) ?? (isOff ? await findExchange(recording, whole.bands) : null);
  const isUnsure = isOff && seam === null;
  const upTo = (band: number) => matched(heard.bands.filter(({ index }) => index < band));
  const side = seam !== null ? beforeSeam(whole, seam, upTo) : isUnsure ? withoutOrder(whole) : whole;
  const record = recordError(options.sheet?.cut, options.learned, options.bench);
  const turnS = 60 / sideKnown(format.sampleRateHz, [], options).rpm;
  const turned = isUnsure ? [] : await findTurned(recording, side.trusted, turnS);
  const trusted = afterTurn(side.trusted, turned);
  const measured = await measureSide(watched(recording, 'measuring', options), trusted, {
    assumed: assumedOf(record),
    sheet: options.sheet,
    rpm: options.rpm,
    nominalSpeedToneHz: options.nominalSpeedToneHz,
    flat: options.flat,
    withSpectra: options.withSpectra,
    arm: options.arm,
    preamp: options.preamp,
    recordResponse: options.recordResponse,
    spoiled,
    order: side.order,
    stretches: [...heard.stretches, ...firstDrop(heard), ...side.lowSweeps].filter(
      ({ endS }) => seam === null || endS < seam.atS,
    ),
    ...(passes === undefined ? {} : { readPassages: passes.readPassages, onProgress: tell('measuring') }),
  });
  const told = isUnsure ? withoutChannels(measured) : measured;
  const asHeard = sideDocument({
    format,
    sha256: options.sha256 ?? null,
    bands: side.bands,
    measured: told,
    found: [...recording.problems, ...heard.problems],
    problems: [
      ...(seam === null ? [] : [seamProblem(seam, format.durationS)]),
      ...(isUnsure ? [problem('channels-unsure')] : []),
      ...turned.map(turnedProblem),
      ...side.problems,
    ],
    limits: options.limits,
    sheet: options.sheet,
    arm: options.arm,
    record,
  });
  const { document, placeOf } = withLowSweeps(asHeard, measured.lowSweeps ?? [], options.sheet);
  const turns = measured.turns.map((turn) => ({ ...turn, band: placeOf(turn.band) }));
  return { overview: heard.overview, document, turns };
}

const seamProblem = ({ atS }: ChannelSeam, durationS: number): Problem =>
  problem('channels-shift', { atS: atS.toFixed(2) }, { startS: atS, endS: durationS });
