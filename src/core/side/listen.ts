/**
 * The first pass over a recording: what its samples show and which bands it holds. Either in one go, or in parts that may be
 * listened to side by side and are then joined; both give the same.
 */
import type { Problem } from '../capture/problem.ts';
import type { CaptureFormat, FrameRange, Recording } from '../capture/recording.ts';
import { type InspectedPart, SampleInspector, type Spoiled } from '../capture/sampleInspector.ts';
import type { Band } from '../record/band.ts';
import { BandFinder, type HeardPart, type Overview } from '../record/bandFinder.ts';
import { HOPS_AROUND, hopFrames } from '../record/hopSpectra.ts';
import type { Shelf } from '../record/shelf.ts';
import type { Stretch } from '../record/stretch.ts';

export interface Heard {
  readonly bands: Band[];
  /** what lies between bands */
  readonly stretches: Stretch[];
  readonly overview: Overview;
  readonly problems: Problem[];
  /** stretches whose samples are no longer the groove's */
  readonly spoiled: Spoiled[];
}

/** Plain data. */
export interface ListenedPart {
  readonly samples: InspectedPart;
  readonly ear: HeardPart;
}

/** Parts begin at multiples of this many frames, where blocks and hops of every rate begin. */
export const PART_FRAMES = 65_536;

/** @param shelf where what is kept of a long recording goes */
export async function listen(recording: Recording, shelf: Shelf | null = null): Promise<Heard> {
  const finder = new BandFinder({ sampleRateHz: recording.format.sampleRateHz, shelf });
  const inspector = new SampleInspector(recording.format);
  for await (const block of recording.blocks()) {
    inspector.push(block);
    finder.push(block);
  }
  return whatIsHeard(inspector, finder);
}

/**
 * Listens to one part of a recording, with the little before and after it that its spectra reach into.
 *
 * @param range from a multiple of `PART_FRAMES` to another, or to the end
 */
export async function listenToPart(
  recording: Recording,
  range: FrameRange,
  shelf: Shelf | null = null,
): Promise<ListenedPart> {
  const { sampleRateHz, frames } = recording.format;
  const { fromFrame, toFrame } = range;
  const isLast = toFrame === frames;
  if (!(fromFrame % PART_FRAMES === 0 && (isLast || toFrame % PART_FRAMES === 0))) {
    throw new RangeError(`range ${fromFrame} to ${toFrame} must be made of whole ${PART_FRAMES} frames`);
  }
  const hop = hopFrames(sampleRateHz);
  const before = Math.max(0, fromFrame - HOPS_AROUND * hop);
  const after = Math.min(frames, toFrame + HOPS_AROUND * hop);
  const from = (fromFrame - before) / hop;
  const to = isLast ? Number.POSITIVE_INFINITY : (toFrame - before) / hop;
  const finder = new BandFinder({ sampleRateHz, kept: { from, to }, shelf });
  const inspector = new SampleInspector(recording.format);
  for await (const block of recording.blocks({ fromFrame: before, toFrame: fromFrame })) finder.push(block);
  for await (const block of recording.blocks(range)) {
    inspector.push(block);
    finder.push(block);
  }
  for await (const block of recording.blocks({ fromFrame: toFrame, toFrame: after })) finder.push(block);
  return { samples: inspector.part(), ear: finder.part(toFrame - fromFrame, after === frames) };
}

/** @param parts in order, without a hole, from the first frame to the last @param shelf can take what theirs laid away */
export function joinParts(format: CaptureFormat, parts: readonly ListenedPart[], shelf: Shelf | null = null): Heard {
  const finder = new BandFinder({ sampleRateHz: format.sampleRateHz, shelf });
  const inspector = new SampleInspector(format);
  for (const { samples, ear } of parts) {
    inspector.append(samples);
    finder.append(ear);
  }
  return whatIsHeard(inspector, finder);
}

function whatIsHeard(inspector: SampleInspector, finder: BandFinder): Heard {
  const found = finder.finish();
  return { ...found, problems: [...inspector.finish(), ...found.problems], spoiled: inspector.spoiled() };
}
