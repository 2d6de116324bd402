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
import { traceCurves } from './curves.ts';
import type { Curve, Finding } from './finding.ts';
import { harmonicFigures } from './harmonicFigures.ts';
import { type LevelFigures, levelFigures } from './levelFigures.ts';
import { speedTones } from './nominal.ts';
import { onceAroundFigures } from './onceAround.ts';
import { type ChannelOrder, exactRpm, meanOf, type SideReadings, type ToneBand } from './sideReadings.ts';
import { speedFigures } from './speed.ts';
import type { ComplexLeaks } from './tilt.ts';
import { LEAST_FLUTTER_S, ToneEstimator, type ToneReading } from './toneEstimator.ts';
import type { Driven } from './toneSegment.ts';
import { isLateral, polarityOf, wiringFindings } from './wiring.ts';
import { flutterFigures } from './wowFlutter.ts';

export interface MeasureOptions {
  readonly sheet?: RecordSheet;
  /** turns a minute of the record; the sheet's, else 33⅓ */
  readonly rpm?: number;
  /** Hz that the speed tone was cut with */
  readonly nominalSpeedToneHz?: number;
  /** captured without playback equalisation */
  readonly flat?: boolean;
  /** share of the pass done, 0 to 1 */
  readonly onProgress?: (fraction: number) => void;
  /** where the tones are read elsewhere */
  readonly readTones?: ReadTones;
  /** whether the sheet's left comes out left */
  readonly order?: ChannelOrder;
}

/** A tone to be read: plain data. */
export interface ToneTask {
  /** Hz, as heard */
  readonly frequencyHz: number;
  readonly driven: Driven;
  readonly fromFrame: number;
  readonly toFrame: number;
  readonly withFlutter: boolean;
  readonly withHarmonics: boolean;
}

/** Reads tones, in any order or side by side; gives the readings in the order of the tasks. */
export type ReadTones = (
  tasks: readonly ToneTask[],
  onProgress?: (fraction: number) => void,
) => Promise<readonly ToneReading[]>;

/** The leaks with what they rest on, for the advice. */
export interface TiltReading extends ComplexLeaks {
  /** standard uncertainties of the four parts */
  readonly spread: ComplexLeaks;
  /** rad, clockwise positive; standard uncertainty */
  readonly tilt: number;
  readonly tiltSpread: number;
}

export interface MeasuredSide {
  readonly findings: Finding[];
  readonly curves: Curve[];
  readonly problems: Problem[];
  /** gains removed; absent where the leaks could not be read */
  readonly leaks?: ComplexLeaks;
  readonly tilt?: TiltReading;
}

/** below this a tone is too short for anything, s */
const LEAST_TONE_S = 0.5;
/** below this its harmonics are not read, s */
const LEAST_HARMONIC_S = 1.5;

export async function measureSide(
  recording: Recording,
  bands: readonly Band[],
  options: MeasureOptions = {},
): Promise<MeasuredSide> {
  const { sampleRateHz, frames } = recording.format;
  const { sheet } = options;
  const order = options.order ?? 'unknown';
  const toned = bands
    .filter((b) => b.signal === 'tone' && b.frequencyHz !== null && b.endS - b.startS >= LEAST_TONE_S)
    .filter((b) => b.motion === 'left' || b.motion === 'right' || b.motion === 'lateral' || b.motion === 'vertical')
    .filter((b) => b.frequencyHz! >= 20 && b.frequencyHz! < 0.48 * sampleRateHz)
    .sort((a, b) => a.startS - b.startS);
  const tellsFlutter = flutterBands(toned, options);
  const ranges = toned
    .map((band) => ({
      band,
      fromFrame: Math.max(0, Math.round(band.startS * sampleRateHz)),
      toFrame: Math.min(frames, Math.round(band.endS * sampleRateHz)),
    }))
    .filter(({ fromFrame, toFrame }) => toFrame > fromFrame);
  const tasks = ranges.map(
    ({ band, fromFrame, toFrame }): ToneTask => ({
      frequencyHz: band.frequencyHz!,
      driven: band.motion === 'left' ? 'left' : band.motion === 'right' ? 'right' : 'both',
      fromFrame,
      toFrame,
      withFlutter: tellsFlutter.has(band),
      withHarmonics:
        band.frequencyHz! >= 250 && band.frequencyHz! <= 5000 && band.endS - band.startS >= LEAST_HARMONIC_S,
    }),
  );
  const readTones: ReadTones = options.readTones ?? ((all, onProgress) => readInTurn(recording, all, onProgress));
  const readings = await readTones(tasks, options.onProgress);
  options.onProgress?.(1);
  const tones = ranges.flatMap(({ band }, i): ToneBand[] => {
    const tone = toneBand(band, readings[i], sheet, order);
    return tone === null ? [] : [tone];
  });
  const rpm = options.rpm ?? sheet?.rpm;
  const side: SideReadings = {
    tones,
    untoned: bands.filter((b) => b.signal !== 'tone'),
    sheet: sheet ?? null,
    order,
    rpm: exactRpm(rpm ?? 100 / 3),
    rpmStated: rpm !== undefined,
    nominalSpeedToneHz: options.nominalSpeedToneHz ?? null,
  };
  return figuresOf(side, options.flat === true);
}

/** Reads one tone in one pass over its frames. @param onFrames told of every block's frames */
export async function readTone(
  recording: Recording,
  { frequencyHz, driven, fromFrame, toFrame, withFlutter, withHarmonics }: ToneTask,
  onFrames?: (frames: number) => void,
): Promise<ToneReading> {
  const estimator = new ToneEstimator(recording.format.sampleRateHz, frequencyHz, driven, withFlutter, withHarmonics);
  for await (const block of recording.blocks({ fromFrame, toFrame })) {
    estimator.push(block);
    onFrames?.(block.frames);
  }
  const reading = estimator.result();
  estimator.end();
  return reading;
}

async function readInTurn(
  recording: Recording,
  tasks: readonly ToneTask[],
  onProgress?: (fraction: number) => void,
): Promise<ToneReading[]> {
  const whole = tasks.reduce((sum, task) => sum + task.toFrame - task.fromFrame, 0);
  let done = 0;
  const readings: ToneReading[] = [];
  for (const task of tasks) {
    readings.push(
      await readTone(recording, task, (frames) => {
        done += frames;
        onProgress?.(Math.min(1, done / whole));
      }),
    );
  }
  return readings;
}

/** Bands that wow and flutter may be read from: the speed tones where there are any, else all. */
function flutterBands(bands: readonly Band[], { sheet, nominalSpeedToneHz }: MeasureOptions): Set<Band> {
  const wanted = nominalSpeedToneHz === undefined ? [3150, 3000] : [nominalSpeedToneHz];
  const near = (hz: number | null | undefined, share: number): boolean =>
    hz !== null && hz !== undefined && wanted.some((w) => Math.abs(hz / w - 1) < share);
  const speed = bands.filter(
    (b) =>
      b.endS - b.startS > LEAST_FLUTTER_S + 0.5 &&
      (b.sheetBand === null ? near(b.frequencyHz, 0.15) : near(sheet?.bands[b.sheetBand]?.frequencyHz, 0.01)),
  );
  return new Set(speed.length > 0 ? speed : bands);
}

/** All figures of a side from its readings. @param flat captured without playback equalisation */
export function figuresOf(side: SideReadings, flat: boolean): MeasuredSide {
  const polarity = polarityOf(side);
  const levels = levelFigures(side, polarity);
  const speedBands = speedTones(side, (t) => isLateral(t, polarity));
  const speed = speedFigures(side, speedBands);
  const flutter = flutterFigures(speedBands);
  const turn = onceAroundFigures(side, speedBands, speed.speed);
  return {
    findings: [
      ...levels.findings,
      ...wiringFindings(side, polarity),
      ...speed.findings,
      ...flutter.findings,
      ...turn.findings,
      ...harmonicFigures(side.tones, flat),
    ],
    problems: [...levels.problems, ...speed.problems, ...flutter.problems, ...turn.problems],
    curves: traceCurves(speedBands),
    ...tiltReading(levels),
  };
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
