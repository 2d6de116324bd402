/**
 * What is cut in a band: one motion with a direction, given to both walls.
 *
 * The motion is an analytic signal: velocity V(w) = v e^{jωw}, displacement S = V/jω, w in seconds of groove time. Each wall
 * moves by the real part of its own complex gain times that (leaks of the cutter are complex, the same at every frequency).
 */
import { type Complex, ONE, over, plus, polar, scaled, times } from '../units/complex.ts';
import type { Deck } from './deck.ts';
import { riaaPlayback } from './response.ts';
import type { Sheet, SheetBand } from './sheet.ts';

/** Displacement, velocity and acceleration at w, each with its part a quarter period later: cm, cm/s, cm/s². */
export type Waveform = (w: number, out: Motion) => void;

export interface Motion {
  s: number;
  sq: number;
  v: number;
  vq: number;
  a: number;
  aq: number;
}

export const stillMotion = (): Motion => ({ s: 0, sq: 0, v: 0, vq: 0, a: 0, aq: 0 });

/** Gains of the walls, of a band's velocity as the record file states it. */
export interface Walls {
  readonly left: Complex;
  readonly right: Complex;
}

const TAU = 2 * Math.PI;
const NONE: Complex = { re: 0, im: 0 };

/** The cutter's tilt, clockwise: what the file says and what it does not. */
export const cutTiltDeg = (deck: Deck, sheet: Sheet): number => (sheet.cut?.tiltDeg ?? 0) + deck.record.cut.tiltDeg;

/** Direction of a band's motion; a cutter tilted clockwise by ψ turns it clockwise. Left moves along `/`, right along `\`. */
export function wallsOf(deck: Deck, sheet: Sheet, band: SheetBand): Walls {
  const { cut } = deck.record;
  const from = { left: 45, right: -45, lateral: 0, vertical: 90, none: 0 }[band.motion ?? 'none'];
  const angle = ((from - cutTiltDeg(deck, sheet)) * Math.PI) / 180;
  const left: Complex = { re: (Math.cos(angle) + Math.sin(angle)) * Math.SQRT1_2, im: 0 };
  const right: Complex = { re: (Math.cos(angle) - Math.sin(angle)) * Math.SQRT1_2, im: 0 };
  const leak = (of: Deck['record']['cut']['leftIntoRight']) =>
    of === null ? NONE : polar(10 ** (of.db / 20), (of.phaseDeg * Math.PI) / 180);
  const gain = (db: number) => 10 ** ((cut.levelDb + db) / 20);
  return {
    left: scaled(plus(left, times(right, leak(cut.rightIntoLeft))), gain(cut.balanceDb / 2)),
    right: scaled(plus(right, times(left, leak(cut.leftIntoRight))), gain(-cut.balanceDb / 2)),
  };
}

/** Groove speed, cm/s. */
export const grooveSpeedCmS = (rpm: number, radiusMm: number): number => (TAU * (rpm / 60) * radiusMm) / 10;

/** Peak velocity that the file says is cut, cm/s: the stated one with the certificate's correction (what is cut minus what is stated, dB). */
const cutVelocity = (band: SheetBand): number =>
  (band.peakVelocityCmS ?? 0) * 10 ** ((band.levelCorrectionDb ?? 0) / 20);

/** One sinusoid of a band: m·f1 + n·f2 in Hz, peak cm/s, cosine at w = 0. */
export interface CutLine {
  readonly m: number;
  readonly n: number;
  readonly hz: number;
  readonly velocity: number;
}

/** Lines of a tone or of two tones, those of a bending cutter with them: V + h V²/v₀ without its mean. */
export function cutLines(deck: Deck, sheet: Sheet, band: SheetBand): CutLine[] {
  const v = cutVelocity(band);
  const fast = 1 + deck.record.cut.speedErrorPercent / 100;
  const two = band.signal === 'two-tone';
  const [f1, f2] = (two ? [...band.frequenciesHz!].sort((a, b) => a - b) : [band.frequencyHz!, 0]).map(
    (hz) => hz * fast,
  );
  const ratio = band.ratio ?? 4;
  const v1 = two ? (v * ratio) / (1 + ratio) : v;
  const v2 = two ? v / (1 + ratio) : 0;
  const line = (m: number, n: number, velocity: number): CutLine => ({ m, n, hz: m * f1 + n * f2, velocity });
  // 2 (h/v₀) V²: at the reference velocity the second harmonic is h of the first
  const h = deck.record.cut.secondHarmonicPercent / 100 / sheet.referenceVelocityCmS;
  const bent = [
    line(2, 0, h * v1 * v1),
    line(0, 2, h * v2 * v2),
    line(1, 1, 2 * h * v1 * v2),
    line(-1, 1, 2 * h * v1 * v2),
  ];
  return [line(1, 0, v1), ...(two ? [line(0, 1, v2)] : []), ...bent.filter(({ velocity }) => velocity !== 0)];
}

/** @param phase of each line at w = 0, cycles */
export function waveformOfLines(lines: readonly CutLine[], phase: (line: CutLine) => number = () => 0): Waveform {
  const each = lines.map((line) => ({
    hz: line.hz,
    omega: TAU * line.hz,
    velocity: line.velocity,
    phase: phase(line),
  }));
  return (w, out) => {
    out.s = 0;
    out.sq = 0;
    out.v = 0;
    out.vq = 0;
    out.a = 0;
    out.aq = 0;
    for (const { hz, omega, velocity, phase } of each) {
      const cycles = hz * w + phase;
      const angle = TAU * (cycles - Math.floor(cycles));
      const re = velocity * Math.cos(angle);
      const im = velocity * Math.sin(angle);
      out.s += im / omega;
      out.sq -= re / omega;
      out.v += re;
      out.vq += im;
      out.a -= omega * im;
      out.aq += omega * re;
    }
  };
}

/** The waveform of a band; null where it has none of its own (noise, silence). */
export function waveformOf(deck: Deck, sheet: Sheet, band: SheetBand): Waveform | null {
  switch (band.signal) {
    case 'tone':
    case 'two-tone':
      return waveformOfLines(cutLines(deck, sheet, band));
    case 'sweep':
      return sweep(band, cutVelocity(band), (hz) => 10 ** (sweepOffDb(deck, hz) / 20));
    default:
      return null;
  }
}

/** By how much a sweep is cut louder than its record file says, dB: slope and response of the cut. */
export function sweepOffDb(deck: Deck, hz: number): number {
  const { sweepSlopeDbPerDecade: slope, sweepResponse: points } = deck.record.cut;
  const sloping = slope * Math.log10(hz / 1000);
  if (points.length === 0) return sloping;
  const next = points.findIndex((point) => point.hz >= hz);
  if (next <= 0) return sloping + points[next === 0 ? 0 : points.length - 1].db;
  const [a, b] = [points[next - 1], points[next]];
  return sloping + a.db + ((b.db - a.db) * Math.log(hz / a.hz)) / Math.log(b.hz / a.hz);
}

/** Frequency and phase (in cycles) of a sweep at w seconds from its start. */
export function sweepLaw(band: SheetBand): (w: number) => { hz: number; cycles: number } {
  const from = band.fromHz!;
  const to = band.toHz!;
  const length = band.durationS;
  if (band.law === 'linear') {
    const slope = (to - from) / length;
    return (w) => ({ hz: from + slope * w, cycles: w * (from + (slope * w) / 2) });
  }
  const k = length / Math.log(to / from);
  return (w) => {
    const grown = Math.exp(w / k);
    return { hz: from * grown, cycles: from * k * (grown - 1) };
  };
}

/**
 * A sweep, cut so that RIAA playback makes it level and clean (`riaa`, the default), or with constant velocity. The
 * velocity is the stated one at 1 kHz. S is −j/ω times the velocity: right to (dω/dw)/ω².
 * @param off what is cut over that, ratio of sizes
 */
function sweep(band: SheetBand, v: number, off: (hz: number) => number): Waveform {
  const law = sweepLaw(band);
  const riaa = band.cut !== 'constant-velocity';
  return (w, out) => {
    const { hz, cycles } = law(w);
    const angle = TAU * (cycles - Math.floor(cycles));
    const g: Complex = scaled(riaa ? over(ONE, riaaPlayback(hz)) : ONE, off(hz));
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    const omega = TAU * hz;
    out.v = v * (g.re * cos - g.im * sin);
    out.vq = v * (g.re * sin + g.im * cos);
    out.s = out.vq / omega;
    out.sq = -out.v / omega;
    out.a = -omega * out.vq;
    out.aq = omega * out.v;
  };
}

/** Largest velocity that the waveform reaches, cm/s. */
export function peakVelocity(band: SheetBand): number {
  const v = cutVelocity(band);
  if (band.signal !== 'sweep' || band.cut === 'constant-velocity') return v;
  const boost = (hz: number) => 1 / Math.hypot(riaaPlayback(hz).re, riaaPlayback(hz).im);
  return v * Math.max(boost(band.fromHz!), boost(band.toHz!));
}
