/**
 * What the fit of hole and platter hears of speed tones, without their samples: a groove time from exact kinematics, read as a phase at the
 * rate of a baseband, with noise on it. A side costs a hundredth of one that is played; hole.test.ts holds the two against each other.
 */
import { readDeck } from '../../src/core/deck/deck.ts';
import { readSheet } from '../../src/core/deck/sheet.ts';
import { layOut } from '../../src/core/deck/side.ts';
import { grooveTime, type SpeedModel, speedModel, timesOf } from '../../src/core/deck/speed.ts';
import type { ArmGeometry } from '../../src/core/measure/armPhase.ts';
import type { Assumed } from '../../src/core/measure/assumed.ts';
import { figuresOf } from '../../src/core/measure/figuresOfSide.ts';
import { FlutterAnalysis } from '../../src/core/measure/flutter.ts';
import type { ToneBand } from '../../src/core/measure/sideReadings.ts';
import { thinned } from '../../src/core/measure/thinTrace.ts';
import type { SegmentFigures } from '../../src/core/measure/toneEstimator.ts';
import type { SpeedTrace } from '../../src/core/measure/toneSegment.ts';
import { onLoan } from '../../src/core/signal/workArrays.ts';

/** values a second of a trace */
const RATE_HZ = 500;

/** Noise of the phase, rad a value, standard, and as much on the level; `gauss` gives normal numbers of a standard deviation. */
export interface TraceNoise {
  readonly rad: number;
  readonly gauss: (spread: number) => number;
}

export interface TracedTone {
  readonly index: number;
  /** s */
  readonly fromS: number;
  readonly toS: number;
  /** as cut, in groove time */
  readonly hz: number;
  /** as it is told to the fit; null where nobody tells it */
  readonly radiusMm: number | null;
}

/** @param grooveS groove time at a time, s */
export function tracedTone(tone: TracedTone, grooveS: (t: number) => number, noise: TraceNoise): ToneBand {
  const { index, fromS, toS, radiusMm } = tone;
  const segment = segmentOf(tone, grooveS, noise);
  const meanHz = segment.trace.meanHz;
  return {
    band: {
      index,
      startS: fromS,
      endS: toS,
      signal: 'tone',
      motion: 'lateral',
      frequencyHz: meanHz,
      radiusMm,
      sheetBand: null,
    },
    cut: null,
    driven: 'both',
    reading: { driven: 'both', segments: [segment] },
    meanHz,
    usedS: toS - fromS,
    startS: fromS,
    endS: toS,
  };
}

function segmentOf(
  { fromS, toS, hz }: TracedTone,
  grooveS: (t: number) => number,
  { rad, gauss }: TraceNoise,
): SegmentFigures {
  const count = Math.floor((toS - fromS) * RATE_HZ);
  const phase = Float64Array.from(
    { length: count + 1 },
    (_, n) => 2 * Math.PI * hz * grooveS(fromS + n / RATE_HZ) + gauss(rad),
  );
  const slope = (phase[count] - phase[0]) / count;
  const speed: SpeedTrace = {
    rateHz: RATE_HZ,
    startS: fromS + 0.5 / RATE_HZ,
    meanHz: (slope * RATE_HZ) / (2 * Math.PI),
    deviation: Float64Array.from({ length: count }, (_, n) => (phase[n + 1] - phase[n]) / slope - 1),
    level: Float64Array.from({ length: count }, () => gauss(rad)),
    goodShare: 1,
  };
  return {
    startS: fromS,
    endS: toS,
    usedS: toS - fromS,
    ratio: { re: 1, im: 0, varRe: 0, varIm: 0, degreesOfFreedom: 100 },
    logLevel: { value: 0, variance: 0, degreesOfFreedom: 100 },
    trace: thinned(speed),
    flutter: onLoan(() => {
      const analysis = FlutterAnalysis.of(speed);
      return { ...onLoan(() => analysis.figures()), spectrum: null, lines: [], sway: null, lengthS: count / RATE_HZ };
    }),
  };
}

export interface TracedSide {
  readonly tones: readonly ToneBand[];
  readonly model: SpeedModel;
}

/**
 * All bands of a virtual deck's sheet, which must be tones.
 * @param heard by band: s cut off at either end, and mm that its stated radius is off
 */
export function tracedSide(
  deck: unknown,
  sheet: unknown,
  seed: number,
  heard: readonly { readonly insetS: readonly [number, number]; readonly radiusOffMm: number }[],
  noise: TraceNoise,
): TracedSide {
  const whole = readDeck(deck);
  const record = readSheet(sheet);
  const side = layOut(record, whole.side, whole.record.groovePitchMm);
  const model = speedModel(whole, side, seed);
  const timeAt = grooveTime(model);
  const cutFast = 1 + whole.record.cut.speedErrorPercent / 100;
  const tones = side.stretches
    .filter(({ kind }) => kind === 'band')
    .map(({ startS, endS, radiusMm, band: index }): ToneBand => {
      const [from, to] = timesOf(model, [startS, endS]);
      const { insetS, radiusOffMm } = heard[index];
      const tone: TracedTone = {
        index,
        fromS: from + insetS[0],
        toS: to - insetS[1],
        hz: (record.bands[index].frequencyHz as number) * cutFast,
        radiusMm: radiusMm + radiusOffMm,
      };
      return tracedTone(tone, (t) => timeAt(t).tau, noise);
    });
  return { tones, model };
}

/** The figures of such tones. @param arm null where nobody gives it */
export function figuresOfTones(tones: readonly ToneBand[], assumed: Assumed, arm: ArmGeometry | null) {
  const { findings } = figuresOf(
    {
      tones,
      passages: [],
      untoned: [],
      sheet: null,
      order: 'unknown',
      rpm: 100 / 3,
      preamp: null,
      recordResponse: null,
      spoiled: [],
      rpmStated: true,
      nominalSpeedToneHz: null,
      arm,
      assumed,
    },
    false,
  );
  return (quantity: string) => findings.find((f) => f.quantity === quantity);
}
