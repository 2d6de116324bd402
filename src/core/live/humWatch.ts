/**
 * The mains and its multiples in a live input, a level for each second: what a hand on a metal part changes; and the noise beside it,
 * A-weighted: with the arm up that of the electronics alone.
 *
 * One second of sound is one reading: the family of lines as `mainsFamily` finds it, from spectra averaged over that second. A tone
 * that lies on a multiple of the mains would be read as hum, and is named only after it began: a reading is told when the second
 * after it has been heard without one.
 *
 *   noise = Σ A²(f) (S_left + S_right) Δf, 20 Hz to 20 kHz, mains lines included        u² = 1.94 Σ p² / n, p of each bin, n segments in effect
 *
 * 1.94 = N Σw⁴ / (Σw²)² of the Hann window: how much neighbouring bins tell the same.
 *
 * @checked humWatch.test.ts
 */
import type { StereoBlock } from '../capture/recording.ts';
import { aWeightingGain } from '../signal/aWeighting.ts';
import { mainsFamily } from '../signal/mainsFamily.ts';
import { type StereoSpectrum, WelchSpectrum } from '../signal/spectra.ts';

export interface HumReading {
  /** counts the seconds of this input from 1 */
  readonly index: number;
  /** of both channels together, dB under a full-scale sine; where no line rises, what none passes */
  readonly db: number;
  /** dB, standard uncertainty of this second */
  readonly spreadDb: number;
  /** nominal of the family */
  readonly mainsHz: 50 | 60;
  /** its lines rise out of the noise */
  readonly rises: boolean;
  /** A-weighted, of both channels together, dB under a full-scale sine; and its standard uncertainty by chance, dB */
  readonly noiseDb: number;
  readonly noiseSpreadDb: number;
}

const WINDOW_S = 1;
/** a bin of 4 Hz at most tells the lines of 50 Hz apart */
const MOST_BIN_HZ = 4;
const LOWEST_DB = -160;
const DB = 10 / Math.LN10;
const NOISE_FROM_HZ = 20;
const NOISE_TO_HZ = 20_000;
/** share of the sample rate above which a converter's filter counts too */
const TOP_SHARE = 0.45;
const HANN_BINS = 1.94;
/** of segments that overlap by half, what they tell between them: 1 / (1 + 2/36) */
const IN_EFFECT = 18 / 19;
/** a full-scale sine has a mean square of a half */
const underSine = (power: number): number => (power > 0 ? Math.max(LOWEST_DB, DB * Math.log(2 * power)) : LOWEST_DB);
const spreadDb = (power: number, spread: number): number => (power > 0 ? DB * Math.min(1, spread / power) : 0);

export class HumWatch {
  readonly #windowFrames: number;
  readonly #spectrum: WelchSpectrum;
  /** A-weighting of each bin, power */
  readonly #weights: Float64Array;
  #frames = 0;
  #count = 0;
  #isHidden = false;
  #pending: HumReading | null = null;
  #reading: HumReading | null = null;

  constructor(sampleRateHz: number) {
    this.#windowFrames = Math.round(WINDOW_S * sampleRateHz);
    const size = 2 ** Math.ceil(Math.log2(sampleRateHz / MOST_BIN_HZ));
    this.#spectrum = new WelchSpectrum(sampleRateHz, size);
    const binHz = sampleRateHz / size;
    const toHz = Math.min(NOISE_TO_HZ, TOP_SHARE * sampleRateHz);
    this.#weights = Float64Array.from({ length: Math.floor(toHz / binHz) + 1 }, (_, k) =>
      k * binHz < NOISE_FROM_HZ ? 0 : aWeightingGain(k * binHz) ** 2,
    );
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    for (let at = 0; at < frames; ) {
      const count = Math.min(frames - at, this.#windowFrames - this.#frames);
      if (!this.#isHidden) this.#spectrum.push(left.subarray(at, at + count), right.subarray(at, at + count));
      this.#frames += count;
      at += count;
      if (this.#frames === this.#windowFrames) this.#close();
    }
  }

  /** A band plays: this second and the one before it tell no hum. */
  hide(): void {
    this.#isHidden = true;
  }

  #close(): void {
    const now = this.#isHidden ? null : this.#read();
    this.#spectrum.clear();
    this.#frames = 0;
    this.#count += 1;
    this.#reading = this.#isHidden ? null : this.#pending;
    this.#pending = now;
    this.#isHidden = false;
  }

  #read(): HumReading | null {
    const spectrum = this.#spectrum.spectrum();
    const family = mainsFamily(spectrum);
    if (family === null) return null;
    const { left, right, lines, mains } = family;
    const rises = lines.length > 0;
    const power = rises ? left.power + right.power : left.atMost + right.atMost;
    const spread = Math.hypot(left.spread, right.spread);
    return {
      index: this.#count + 1,
      db: underSine(power),
      spreadDb: rises ? spreadDb(power, spread) : 0,
      mainsHz: mains,
      rises,
      ...this.#noiseOf(spectrum),
    };
  }

  #noiseOf({
    leftDensity,
    rightDensity,
    binHz,
    segments,
  }: StereoSpectrum): Pick<HumReading, 'noiseDb' | 'noiseSpreadDb'> {
    let power = 0;
    let squares = 0;
    for (let k = 0; k < this.#weights.length; k++) {
      const part = this.#weights[k] * (leftDensity[k] + rightDensity[k]) * binHz;
      power += part;
      squares += part * part;
    }
    const spread = Math.sqrt((HANN_BINS * squares) / (IN_EFFECT * segments));
    return { noiseDb: underSine(power), noiseSpreadDb: spreadDb(power, spread) };
  }

  /** of the second before the last whole one; null where a band played */
  get reading(): HumReading | null {
    return this.#reading;
  }
}
