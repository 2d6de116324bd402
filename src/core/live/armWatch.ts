/**
 * Is the tip in the groove? From the level alone: a lowered arm brings rumble and surface noise, a lifted one takes them away.
 *
 * The level is taken twice: of the sound as it comes, and above 1 kHz, where hum and rumble are gone. Of the two that one tells
 * the lift whose groove is further above the arm at rest: with an earth that is off, hum covers the whole groove, and only the hiss above it tells.
 *
 * Common practice of the house, no standard: 6 dB up from the quietest that was heard is a tip set down; 6 dB under the groove
 * as it was just before the bands, or half way down to the quietest where that is less, for 1.2 s, is an arm lifted.
 *
 * @checked armWatch.test.ts
 */

import type { StereoBlock } from '../capture/recording.ts';
import { median } from '../signal/robust.ts';

const WINDOW_S = 0.1;
const STEP_DB = 6;
const NEAR_DB = 3;
/** of the groove over the arm at rest, that tells them apart */
const LEAST_STEP_DB = 4;
const LIFTED_WINDOWS = 12;
const LOWERED_WINDOWS = 2;
/** a second */
const FLOOR_WINDOWS = 10;
/** so many of them in a band make their median the band's; its edge is told a little late */
const OF_BAND_WINDOWS = 3;
/** windows before a band that hold the bare groove: 0.6 to 0.15 s before it */
const GROOVE_BEFORE_S = { from: 0.6, to: 0.15 };
const KEPT_WINDOWS = 120;
/** exact zeros, dB */
const NOTHING_DB = -200;

/** of the second level: two poles there, so that 50 Hz lies 52 dB lower */
const HISS_FROM_HZ = 1000;

/** What is known of one of the two levels, dB. */
class Level {
  /** the louder channel without its offset; the newest last */
  readonly heard: number[] = [];
  /** quietest second heard with the arm up */
  floor: number | null = null;
  #windows = 0;
  /** of the windows, the one after which the floor was last found lower */
  #floorAt = 0;
  /** groove between bands; null until a band began */
  groove: number | null = null;
  /** loudest while the arm was heard lifted */
  #rest = NOTHING_DB;

  add(power: number): void {
    this.heard.push(power > 0 ? Math.max(NOTHING_DB, 10 * Math.log10(power)) : NOTHING_DB);
    if (this.heard.length > KEPT_WINDOWS) this.heard.shift();
    this.#windows += 1;
  }

  isLowered(): boolean {
    return this.floor !== null && this.#isOver(this.floor);
  }

  #isOver(quiet: number): boolean {
    return this.heard.slice(-LOWERED_WINDOWS).every((level) => level > quiet + STEP_DB);
  }

  learnRest(): void {
    this.#rest = Math.max(...this.heard.slice(-LIFTED_WINDOWS));
  }

  isOverRest(): boolean {
    return this.#isOver(this.#rest);
  }

  learnFloor(): void {
    // exact zeros are a device that has not begun
    const heard = this.heard.slice(-FLOOR_WINDOWS).filter((level) => level > NOTHING_DB);
    if (heard.length < FLOOR_WINDOWS) return;
    const floor = median(heard);
    if (this.floor !== null && floor >= this.floor) return;
    this.floor = Math.min(0, floor);
    this.#floorAt = this.#windows;
  }

  /** A floor that was found while a band played already is the band's: listening began in the middle of it. */
  forgetFloorOfBand(windowsAgo: number): void {
    const inBand = windowsAgo - (this.#windows - this.#floorAt);
    if (inBand >= OF_BAND_WINDOWS) this.floor = null;
  }

  isLifted(): boolean {
    const { groove, floor } = this;
    const near = floor === null ? NOTHING_DB : floor + NEAR_DB;
    // where the groove is little above the arm at rest, nearer to this than to that
    const limit =
      groove === null
        ? near
        : Math.max(groove - STEP_DB, this.step < LEAST_STEP_DB ? NOTHING_DB : groove - this.step / 2);
    const quiet = this.heard.slice(-LIFTED_WINDOWS);
    return quiet.length === LIFTED_WINDOWS && quiet.every((level) => level < limit);
  }

  /** Of the groove over the arm at rest, dB; 0 where either is not known. */
  get step(): number {
    return this.groove === null || this.floor === null ? 0 : this.groove - this.floor;
  }

  learnGroove(from: number, to: number): void {
    const before = this.heard.slice(from, to);
    if (before.length < 3) return;
    const groove = median(before);
    this.groove = Math.min(this.groove ?? groove, groove);
  }
}

/** Power of a channel in a window, its offset taken off, and of what lies above `HISS_FROM_HZ`. */
class ChannelPower {
  readonly #keep: number;
  #sum = 0;
  #power = 0;
  #hiss = 0;
  #last = 0;
  #once = 0;
  #twice = 0;

  constructor(sampleRateHz: number) {
    this.#keep = Math.exp((-2 * Math.PI * HISS_FROM_HZ) / sampleRateHz);
  }

  push(x: Float32Array | Float64Array, from: number, to: number): void {
    const keep = this.#keep;
    let [sum, power, hiss, last, once, twice] = [
      this.#sum,
      this.#power,
      this.#hiss,
      this.#last,
      this.#once,
      this.#twice,
    ];
    for (let i = from; i < to; i++) {
      const value = x[i];
      sum += value;
      power += value * value;
      const first = keep * (once + value - last);
      twice = keep * (twice + first - once);
      last = value;
      once = first;
      hiss += twice * twice;
    }
    this.#sum = sum;
    this.#power = power;
    this.#hiss = hiss;
    this.#last = last;
    this.#once = once;
    this.#twice = twice;
  }

  /** Of the window that ends, and begins the next. */
  take(frames: number): { readonly whole: number; readonly hiss: number } {
    const taken = { whole: this.#power / frames - (this.#sum / frames) ** 2, hiss: this.#hiss / frames };
    this.#sum = 0;
    this.#power = 0;
    this.#hiss = 0;
    return taken;
  }
}

export class ArmWatch {
  readonly #windowFrames: number;
  readonly #whole = new Level();
  readonly #hiss = new Level();
  readonly #left: ChannelPower;
  readonly #right: ChannelPower;
  #filled = 0;
  #down = false;
  #lifted = false;

  constructor(sampleRateHz: number) {
    this.#windowFrames = Math.round(WINDOW_S * sampleRateHz);
    this.#left = new ChannelPower(sampleRateHz);
    this.#right = new ChannelPower(sampleRateHz);
  }

  /** `lowered` also where a band plays that nobody heard begin: see `bandBegan`. */
  get isDown(): boolean {
    return this.#down;
  }

  /** It was heard lifted and nothing as loud as a tip set down came since: what sounds like a band is hum. */
  get isLifted(): boolean {
    return this.#lifted;
  }

  push({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    for (let at = 0; at < frames; ) {
      const end = Math.min(frames, at + this.#windowFrames - this.#filled);
      this.#left.push(left, at, end);
      this.#right.push(right, at, end);
      this.#filled += end - at;
      if (this.#filled === this.#windowFrames) this.#close();
      at = end;
    }
  }

  #close(): void {
    const left = this.#left.take(this.#windowFrames);
    const right = this.#right.take(this.#windowFrames);
    this.#whole.add(Math.max(left.whole, right.whole));
    this.#hiss.add(Math.max(left.hiss, right.hiss));
    this.#filled = 0;
    this.#judge();
  }

  #judge(): void {
    const levels = [this.#whole, this.#hiss];
    if (this.#down) {
      const telling = this.#hiss.step > this.#whole.step ? this.#hiss : this.#whole;
      if (telling.isLifted()) {
        this.passEnded();
        this.#lifted = true;
        for (const level of levels) level.learnRest();
      }
    } else if (levels.some((level) => level.isLowered())) {
      this.#down = true;
      this.#lifted = false;
    } else {
      // where no floor is known, as after exact zeros, what is louder than the lifted arm was tells it too
      if (levels.some((level) => level.isOverRest())) this.#lifted = false;
      for (const level of levels) level.learnFloor();
    }
  }

  /** A band was named: the tip is down, and just before it there was bare groove. @param agoS s since it began */
  bandBegan(agoS: number): void {
    this.#down = true;
    this.#lifted = false;
    for (const level of [this.#whole, this.#hiss]) level.forgetFloorOfBand(Math.round(agoS / WINDOW_S));
    const end = this.#whole.heard.length;
    const at = (s: number): number => Math.max(0, end - Math.round((agoS + s) / WINDOW_S));
    for (const level of [this.#whole, this.#hiss]) level.learnGroove(at(GROOVE_BEFORE_S.from), at(GROOVE_BEFORE_S.to));
  }

  /** The pass was ended otherwise. */
  passEnded(): void {
    this.#down = false;
    this.#whole.groove = null;
    this.#hiss.groove = null;
  }
}
