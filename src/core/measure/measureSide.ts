/**
 * A recording and the bands found in it → figures with uncertainties, the curves behind them, and what is withheld and why.
 *
 * One pass over the blocks in order; what no band covers is not read. Memory: one estimator at a time (see
 * toneEstimator.ts) and a few hundred bytes a second of the tones.
 */
import type { Problem } from '../capture/problem.ts';
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import type { RecordSheet } from '../record/sheet.ts';
import type { Stretch } from '../record/stretch.ts';
import type { ArmGeometry } from './armPhase.ts';
import type { Assumed } from './assumed.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import type { PreampResponse } from './chainLevel.ts';
import { traceCurves } from './curves.ts';
import { PassageReader, type PassageTask, passageTask, type Readings } from './estimators.ts';
import type { Curve, Finding } from './finding.ts';
import type { TurnAtStart } from './halfTurn.ts';
import { harmonicFigures } from './harmonicFigures.ts';
import { holeOfSide, turnsAtStart } from './hole.ts';
import { type LevelFigures, levelFigures } from './levelFigures.ts';
import { noiseFigures } from './noiseFigures.ts';
import { speedTones } from './nominal.ts';
import { onceAroundFigures } from './onceAround.ts';
import { recordCheck } from './recordCheck.ts';
import { referenceFigures } from './referenceFigures.ts';
import { resonanceFigures } from './resonanceFigures.ts';
import type { FoundLowSweep } from './resonanceWays.ts';
import { responseFigures } from './responseFigures.ts';
import {
  type ChannelOrder,
  exactRpm,
  meanOf,
  type PassageReading,
  type SideReadings,
  type ToneBand,
} from './sideReadings.ts';
import { type HeardGeometry, soundFigures } from './soundFigures.ts';
import { speedFigures } from './speed.ts';
import { speedDriftFigure } from './speedDrift.ts';
import type { ComplexLeaks } from './tilt.ts';
import type { ToneReading } from './toneEstimator.ts';
import type { Driven, Estimate } from './toneSegment.ts';
import { trackingFigures } from './trackingFigures.ts';
import { isLateral, polarityOf, wiringFindings } from './wiring.ts';
import { flutterFigures, flutterLineFigures } from './wowFlutter.ts';

export interface MeasureOptions {
  /** what is taken for granted where nobody has said it */
  readonly assumed: Assumed;
  readonly sheet?: RecordSheet;
  /** turns a minute of the record; the sheet's, else 33⅓ */
  readonly rpm?: number;
  /** Hz that the speed tone was cut with */
  readonly nominalSpeedToneHz?: number;
  /** the arm that played: where the hole off centre turns its phase */
  readonly arm?: ArmGeometry;
  /** captured without playback equalisation */
  readonly flat?: boolean;
  /** the preamplifier's response, where it was measured */
  readonly preamp?: PreampResponse;
  /** what is cut over what is stated, from the record's calibration */
  readonly recordResponse?: PreampResponse;
  /** stretches whose samples are not the groove's, s */
  readonly spoiled?: SideReadings['spoiled'];
  /** share of the pass done, 0 to 1 */
  readonly onProgress?: (fraction: number) => void;
  /** spectra of the bands among the curves */
  readonly withSpectra?: boolean;
  /** what lies between the bands, where it was heard */
  readonly stretches?: readonly Stretch[];
  /** where the passages are read elsewhere */
  readonly readPassages?: ReadPassages;
  /** whether the sheet's left comes out left */
  readonly order?: ChannelOrder;
}

/** Reads passages, in any order or side by side; gives the readings in the order of the tasks. */
export type ReadPassages = (
  tasks: readonly PassageTask[],
  onProgress?: (fraction: number) => void,
) => Promise<readonly Readings[]>;

/** The leaks with what they rest on, for the advice. */
export interface TiltReading extends ComplexLeaks {
  /** standard uncertainties of the four parts */
  readonly spread: ComplexLeaks;
  /** rad, clockwise positive; standard uncertainty */
  readonly tilt: number;
  readonly tiltSpread: number;
}

/** The platter's turning as heard, and at the exact speed. */
export interface HeardTurning {
  readonly heardHz: number;
  readonly nominalHz: number;
  /** Hz: how fine the lines of flutter were told apart */
  readonly resolutionHz: number;
}

export interface MeasuredSide {
  readonly findings: Finding[];
  readonly curves: Curve[];
  readonly problems: Problem[];
  /** gains removed; absent where the leaks could not be read */
  readonly leaks?: ComplexLeaks;
  readonly tilt?: TiltReading;
  /** what tells where the tip goes; absent from provisional figures */
  readonly geometry?: HeardGeometry;
  /** turns a second; null or absent where no tone tells */
  readonly turning?: HeardTurning | null;
  /** once per turn of each tone, for a second recording with the record turned by half a turn */
  readonly turns: readonly TurnAtStart[];
  /** sweeps of the record file that were found where ears tell nothing; absent from provisional figures */
  readonly lowSweeps?: readonly FoundLowSweep[];
}

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

/** What was read, with what the sheet says of each band, channels put right: what figures are made from. */
export function sideReadings(
  passages: readonly PassageReading[],
  bands: readonly Band[],
  options: Pick<
    MeasureOptions,
    'assumed' | 'sheet' | 'rpm' | 'nominalSpeedToneHz' | 'order' | 'arm' | 'preamp' | 'recordResponse' | 'spoiled'
  >,
): SideReadings {
  const { sheet, nominalSpeedToneHz, order = 'unknown' } = options;
  const tones = passages.flatMap(({ passage: { band }, readings: { tone } }): ToneBand[] => {
    const heard = band === null || tone === undefined ? null : toneBand(band, tone, sheet, order);
    return heard === null ? [] : [heard];
  });
  const rpm = options.rpm ?? sheet?.rpm;
  return {
    tones,
    passages,
    untoned: bands.filter((b) => b.signal !== 'tone'),
    sheet: sheet ?? null,
    order,
    rpm: exactRpm(rpm ?? 100 / 3),
    rpmStated: rpm !== undefined,
    nominalSpeedToneHz: nominalSpeedToneHz ?? null,
    arm: options.arm ?? null,
    assumed: options.assumed,
    preamp: options.preamp ?? null,
    recordResponse: options.recordResponse ?? null,
    spoiled: options.spoiled ?? [],
  };
}

/** All figures of a side from its readings. @param flat captured without playback equalisation */
export function figuresOf(side: SideReadings, flat: boolean): MeasuredSide {
  const polarity = polarityOf(side);
  const levels = levelFigures(side, polarity);
  const speedBands = speedTones(side, (t) => isLateral(t, polarity));
  const speed = speedFigures(side, speedBands);
  const rotationHz = rotationOf(side, speed.speed);
  const hole = rotationHz === null || speed.speed === null ? null : holeOfSide(side, rotationHz, speed.speed);
  const flutter = flutterFigures(speedBands, hole);
  const turn = onceAroundFigures(side, speedBands, rotationHz, hole);
  const sound = soundFigures(side, polarity, levels.crosstalk?.leaks ?? null, flat);
  const noise = noiseFigures(side, flat);
  const response = responseFigures(side, flat);
  const resonance = resonanceFigures(side, flat, polarity.inverted);
  return {
    findings: [
      ...levels.findings,
      ...wiringFindings(side, polarity),
      ...speed.findings,
      ...flutter.findings,
      ...flutterLineFigures(speedBands),
      ...turn.findings,
      ...speedDriftFigure(side),
      ...harmonicFigures(side.tones, flat),
      ...sound.findings,
      ...noise.findings,
      ...referenceFigures(side, flat),
      ...resonance.findings,
      ...response.findings,
      ...trackingFigures(side),
    ],
    problems: [
      ...levels.problems,
      ...speed.problems,
      ...flutter.problems,
      ...turn.problems,
      ...sound.problems,
      ...recordCheck(side, flat),
      ...noise.problems,
      ...resonance.problems,
      ...response.problems,
    ],
    geometry: sound.geometry,
    lowSweeps: resonance.lowSweeps,
    turning: rotationHz === null ? null : turningOf(side, speedBands, rotationHz),
    turns: turnsAtStart(hole),
    curves: [
      ...traceCurves(speedBands, rotationHz),
      ...noise.curves,
      ...resonance.curves,
      ...response.curves,
      ...(side.passages ?? []).flatMap(({ readings }) => readings.spectrum ?? []),
    ],
    ...tiltReading(levels),
  };
}

/** Of what plays, what a few milliseconds can tell: levels, wiring and speed, no curves. */
export function provisionalFigures(side: SideReadings): MeasuredSide {
  const polarity = polarityOf(side);
  const levels = levelFigures(side, polarity);
  const speed = speedFigures(
    side,
    speedTones(side, (t) => isLateral(t, polarity)),
  );
  return {
    findings: [...levels.findings, ...wiringFindings(side, polarity), ...speed.findings],
    problems: [...levels.problems, ...speed.problems],
    curves: [],
    turns: [],
    ...tiltReading(levels),
  };
}

function turningOf({ rpm }: SideReadings, tones: readonly ToneBand[], heardHz: number): HeardTurning {
  const longest = Math.max(4, ...tones.flatMap(({ reading }) => reading.segments.map((s) => s.flutter?.lengthS ?? 0)));
  return { heardHz, nominalHz: rpm / 60, resolutionHz: 0.5 / longest };
}

/** Turns a second as heard; null where no tone tells. */
function rotationOf(side: SideReadings, speed: Estimate | null): number | null {
  const hz = (side.rpm / 60) * (1 + (speed?.value ?? 0));
  return speed !== null && hz > 0.05 && hz < 3 ? hz : null;
}

function toneBand(
  band: Band,
  heard: ToneReading,
  sheet: RecordSheet | undefined,
  order: ChannelOrder,
): ToneBand | null {
  if (heard.segments.length === 0) return null;
  const reading = order === 'swapped' ? exchanged(heard) : heard;
  const segments = reading.segments;
  return {
    band,
    cut: band.sheetBand === null ? null : (sheet?.bands[band.sheetBand] ?? null),
    driven: reading.driven,
    reading,
    meanHz: meanOf(segments.map((s) => ({ weight: s.usedS, value: s.trace.meanHz }))),
    usedS: segments.reduce((sum, s) => sum + s.usedS, 0),
    startS: segments[0].startS,
    endS: segments[segments.length - 1].endS,
  };
}

/** Left and right exchanged: a one-sided ratio stays undriven over driven, left over right turns over. */
function exchanged(heard: ToneReading): ToneReading {
  const driven: Driven = heard.driven === 'both' ? 'both' : heard.driven === 'left' ? 'right' : 'left';
  const harmonics = heard.harmonics?.map((of) => ({
    ...of,
    channel: of.channel === 'left' ? ('right' as const) : ('left' as const),
  }));
  if (driven !== 'both') return { ...heard, driven, harmonics };
  return {
    ...heard,
    harmonics,
    segments: heard.segments.map((s) => {
      const { re, im, varRe, varIm, degreesOfFreedom } = s.ratio;
      const size2 = re * re + im * im;
      const variance = (varRe + varIm) / 2 / size2 ** 2;
      return {
        ...s,
        ratio: { re: re / size2, im: -im / size2, varRe: variance, varIm: variance, degreesOfFreedom },
      };
    }),
  };
}

function tiltReading({ crosstalk }: LevelFigures): Pick<MeasuredSide, 'leaks' | 'tilt'> {
  if (crosstalk === null) return {};
  const { leaks, leakSpread, tilt } = crosstalk;
  return { leaks, tilt: { ...leaks, spread: leakSpread, tilt: tilt.value, tiltSpread: tilt.spread } };
}
