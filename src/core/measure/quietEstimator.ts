/**
 * A quiet stretch, heard twice at once: below 1 kHz decimated and kept, for rumble and mains lines at a fine resolution; all of it in
 * segments of 40 ms that clicks do not enter, for surface noise.
 *
 * With the tip in the air the motor may be switched on or off in mid-stretch: where the mains lines step by 3 dB the stretch is parted there.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { type GatedSpectra, GatedSpectrum } from '../signal/gatedSpectrum.ts';
import { mainsFamily } from '../signal/mainsFamily.ts';
import { median } from '../signal/robust.ts';
import { powerOfTwo, type StereoSpectrum, WelchSpectrum } from '../signal/spectra.ts';
import type { BandEstimator } from './bandEstimator.ts';
import { type Bottom, LowRate } from './lowRate.ts';

export type QuietState = 'groove' | 'tip-up';

/** Densities as captured, unit²/Hz. */
export interface QuietPart {
  /** below `LOW_HZ` */
  readonly low: StereoSpectrum;
  /** whole range, without clicks */
  readonly wide: Pick<GatedSpectra, 'binHz' | 'segments' | 'left' | 'right'>;
}

export interface QuietReading {
  readonly state: QuietState;
  readonly seconds: number;
  /** one; of the tip-up state two where the motor was switched in mid-stretch, in order of time */
  readonly parts: readonly QuietPart[];
  /** clicks heard in `seconds` */
  readonly clicks: number;
}

/** the decimated spectrum is true up to here, Hz */
const LOW_HZ = 1000;
/** of its frames at most two minutes: later ones count for noise and clicks alone */
const LOW: Bottom = { passHz: LOW_HZ, rateHz: 2800, attenuationDb: 90, mostS: 120 };
const SEGMENT_S = 0.04;
/** clicks are looked for from here up, Hz: rumble and hum do not hide them */
const CLICKS_FROM_HZ = 1000;
/** segments louder than the median by this stay out of the noise; louder than it by that are clicks, dB */
const GATE_DB = 2;
const BURST_DB = 6;
const MOST_POINTS = 8192;
/** a motor's hum steps by this, power; on either side of a switch at least so long, s */
const MOTOR_STEP = 2;
const LEAST_PART_S = 1;
/** s beside the switch that count for neither side */
const SWITCH_S = 0.4;
/** the whole range of a tip-up stretch is kept in pieces, so that it can be parted; where they become many, two and two are put together, s */
const PIECE_S = 0.4;
const MOST_PIECES = 100;
const LEAST_SEGMENTS = 8;

interface Kept {
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** s of the stretch */
  readonly fromS: number;
  readonly toS: number;
}

export class QuietEstimator implements BandEstimator<QuietReading | null> {
  private readonly state: QuietState;
  private readonly sampleRateHz: number;
  private readonly low: LowRate;
  /** one, or as many as the stretch has pieces */
  private wide: GatedSpectrum[];
  private pieceFrames: number;
  private frames = 0;

  constructor(sampleRateHz: number, state: QuietState) {
    this.state = state;
    this.sampleRateHz = sampleRateHz;
    this.low = new LowRate(sampleRateHz, LOW);
    this.pieceFrames = state === 'tip-up' ? Math.round(PIECE_S * sampleRateHz) : Number.POSITIVE_INFINITY;
    this.wide = [this.newPiece()];
  }

  private newPiece(): GatedSpectrum {
    return new GatedSpectrum(this.sampleRateHz, powerOfTwo(SEGMENT_S * this.sampleRateHz * 1.4), CLICKS_FROM_HZ);
  }

  push(block: StereoBlock): void {
    for (let at = 0; at < block.frames; ) {
      const piece = Math.floor((this.frames + at) / this.pieceFrames);
      if (piece >= MOST_PIECES) {
        this.wide = this.wide.flatMap((one, i) => (i % 2 === 0 ? one.with(this.wide[i + 1]) : []));
        this.pieceFrames *= 2;
        continue;
      }
      if (piece === this.wide.length) this.wide.push(this.newPiece());
      const to = Math.min(block.frames, (piece + 1) * this.pieceFrames - this.frames);
      this.wide[piece].push(block.left.subarray(at, to), block.right.subarray(at, to), to - at);
      at = to;
    }
    this.low.push(block);
    this.frames += block.frames;
  }

  /** null where the stretch was too short after all */
  result(): QuietReading | null {
    const low = this.lowPart();
    const parts = (this.state === 'tip-up' ? this.byMotor(low) : [low]).flatMap((part): QuietPart[] => {
      const spectrum = this.spectrumOf(part);
      const { binHz, segments, left, right } = this.wideOf(part).spectra(GATE_DB, BURST_DB);
      return spectrum === null || segments < LEAST_SEGMENTS
        ? []
        : [{ low: spectrum, wide: { binHz, segments, left, right } }];
    });
    if (parts.length === 0) return null;
    const { bursts } = this.wideOf(low).spectra(GATE_DB, BURST_DB);
    return { state: this.state, seconds: this.frames / this.sampleRateHz, parts, clicks: bursts };
  }

  /** Of the pieces that lie within; by less than half the time beside a switch they may stick out. */
  private wideOf({ fromS, toS }: Kept): GatedSpectrum {
    if (this.state === 'groove') return this.wide[0];
    const pieceS = this.pieceFrames / this.sampleRateHz;
    const inside = this.wide.filter(
      (_, i) => i * pieceS >= fromS - SWITCH_S / 2 && (i + 1) * pieceS <= toS + Math.min(pieceS / 2, SWITCH_S / 2),
    );
    return inside.reduce((a, b) => a.with(b), this.newPiece());
  }

  /** Without what does not change, a converter's offset is no rumble; and without clicks. */
  private lowPart(): Kept {
    const { left, right } = this.low.signal();
    const length = Math.min(left.length, Math.floor(LOW.mostS * this.low.rateHz));
    const still = (channel: Float64Array): Float64Array => {
      const all = channel.subarray(0, length);
      const mean = length === 0 ? 0 : all.reduce((sum, v) => sum + v, 0) / length;
      return withoutKnocks(all.map((v) => v - mean));
    };
    return { left: still(left), right: still(right), fromS: 0, toS: this.frames / this.sampleRateHz };
  }

  private spectrumOf({ left, right }: Pick<Kept, 'left' | 'right'>): StereoSpectrum | null {
    const size = Math.min(MOST_POINTS, powerOfTwo(left.length / 2));
    if (!(size >= 512)) return null;
    const welch = new WelchSpectrum(this.low.rateHz, size);
    welch.push(left, right);
    return welch.spectrum();
  }

  /** The stretch in one, or in two where its mains lines step. */
  private byMotor(whole: Kept): Kept[] {
    const spectrum = this.spectrumOf(whole);
    const family = spectrum === null ? null : mainsFamily(spectrum);
    if (family === null || family.lines.length === 0) return [whole];
    const piece = powerOfTwo(this.low.rateHz * 0.4);
    const powers: number[] = [];
    for (let from = 0; from + piece <= whole.left.length; from += piece) {
      const welch = new WelchSpectrum(this.low.rateHz, piece);
      welch.push(whole.left.subarray(from, from + piece), whole.right.subarray(from, from + piece));
      const { leftDensity, rightDensity, binHz } = welch.spectrum();
      let power = 0;
      for (const { order } of family.lines) {
        const at = Math.round((order * family.hz) / binHz);
        for (let k = at - 2; k <= at + 2; k++) power += leftDensity[k] + rightDensity[k];
      }
      powers.push(Math.log(Math.max(power, 1e-300)));
    }
    const least = Math.ceil((LEAST_PART_S * this.low.rateHz) / piece);
    let best = { at: -1, step: Math.log(MOTOR_STEP) };
    for (let i = least; i <= powers.length - least; i++) {
      const step = Math.abs(median(powers.slice(0, i)) - median(powers.slice(i)));
      const spread = (part: readonly number[]): number => {
        const middle = median(part);
        return median(part.map((p) => Math.abs(p - middle)));
      };
      // a step is one where either side is steady
      const unrest = spread(powers.slice(0, i)) + spread(powers.slice(i));
      if (step - 2 * unrest > best.step) best = { at: i, step: step - 2 * unrest };
    }
    if (best.at < 0) return [whole];
    const guard = Math.round(SWITCH_S * this.low.rateHz);
    const cut = (from: number, to: number): Kept => ({
      left: whole.left.subarray(from, to),
      right: whole.right.subarray(from, to),
      fromS: from / this.low.rateHz,
      toS: to === whole.left.length ? whole.toS : to / this.low.rateHz,
    });
    const at = best.at * piece;
    return [cut(0, Math.max(512, at - guard)), cut(at + guard, whole.left.length)];
  }

  end(): void {
    this.low.end();
  }
}

/** a knock is where the curvature passes this many standard deviations; as long as this is bridged on either side, samples at 2.8 kHz */
const KNOCK_SIGMAS = 6;
const BRIDGE = 8;

/** Clicks bridged by straight lines: rumble and hum are smooth over 6 ms. */
function withoutKnocks(series: Float64Array): Float64Array {
  const n = series.length;
  if (n < 64) return series;
  const bend = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) bend[i] = Math.abs(series[i] - (series[i - 1] + series[i + 1]) / 2);
  const limit = KNOCK_SIGMAS * 1.4826 * median(bend);
  const out = series.slice();
  for (let i = 1; i < n - 1; i++) {
    if (bend[i] <= limit) continue;
    const from = Math.max(0, i - BRIDGE);
    let last = i;
    // knocks that follow within one bridge are one
    for (let j = i + 1; j < Math.min(n - 1, last + BRIDGE); j++) if (bend[j] > limit) last = j;
    const to = Math.min(n - 1, last + BRIDGE);
    for (let k = from; k <= to; k++) out[k] = series[from] + ((series[to] - series[from]) * (k - from)) / (to - from);
    i = to;
  }
  return out;
}
