/**
 * A generator's tone of known voltage, recorded through the same input → the voltage that a full-scale sine stands for, channel by channel.
 *
 * The rms of tenths of a second; the usual one of those that play counts. A tone that is no steady sine is refused: its rms must hold within
 * 0.1 dB over most of the stretch, and its peak must lie √2 over it within 0.5 dB.
 *
 * @checked calibration.test.ts
 */
import type { Recording } from '../capture/recording.ts';
import { median } from '../signal/robust.ts';
import { type Statement, statement } from '../words/statement.ts';

export interface FullScale {
  readonly found: true;
  /** V rms of a sine whose peak is full scale; null where the channel holds no tone */
  readonly left: number | null;
  readonly right: number | null;
}

const BLOCK_S = 0.1;
const LEAST_S = 1;
/** a channel this far under the other was not fed */
const NOT_FED = 0.05;
const STEADY = 10 ** (0.1 / 20);
const CREST = 10 ** (0.5 / 20);

/** @param volts rms, above 0 */
export async function readCalibration(
  recording: Pick<Recording, 'format' | 'blocks'>,
  volts: number,
): Promise<FullScale | { readonly found: false; readonly why: Statement }> {
  if (!(volts > 0 && volts < 1000)) throw new RangeError(`volts ${volts} must be above 0 and below 1000`);
  const size = Math.round(BLOCK_S * recording.format.sampleRateHz);
  const parts = { left: new Parts(size), right: new Parts(size) };
  for await (const { left, right, frames } of recording.blocks()) {
    parts.left.push(left, frames);
    parts.right.push(right, frames);
  }
  const tones = { left: parts.left.tone(), right: parts.right.tone() };
  const loudest = Math.max(tones.left?.rms ?? 0, tones.right?.rms ?? 0);
  const of = (tone: Tone | null): number | null =>
    tone === null || tone.rms < NOT_FED * loudest ? null : volts / (tone.rms * Math.SQRT2);
  const fed = [tones.left, tones.right].filter((tone): tone is Tone => of(tone) !== null);
  if (fed.length === 0) return { found: false, why: statement('calibration-silent') };
  if (fed.some(({ clipped }) => clipped)) return { found: false, why: statement('calibration-clipped') };
  if (fed.some(({ steady }) => !steady)) return { found: false, why: statement('calibration-unsteady') };
  return { found: true, left: of(tones.left), right: of(tones.right) };
}

interface Tone {
  readonly rms: number;
  readonly steady: boolean;
  readonly clipped: boolean;
}

/** rms and peak of tenths of a second of one channel. */
class Parts {
  private readonly size: number;
  private readonly rms: number[] = [];
  private readonly peaks: number[] = [];
  private sum = 0;
  private squares = 0;
  private peak = 0;
  private count = 0;

  constructor(size: number) {
    this.size = size;
  }

  push(samples: Float64Array | Float32Array, frames: number): void {
    for (let n = 0; n < frames; n++) {
      const v = samples[n];
      this.sum += v;
      this.squares += v * v;
      this.peak = Math.max(this.peak, Math.abs(v));
      if (++this.count < this.size) continue;
      const mean = this.sum / this.size;
      this.rms.push(Math.sqrt(Math.max(0, this.squares / this.size - mean * mean)));
      this.peaks.push(this.peak - Math.abs(mean));
      this.sum = 0;
      this.squares = 0;
      this.peak = 0;
      this.count = 0;
    }
  }

  tone(): Tone | null {
    const loudest = this.rms.reduce((most, v) => Math.max(most, v), 0);
    const playing = this.rms.map((_, i) => i).filter((i) => this.rms[i] > loudest / 2);
    if (!(loudest > 1e-6) || playing.length * BLOCK_S < LEAST_S) return null;
    const rms = median(playing.map((i) => this.rms[i]));
    const held = playing.filter((i) => this.rms[i] < rms * STEADY && this.rms[i] > rms / STEADY);
    const crest = median(held.map((i) => this.peaks[i])) / (rms * Math.SQRT2);
    return {
      rms,
      steady: held.length > 0.8 * playing.length && crest < CREST && crest > 1 / CREST,
      clipped: held.some((i) => this.peaks[i] >= 0.9995),
    };
  }
}
