/**
 * What is cut in a band, and how the tip reads it.
 *
 * A band's motion is one displacement S(w) along one axis of the plane (lateral, vertical, or a wall's), w in seconds of
 * groove time. A tracking error ε carries a tip that moves sideways by ξ along the groove by ξ tan ε, a vertical angle other
 * than the cutter's does the same for vertical motion. So the tip reads at w, with
 *
 *   w = τ + κ S(w),   κ = (mₓ tan ε − m_y (tan α_play − tan α_cut)) / V
 *   velocity = S′(w) τ′ / (1 − κ S′(w))
 *
 * (mₓ, m_y) is the axis, V the groove's speed. This is Kepler's equation; for a tone v cos ωt it gives
 * v cos ωt + κv² cos 2ωt + …, exactly H2/H1 = J₂(2e)/J₁(e) with e = κv (check-values h2). Not modelled: the tip's own size
 * (tracing), mistracking, and the factor 1/cos ε on the cartridge's side of the motion (0.005 dB at 2°).
 */
import { type Complex, ONE, over, riaaPlayback } from './response.ts';
import type { Sheet, SheetBand } from './sheet.ts';

/** lateral (outward positive) and vertical (rising positive) share of a band's motion */
export interface Axis {
  readonly x: number;
  readonly y: number;
}

/** Displacement S (cm) and S′ (cm/s) at w; writes `[S, S′]`. */
export type Waveform = (w: number, out: Float64Array) => void;

const TAU = 2 * Math.PI;

/** Direction of a band's motion; a cutter tilted clockwise by ψ turns it clockwise. Left moves along `/`, right along `\`. */
export function axisOf(band: SheetBand, sheet: Sheet): Axis {
  const from = { left: 45, right: -45, lateral: 0, vertical: 90, none: 0 }[band.motion ?? 'none'];
  const angle = ((from - (sheet.cut?.tiltDeg ?? 0)) * Math.PI) / 180;
  return { x: Math.cos(angle), y: Math.sin(angle) };
}

/** Groove speed, cm/s. */
export const grooveSpeedCmS = (rpm: number, radiusMm: number): number => (TAU * (rpm / 60) * radiusMm) / 10;

/** Tangents of what the arm and the record disagree by. */
export interface ReadingAngles {
  readonly tanTracking: number;
  /** tan α_play − tan α_cut */
  readonly tanVertical: number;
}

/** κ of the head comment, s/cm. */
export function readingShift(axis: Axis, angles: ReadingAngles, speedCmS: number): number {
  return (axis.x * angles.tanTracking - axis.y * angles.tanVertical) / speedCmS;
}

/** Peak velocity that is cut, cm/s: the stated one with the certificate's correction (what is cut minus what is stated, dB). */
export const cutVelocity = (band: SheetBand): number =>
  (band.peakVelocityCmS ?? 0) * 10 ** ((band.levelCorrectionDb ?? 0) / 20);

/** The waveform of a band; null where it has none of its own (noise, silence). */
export function waveformOf(band: SheetBand): Waveform | null {
  const v = cutVelocity(band);
  switch (band.signal) {
    case 'tone':
      return tone(band.frequencyHz!, v);
    case 'two-tone': {
      const [lower, upper] = [...band.frequenciesHz!].sort((a, b) => a - b);
      const ratio = band.ratio ?? 4;
      const low = tone(lower, (v * ratio) / (1 + ratio));
      const high = tone(upper, v / (1 + ratio));
      return (w, out) => {
        low(w, out);
        const s = out[0];
        const slope = out[1];
        high(w, out);
        out[0] += s;
        out[1] += slope;
      };
    }
    case 'sweep':
      return sweep(band, v);
    default:
      return null;
  }
}

function tone(hz: number, v: number): Waveform {
  const omega = TAU * hz;
  const reach = v / omega;
  return (w, out) => {
    const cycles = hz * w;
    const angle = TAU * (cycles - Math.floor(cycles));
    out[0] = reach * Math.sin(angle);
    out[1] = v * Math.cos(angle);
  };
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
 */
function sweep(band: SheetBand, v: number): Waveform {
  const law = sweepLaw(band);
  const riaa = band.cut !== 'constant-velocity';
  return (w, out) => {
    const { hz, cycles } = law(w);
    const angle = TAU * (cycles - Math.floor(cycles));
    const g: Complex = riaa ? over(ONE, riaaPlayback(hz)) : ONE;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    out[0] = (v / (TAU * hz)) * (g.re * sin + g.im * cos);
    out[1] = v * (g.re * cos - g.im * sin);
  };
}

/** Largest velocity that the waveform reaches, cm/s. */
export function peakVelocity(band: SheetBand): number {
  const v = cutVelocity(band);
  if (band.signal !== 'sweep' || band.cut === 'constant-velocity') return v;
  const boost = (hz: number) => 1 / Math.hypot(riaaPlayback(hz).re, riaaPlayback(hz).im);
  return v * Math.max(boost(band.fromHz!), boost(band.toHz!));
}

/** Where the tip's shift would reach this share of the groove it reads, the model ends: the tip would leave the groove. */
const MOST_SHIFT = 0.6;

/**
 * @throws RangeError when the shift is so large that w is no longer one value
 */
export function checkShift(kappa: number, band: SheetBand, index: number): void {
  const e = Math.abs(kappa) * peakVelocity(band);
  if (!(e <= MOST_SHIFT)) {
    throw new RangeError(
      `bands[${index}].peakVelocityCmS: ${band.peakVelocityCmS} given, but with this deck's angles the tip can follow at most ${((MOST_SHIFT / e) * (band.peakVelocityCmS ?? 0)).toPrecision(3)}`,
    );
  }
}

/**
 * Velocity of the tip along the band's axis, cm/s, for samples `from` to `to` (one past).
 * @param tau groove time of each sample, s; `rate` its rate of change
 * @param startS groove time at which the band starts, `lengthS` its length, `fadeS` the cutter's fade at both ends
 */
export function readBand(
  waveform: Waveform,
  kappa: number,
  startS: number,
  lengthS: number,
  fadeS: number,
  tau: Float64Array,
  rate: Float64Array,
  from: number,
  to: number,
  out: Float64Array,
): void {
  const sv = new Float64Array(2);
  const fade = Math.min(fadeS, lengthS / 2);
  for (let i = from; i < to; i++) {
    const u = tau[i] - startS;
    const edge = Math.min(u, lengthS - u);
    const loud = edge >= fade ? 1 : edge <= 0 ? 0 : 0.5 - 0.5 * Math.cos((Math.PI * edge) / fade);
    if (loud === 0) {
      out[i] = 0;
      continue;
    }
    const k = kappa * loud;
    waveform(u, sv);
    if (k !== 0) {
      // Newton on w − κS(w) = u; e ≤ 0.6 and usually below 0.05: two or three rounds.
      let w = u + k * sv[0];
      for (let round = 0; round < 30; round++) {
        waveform(w, sv);
        const step = (w - k * sv[0] - u) / (1 - k * sv[1]);
        w -= step;
        if (Math.abs(step) < 1e-13) break;
      }
    }
    out[i] = (loud * sv[1] * rate[i]) / (1 - k * sv[1]);
  }
}
