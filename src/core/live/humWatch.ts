/**
 * The mains and its multiples in a live input, a level for each second: what a hand on a metal part changes.
 *
 * One second of sound is one reading: the family of lines as `mainsFamily` finds it, from spectra averaged over that second. A tone
 * that lies on a multiple of the mains would be read as hum, and is named only after it began: a reading is told when the second
 * after it has been heard without one.
 *
 * @checked humWatch.test.ts
 */
import type { StereoBlock } from '../capture/recording.ts';
import { mainsFamily } from '../signal/mainsFamily.ts';
import { WelchSpectrum } from '../signal/spectra.ts';

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
}

const WINDOW_S = 1;
/** a bin of 4 Hz at most tells the lines of 50 Hz apart */
const MOST_BIN_HZ = 4;
const LOWEST_DB = -160;
const DB = 10 / Math.LN10;

export class HumWatch {
  readonly #windowFrames: number;
  readonly #spectrum: WelchSpectrum;
  #frames = 0;
  #count = 0;
  #isHidden = false;
  #pending: HumReading | null = null;
  #reading: HumReading | null = null;

  constructor(sampleRateHz: number) {
    this.#windowFrames = Math.round(WINDOW_S * sampleRateHz);
    this.#spectrum = new WelchSpectrum(sampleRateHz, 2 ** Math.ceil(Math.log2(sampleRateHz / MOST_BIN_HZ)));
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
    const family = mainsFamily(this.#spectrum.spectrum());
    if (family === null) return null;
    const { left, right, lines, mains } = family;
    const rises = lines.length > 0;
    const power = rises ? left.power + right.power : left.atMost + right.atMost;
    const spread = Math.hypot(left.spread, right.spread);
    return {
      index: this.#count + 1,
      // a full-scale sine has a mean square of a half
      db: power > 0 ? Math.max(LOWEST_DB, DB * Math.log(2 * power)) : LOWEST_DB,
      spreadDb: rises && power > 0 ? DB * Math.min(1, spread / power) : 0,
      mainsHz: mains,
      rises,
    };
  }

  /** of the second before the last whole one; null where a band played */
  get reading(): HumReading | null {
    return this.#reading;
  }
}
