/**
 * A quiet stretch, heard twice at once: below 1 kHz decimated and kept, for rumble and mains lines at a fine resolution; all of it in
 * segments of 40 ms that clicks do not enter, for surface noise.
 *
 * With the tip in the air the motor may be switched on or off in mid-stretch: where the mains lines step by 3 dB the stretch is parted there.
 */
import type { StereoBlock } from '../capture/recording.ts';
import { GatedSpectrum } from '../signal/gatedSpectrum.ts';
import { LANES, LaneDecimator } from '../signal/laneDecimator.ts';
import { lowpassTaps } from '../signal/lowpass.ts';
import { mainsFamily } from '../signal/mainsFamily.ts';
import { median } from '../signal/robust.ts';
import { type StereoSpectrum, WelchSpectrum } from '../signal/spectra.ts';
import type { BandEstimator } from './bandEstimator.ts';

export type QuietState = 'groove' | 'tip-up';

/** Densities as captured, unit²/Hz. */
export interface QuietReading {
  readonly state: QuietState;
  readonly seconds: number;
  /** below `LOW_HZ`; of the tip-up state two where the motor was switched in mid-stretch, in order of time */
  readonly parts: readonly StereoSpectrum[];
  /** whole range, without clicks */
  readonly wide: {
    readonly binHz: number;
    readonly segments: number;
    readonly left: Float64Array;
    readonly right: Float64Array;
  };
  /** clicks heard in `seconds` */
  readonly clicks: number;
}

/** the decimated spectrum is true up to here, Hz */
export const LOW_HZ = 1000;
const LOW_RATE_HZ = 2800;
/** of the low part at most, s: later frames count for noise and clicks alone */
const MOST_LOW_S = 120;
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

const powerOfTwo = (points: number): number => 2 ** Math.floor(Math.log2(points));

interface Kept {
  readonly left: Float64Array;
  readonly right: Float64Array;
}

export class QuietEstimator implements BandEstimator<QuietReading | null> {
  private readonly state: QuietState;
  private readonly sampleRateHz: number;
  private readonly decimator: LaneDecimator;
  private readonly wide: GatedSpectrum;
  private readonly chunks: Kept[] = [];
  private lanes = new Float64Array(0);
  private out = new Float64Array(0);
  private frames = 0;
  private kept = 0;

  constructor(sampleRateHz: number, state: QuietState) {
    this.state = state;
    this.sampleRateHz = sampleRateHz;
    const factor = Math.max(1, Math.floor(sampleRateHz / LOW_RATE_HZ));
    const lowRate = sampleRateHz / factor;
    const taps = lowpassTaps({ sampleRateHz, passHz: LOW_HZ, stopHz: lowRate - LOW_HZ, attenuationDb: 90 });
    this.decimator = new LaneDecimator(taps, factor);
    this.wide = new GatedSpectrum(sampleRateHz, powerOfTwo(SEGMENT_S * sampleRateHz * 1.4), CLICKS_FROM_HZ);
  }

  private get lowRateHz(): number {
    return this.sampleRateHz / this.decimator.factor;
  }

  push({ left, right, frames }: StereoBlock): void {
    this.wide.push(left, right, frames);
    this.frames += frames;
    if (this.kept >= MOST_LOW_S * this.lowRateHz) return;
    if (this.lanes.length < LANES * frames) {
      this.lanes = new Float64Array(LANES * frames);
      this.out = new Float64Array(LANES * (Math.ceil(frames / this.decimator.factor) + 2));
    }
    for (let n = 0; n < frames; n++) {
      this.lanes[LANES * n] = left[n];
      this.lanes[LANES * n + 1] = right[n];
    }
    const count = this.decimator.push(this.lanes, frames, this.out);
    const chunk = { left: new Float64Array(count), right: new Float64Array(count) };
    for (let n = 0; n < count; n++) {
      chunk.left[n] = this.out[LANES * n];
      chunk.right[n] = this.out[LANES * n + 1];
    }
    this.chunks.push(chunk);
    this.kept += count;
  }

  /** null where the stretch was too short after all */
  result(): QuietReading | null {
    const low = this.lowPart();
    const parts = (this.state === 'tip-up' ? this.byMotor(low) : [low]).flatMap((part) => this.spectrumOf(part) ?? []);
    const { binHz, segments, left, right, bursts } = this.wide.spectra(GATE_DB, BURST_DB);
    if (parts.length === 0 || segments < 8) return null;
    return {
      state: this.state,
      seconds: this.frames / this.sampleRateHz,
      parts,
      wide: { binHz, segments, left, right },
      clicks: bursts,
    };
  }

  /** Without what does not change, a converter's offset is no rumble; and without clicks. */
  private lowPart(): Kept {
    const length = Math.min(this.kept, Math.floor(MOST_LOW_S * this.lowRateHz));
    const joined = (channel: keyof Kept): Float64Array => {
      const all = new Float64Array(length);
      let at = 0;
      for (const chunk of this.chunks) {
        all.set(chunk[channel].subarray(0, length - at), at);
        at = Math.min(length, at + chunk[channel].length);
      }
      const mean = length === 0 ? 0 : all.reduce((sum, v) => sum + v, 0) / length;
      return withoutKnocks(all.map((v) => v - mean));
    };
    return { left: joined('left'), right: joined('right') };
  }

  private spectrumOf({ left, right }: Kept): StereoSpectrum | null {
    const size = Math.min(MOST_POINTS, powerOfTwo(left.length / 2));
    if (!(size >= 512)) return null;
    const welch = new WelchSpectrum(this.lowRateHz, size);
    welch.push(left, right);
    return welch.spectrum();
  }

  /** The stretch in one, or in two where its mains lines step. */
  private byMotor(whole: Kept): Kept[] {
    const spectrum = this.spectrumOf(whole);
    const family = spectrum === null ? null : mainsFamily(spectrum);
    if (family === null || family.lines.length === 0) return [whole];
    const piece = powerOfTwo(this.lowRateHz * 0.4);
    const powers: number[] = [];
    for (let from = 0; from + piece <= whole.left.length; from += piece) {
      const welch = new WelchSpectrum(this.lowRateHz, piece);
      welch.push(whole.left.subarray(from, from + piece), whole.right.subarray(from, from + piece));
      const { leftDensity, rightDensity, binHz } = welch.spectrum();
      let power = 0;
      for (const { order } of family.lines) {
        const at = Math.round((order * family.hz) / binHz);
        for (let k = at - 2; k <= at + 2; k++) power += leftDensity[k] + rightDensity[k];
      }
      powers.push(Math.log(Math.max(power, 1e-300)));
    }
    const least = Math.ceil((LEAST_PART_S * this.lowRateHz) / piece);
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
    const guard = Math.round(SWITCH_S * this.lowRateHz);
    const cut = (from: number, to?: number): Kept => ({
      left: whole.left.subarray(from, to),
      right: whole.right.subarray(from, to),
    });
    const at = best.at * piece;
    return [cut(0, Math.max(512, at - guard)), cut(at + guard)];
  }

  end(): void {}
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
