/**
 * A recording of a test side → the whole document: bands, figures with verdicts, what to turn, problems, curves.
 * The one path for the command line, the page and the practice deck.
 */

import type { SideDocument } from '../advise/document.ts';
import { DEFAULT_LIMITS, judge, type Limits } from '../advise/limits.ts';
import { adviseSide } from '../advise/sideAdvice.ts';
import { SHORTEST_S } from '../capture/formatProblems.ts';
import { openRecording } from '../capture/openRecording.ts';
import type { ByteSource, Recording } from '../capture/recording.ts';
import { measureSide, type ReadPassages } from '../measure/measureSide.ts';
import { trustedBands, withoutFalsePairs } from '../measure/trusted.ts';
import type { Overview } from '../record/bandFinder.ts';
import { matchSheet } from '../record/matchSheet.ts';
import type { RecordSheet } from '../record/sheet.ts';
import { type Heard, listen } from './listen.ts';

export interface Progress {
  readonly stage: 'finding-bands' | 'measuring';
  /** of this stage, 0 to 1 */
  readonly fraction: number;
}

export interface ExamineOptions {
  readonly sheet?: RecordSheet;
  /** turns a minute of the record; the sheet's, else 33⅓ */
  readonly rpm?: number;
  /** Hz, the tone that speed is judged by */
  readonly nominalSpeedToneHz?: number;
  /** captured without playback equalisation */
  readonly flat?: boolean;
  readonly limits?: Limits;
  readonly sha256?: string | null;
  readonly onProgress?: (progress: Progress) => void;
  /** the two passes over the samples, where they are made elsewhere, for instance in several threads; the result is the same */
  readonly passes?: SidePasses;
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
}

/** Thrown when `signal.aborted` was set. */
export class StoppedError extends Error {
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
      ? await listen(watched(recording, 'finding-bands', options))
      : await passes.listen(tell('finding-bands'));
  const matched =
    options.sheet === undefined
      ? { bands: heard.bands, order: 'unknown' as const, problems: [] }
      : matchSheet(heard.bands, options.sheet);
  const damaged = recording.problems.flatMap(({ code, startS, endS }) =>
    code === 'damaged-frames' && startS !== undefined && endS !== undefined ? [{ startS, endS }] : [],
  );
  // less than half a turn holds nothing to measure
  const bands = recording.format.durationS < SHORTEST_S ? [] : matched.bands;
  const trusted = trustedBands(bands, [...heard.spoiled, ...damaged]);
  const measured = await measureSide(watched(recording, 'measuring', options), trusted.bands, {
    sheet: options.sheet,
    rpm: options.rpm,
    nominalSpeedToneHz: options.nominalSpeedToneHz,
    flat: options.flat,
    order: matched.order,
    stretches: heard.stretches,
    ...(passes === undefined ? {} : { readPassages: passes.readPassages, onProgress: tell('measuring') }),
  });
  const figures = withoutFalsePairs(measured.findings, [...recording.problems, ...heard.problems]);
  const limits = options.limits ?? DEFAULT_LIMITS;
  const { format } = recording;
  return {
    overview: heard.overview,
    document: {
      schema: 1,
      capture: {
        file: format.file,
        sampleRateHz: format.sampleRateHz,
        channels: format.channels,
        bitDepth: format.bitDepth,
        durationS: format.durationS,
        sha256: options.sha256 ?? null,
      },
      bands: matched.bands,
      findings: figures.findings.map((finding) => judge(finding, limits)),
      advice: adviseSide(figures.findings, figures.pair ? (measured.leaks ?? null) : null, limits, matched.bands),
      problems: [
        ...recording.problems,
        ...heard.problems,
        ...matched.problems,
        ...trusted.problems,
        ...measured.problems.filter(
          (p) => !figures.problems.some((other) => other.quantity === p.quantity && p.code === other.code),
        ),
        ...figures.problems,
      ],
      curves: measured.curves,
    },
  };
}
