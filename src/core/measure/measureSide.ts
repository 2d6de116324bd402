/**
 * A recording and the bands found in it → figures with uncertainties, the curves behind them, and what is withheld and why.
 *
 * One pass over the blocks in order; what no band covers is not read. Memory: one estimator at a time (see
 * toneEstimator.ts) and a few hundred bytes a second of the tones.
 */
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import type { Stretch } from '../record/stretch.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { PassageReader, type PassageTask, passageTask, type Readings } from './estimators.ts';
import { figuresOf, type MeasuredSide } from './figuresOfSide.ts';
import type { MeasureOptions, ReadPassages } from './measureOptions.ts';
import { sideReadings } from './readingsOfSide.ts';
import { exactRpm, type PassageReading } from './sideReadings.ts';

export async function measureSide(
  recording: Recording,
  bands: readonly Band[],
  options: MeasureOptions,
): Promise<MeasuredSide> {
  const known = sideKnown(recording.format.sampleRateHz, bands, options);
  const tasks = passagesOf(bands, options.stretches ?? []).flatMap((passage) => {
    const task = passageTask(passage, known, recording.format.frames);
    return task === null ? [] : [{ passage, task }];
  });
  const readPassages: ReadPassages =
    options.readPassages ?? ((all, onProgress) => readInTurn(recording, all, onProgress));
  const readings = await readPassages(
    tasks.map(({ task }) => task),
    options.onProgress,
  );
  options.onProgress?.(1);
  const heard = tasks.map(({ passage }, i): PassageReading => ({ passage, readings: readings[i] }));
  return figuresOf(sideReadings(heard, bands, options), options.flat === true);
}

/** What estimators are told of a side. */
export const sideKnown = (
  sampleRateHz: number,
  bands: readonly Band[],
  {
    sheet,
    rpm,
    nominalSpeedToneHz,
    withSpectra,
  }: Pick<MeasureOptions, 'sheet' | 'rpm' | 'nominalSpeedToneHz' | 'withSpectra'>,
): SideKnown => ({
  sampleRateHz,
  bands,
  sheet: sheet ?? null,
  rpm: exactRpm(rpm ?? sheet?.rpm ?? 100 / 3),
  nominalSpeedToneHz: nominalSpeedToneHz ?? null,
  withSpectra: withSpectra === true,
});

/** In the order in which they play. */
const passagesOf = (bands: readonly Band[], stretches: readonly Stretch[]): Passage[] =>
  [
    ...bands.map((band): Passage => ({ signal: band.signal, startS: band.startS, endS: band.endS, band })),
    ...stretches.map(
      ({ kind, startS, endS, sheetBand }): Passage => ({ signal: kind, startS, endS, band: null, sheetBand }),
    ),
  ].sort((a, b) => a.startS - b.startS);

/** Reads one passage in one pass over its frames. @param onFrames told of every block's frames */
export async function readPassage(
  recording: Recording,
  task: PassageTask,
  onFrames?: (frames: number) => void,
): Promise<Readings> {
  const reader = new PassageReader(recording.format.sampleRateHz, task);
  for await (const block of recording.blocks(task)) {
    reader.push(block);
    onFrames?.(block.frames);
  }
  return reader.finish();
}

async function readInTurn(
  recording: Recording,
  tasks: readonly PassageTask[],
  onProgress?: (fraction: number) => void,
): Promise<Readings[]> {
  const whole = tasks.reduce((sum, task) => sum + task.toFrame - task.fromFrame, 0);
  let done = 0;
  const readings: Readings[] = [];
  for (const task of tasks) {
    readings.push(
      await readPassage(recording, task, (frames) => {
        done += frames;
        onProgress?.(Math.min(1, done / whole));
      }),
    );
  }
  return readings;
}
