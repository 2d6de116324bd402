/** What is true of one band of a capture: when it plays, how fast, how loud, how clean. */
import { type Complex, magnitude, over, phaseOf, plus, scaled, times } from '../units/complex.ts';
import { type Both, chainAt } from './chain.ts';
import { sweepLaw, sweepOffDb, wallsOf } from './groove.ts';
import { playback, riaaPlayback } from './response.ts';
import type { SheetBand } from './sheet.ts';
import type { Stretch } from './side.ts';
import { type FlutterTruth, flutterTruth } from './speedTruth.ts';
import { type SteadyTone, steadyTone } from './steadyTone.ts';
import { captureStart, type Take } from './take.ts';
import { cutPath, pathErrorDeg, trackingErrorDeg, verticalErrorDeg } from './tracking.ts';

export interface ChannelToneTruth {
  /** peak of the fundamental against full scale */
  readonly levelDbfs: number;
  /** of the cut velocity, equalisation undone */
  readonly secondHarmonicPercent: number;
  readonly thirdHarmonicPercent: number;
  readonly distortionPercent: number;
  /** signed second harmonic q, equalisation undone: docs/virtual-deck.md */
  readonly secondInPhasePercent: number;
  readonly secondQuadraturePercent: number;
  /** as it stands in the capture, equalised */
  readonly capturedSecondPercent: number;
  readonly capturedThirdPercent: number;
  readonly capturedDistortionPercent: number;
}

export interface BandTruth {
  readonly index: number;
  /** s from the capture's first frame; what lies outside the capture is cut off */
  readonly startS: number;
  readonly endS: number;
  readonly signal: SheetBand['signal'];
  readonly motion: string;
  readonly radiusMm: number;
  /** mean over the band, Hz */
  readonly frequencyHz: number | null;
  readonly frequenciesHz?: readonly [number, number];
  readonly fromHz?: number;
  readonly toHz?: number;
  /** mean over this band; turns are not whole, so wow leaves something in it */
  readonly meanSpeedErrorPercent: number;
  /** θ − φ of the arm */
  readonly trackingErrorDeg: number;
  /** of the tip's path, the body's tilt in it: what the deck alone would make of a faultless record */
  readonly pathErrorDeg: number;
  /** the tip's path less the angle that the record file states */
  readonly verticalErrorDeg: number;
  /** what the record adds to either beyond its file */
  readonly ofRecord: { readonly trackingDeg: number; readonly verticalDeg: number };
  /** tone bands */
  readonly flutter?: FlutterTruth;
  readonly left?: ChannelToneTruth;
  readonly right?: ChannelToneTruth;
  /** captured right over captured left, tone bands */
  readonly rightOverLeft?: { readonly db: number; readonly phaseDeg: number };
  /** two tones: rms of f2 ± f1 and f2 ± 2 f1 against f2 in the capture */
  readonly intermodulationPercent?: { readonly left: number; readonly right: number };
  /** sweeps: level in the capture against that at 1 kHz, as a sweep cut as its file says would show it */
  readonly response?: {
    readonly hz: readonly number[];
    readonly leftDb: readonly number[];
    readonly rightDb: readonly number[];
    /** what the cut adds to either beyond its file, against 1 kHz: none of it is the deck's */
    readonly ofRecordDb: readonly number[];
  };
}

/**
 * @param startS the band's edges, s of the whole take @param endS the later one
 * @returns null where nothing of the band is in the capture
 */
export function bandTruth(take: Take, stretch: Stretch, startS: number, endS: number): BandTruth | null {
  const { deck, sheet, speed } = take;
  const captureS = captureStart(take);
  const from = Math.max(0, startS - captureS);
  const to = Math.min(take.frames / take.sampleRateHz, endS - captureS);
  if (!(to > from)) return null;
  const band = sheet.bands[stretch.band];
  const mean = (stretch.endS - stretch.startS) / (endS - startS);
  const common = {
    index: stretch.band,
    startS: from,
    endS: to,
    signal: band.signal,
    motion: band.motion ?? (band.signal === 'noise' ? 'unknown' : 'none'),
    radiusMm: stretch.radiusMm,
    frequencyHz:
      band.signal === 'tone' ? band.frequencyHz! * mean * (1 + deck.record.cut.speedErrorPercent / 100) : null,
    meanSpeedErrorPercent: 100 * (mean - 1),
    trackingErrorDeg: trackingErrorDeg(deck, stretch.radiusMm),
    pathErrorDeg: pathErrorDeg(deck, stretch.radiusMm),
    verticalErrorDeg: verticalErrorDeg(deck, sheet, stretch.radiusMm),
    ofRecord: ofRecord(deck, sheet),
  };
  switch (band.signal) {
    case 'tone': {
      const tone = steadyTone(deck, sheet, band, stretch.radiusMm, mean);
      const first = tone.line(1, 0);
      return {
        ...common,
        flutter: flutterTruth(speed, stretch.radiusMm, from + captureS, to + captureS),
        left: channelTone(take, tone, 'left'),
        right: channelTone(take, tone, 'right'),
        rightOverLeft: ratio(first),
      };
    }
    case 'two-tone': {
      const tones = steadyTone(deck, sheet, band, stretch.radiusMm, mean);
      const share = (channel: keyof Both) => {
        const power = [-2, -1, 1, 2].reduce((sum, m) => sum + magnitude(tones.line(m, 1)[channel]) ** 2, 0);
        return percentOf(Math.sqrt(power), magnitude(tones.line(0, 1)[channel]));
      };
      return {
        ...common,
        frequenciesHz: tones.hz,
        intermodulationPercent: { left: share('left'), right: share('right') },
      };
    }
    case 'sweep':
      return {
        ...common,
        fromHz: band.fromHz! * mean,
        toHz: band.toHz! * mean,
        response: sweepResponse(take, band),
      };
    default:
      return common;
  }
}

/** The cut's path beyond what its file says, as it is heard: degrees that add to the deck's. */
function ofRecord(deck: Take['deck'], sheet: Take['sheet']): { trackingDeg: number; verticalDeg: number } {
  const deg = (slope: number) => (Math.atan(slope) * 180) / Math.PI;
  const [is, said] = [cutPath(deck, sheet), cutPath(deck, sheet, true)];
  return {
    trackingDeg: deg(said.lateral) - deg(is.lateral),
    verticalDeg: deg(is.vertical) - deg(said.vertical),
  };
}

/** Least level that is given; there is no minus infinity in a document. */
const FLOOR_DB = -250;
const dbOf = (size: number) => Math.max(FLOOR_DB, 20 * Math.log10(Math.max(size, 1e-300)));
const percentOf = (part: number, whole: number) => (whole > 1e-12 ? (100 * part) / whole : 0);

function ratio({ left, right }: Both): { db: number; phaseDeg: number } {
  if (magnitude(left) < 1e-12 || magnitude(right) < 1e-12)
    return { db: dbOf(magnitude(right)) - dbOf(magnitude(left)), phaseDeg: 0 };
  const share = over(right, left);
  return { db: dbOf(magnitude(share)), phaseDeg: (phaseOf(share) * 180) / Math.PI };
}

function channelTone({ deck }: Take, tone: SteadyTone, channel: keyof Both): ChannelToneTruth {
  const hz = tone.hz[0];
  const captured = [1, 2, 3, 4, 5].map((k) => tone.line(k, 0)[channel]);
  const undone = captured.map((line, i) => over(line, playback(deck.preamp, hz * (i + 1))));
  const sizes = undone.map(magnitude);
  const heard = captured.map(magnitude);
  const rest = (of: number[]) => Math.hypot(...of.slice(1));
  const q = signedSecond(undone[0], undone[1]);
  return {
    levelDbfs: dbOf(heard[0]),
    secondHarmonicPercent: percentOf(sizes[1], sizes[0]),
    thirdHarmonicPercent: percentOf(sizes[2], sizes[0]),
    distortionPercent: percentOf(rest(sizes), sizes[0]),
    secondInPhasePercent: 100 * q.re,
    secondQuadraturePercent: 100 * q.im,
    capturedSecondPercent: percentOf(heard[1], heard[0]),
    capturedThirdPercent: percentOf(heard[2], heard[0]),
    capturedDistortionPercent: percentOf(rest(heard), heard[0]),
  };
}

/** q = h2 / (h1² / |h1|) */
function signedSecond(h1: Complex, h2: Complex): Complex {
  const size = magnitude(h1);
  if (size < 1e-12) return { re: 0, im: 0 };
  const square = times(h1, h1);
  return over(h2, { re: square.re / size, im: square.im / size });
}

function sweepResponse({ deck, sheet }: Take, band: SheetBand) {
  const { left, right } = wallsOf(deck, sheet, band);
  const lateral = scaled(plus(left, right), Math.SQRT1_2);
  const vertical = scaled(plus(left, scaled(right, -1)), Math.SQRT1_2);
  const law = sweepLaw(band);
  const low = Math.min(law(0).hz, law(band.durationS).hz);
  const high = Math.max(law(0).hz, law(band.durationS).hz);
  const hz = Array.from({ length: 241 }, (_, i) => low * (high / low) ** (i / 240));
  const level = (f: number) => {
    const cut = band.cut === 'constant-velocity' ? 1 : 1 / magnitude(riaaPlayback(f));
    const both = chainAt(deck, scaled(lateral, cut), scaled(vertical, cut), f, sheet.referenceVelocityCmS);
    return { left: dbOf(magnitude(both.left)), right: dbOf(magnitude(both.right)) };
  };
  const reference = level(1000);
  const levels = hz.map(level);
  return {
    hz,
    leftDb: levels.map(({ left }) => left - reference.left),
    rightDb: levels.map(({ right }) => right - reference.right),
    ofRecordDb: hz.map((f) => sweepOffDb(deck, f) - sweepOffDb(deck, 1000)),
  };
}
