/**
 * Is the tip in the groove? From the level alone: a lowered arm brings rumble and surface noise, a lifted one takes them away.
 *
 * Common practice of the house, no standard: 6 dB up from the quietest that was heard is a tip set down; 6 dB under the groove
 * as it was just before the bands, for 1.2 s, is an arm lifted.
 *
 * @checked armWatch.test.ts
 */

import type { StereoBlock } from '../capture/recording.ts';
import { median } from '../signal/robust.ts';

const WINDOW_S = 0.1;
const STEP_DB = 6;
const NEAR_DB = 3;
const LIFTED_WINDOWS = 12;
const LOWERED_WINDOWS = 2;
/** a second */
const FLOOR_WINDOWS = 10;
/** windows before a band that hold the bare groove: 0.6 to 0.15 s before it */
const GROOVE_BEFORE_S = { from: 0.6, to: 0.15 };
const KEPT_WINDOWS = 120;
/** exact zeros, dB */
const NOTHING_DB = -200;

export class ArmWatch {
  readonly #windowFrames: number;
  /** dB, the louder channel without its offset; the newest last */
  readonly #levels: number[] = [];
  /** windows ever closed */
  #closed = 0;
  #filled = 0;
  #sums = { left: 0, right: 0, leftPower: 0, rightPower: 0 };
  /** quietest second heard with the arm up, dB */
  #floorDb: number | null = null;
  /** groove between bands, dB; null until a band began */
  #grooveDb: number | null = null;
  #down = false;

  constructor(sampleRateHz: number) {
    this.#windowFrames = Math.round(WINDOW_S * sampleRateHz);
  }

  /** `lowered` also where a band plays that nobody heard begin: see `bandBegan`. */
  get isDown(): boolean {
    return this.#down;
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    for (let at = 0; at < frames; ) {
      const end = Math.min(frames, at + this.#windowFrames - this.#filled);
      let { left: sumLeft, right: sumRight, leftPower, rightPower } = this.#sums;
      for (let i = at; i < end; i++) {
        const l = left[i];
        const r = right[i];
        sumLeft += l;
        sumRight += r;
        leftPower += l * l;
        rightPower += r * r;
      }
      this.#sums = { left: sumLeft, right: sumRight, leftPower, rightPower };
      this.#filled += end - at;
      if (this.#filled === this.#windowFrames) this.#close();
      at = end;
    }
  }

  #close(): void {
    const n = this.#windowFrames;
    const { left, right, leftPower, rightPower } = this.#sums;
    const power = Math.max(leftPower / n - (left / n) ** 2, rightPower / n - (right / n) ** 2);
    this.#levels.push(power > 0 ? Math.max(NOTHING_DB, 10 * Math.log10(power)) : NOTHING_DB);
    if (this.#levels.length > KEPT_WINDOWS) this.#levels.shift();
    this.#closed += 1;
    this.#filled = 0;
    this.#sums = { left: 0, right: 0, leftPower: 0, rightPower: 0 };
    this.#judge();
  }

  #judge(): void {
    const last = (windows: number): readonly number[] => this.#levels.slice(-windows);
    if (!this.#down) {
      const floor = this.#floorDb;
      if (floor !== null && last(LOWERED_WINDOWS).every((level) => level > floor + STEP_DB)) this.#down = true;
      else {
        // exact zeros are a device that has not begun
        const heard = last(FLOOR_WINDOWS).filter((level) => level > NOTHING_DB);
        if (heard.length === FLOOR_WINDOWS) this.#floorDb = Math.min(floor ?? 0, median(heard));
      }
      return;
    }
    const limit =
      this.#grooveDb !== null
        ? this.#grooveDb - STEP_DB
        : this.#floorDb !== null
          ? this.#floorDb + NEAR_DB
          : NOTHING_DB;
    const quiet = last(LIFTED_WINDOWS);
    if (quiet.length === LIFTED_WINDOWS && quiet.every((level) => level < limit)) {
      this.#down = false;
      this.#grooveDb = null;
    }
  }

  /** A band was named: the tip is down, and just before it there was bare groove. @param agoS s since it began */
  bandBegan(agoS: number): void {
    this.#down = true;
    const end = this.#levels.length;
    const at = (s: number): number => Math.max(0, end - Math.round((agoS + s) / WINDOW_S));
    const before = this.#levels.slice(at(GROOVE_BEFORE_S.from), at(GROOVE_BEFORE_S.to));
    if (before.length < 3) return;
    const groove = median(before);
    this.#grooveDb = Math.min(this.#grooveDb ?? groove, groove);
  }

  /** The pass was ended otherwise. */
  passEnded(): void {
    this.#down = false;
    this.#grooveDb = null;
  }
}
