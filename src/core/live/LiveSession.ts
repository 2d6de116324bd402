/**
 * A live input from when it is opened to when it is closed: passes of the tip over the record, each with its own listener.
 *
 * A pass begins when the tip is set down and ends when the arm is lifted, when nothing has played for a while, or when the
 * person says so. What is heard of it goes to `keep`, from the pass's first frame, so that its recording has the times of its document.
 *
 * @checked LiveSession.test.ts
 */
import type { SideDocument } from '../advise/document.ts';
import type { StereoBlock } from '../capture/recording.ts';
import { SILENT_DB } from '../capture/sampleProblems.ts';
import type { Band } from '../record/band.ts';
import type { Overview } from '../record/bandFinder.ts';
import type { SideOptions } from '../side/examineSide.ts';
import { type LiveFormat, SideListener } from '../side/SideListener.ts';
import { ArmWatch } from './armWatch.ts';
import { type InputState, InputWatch, type NewestPeak } from './inputWatch.ts';

/** A pass that is over. */
export interface EndedPass {
  readonly number: number;
  readonly document: SideDocument;
  readonly overview: Overview;
}

export interface LivePlaying {
  readonly band: Band;
  readonly playingS: number;
  readonly figures: Pick<SideDocument, 'findings' | 'advice' | 'problems'>;
  /** s since the last band ended that the pair's figures rest on too; null where they rest on this band alone */
  readonly partnerAgeS: number | null;
  /** s since the headshell was turned while this band played: it is read from there on; null where it was not */
  readonly turnedAgoS: number | null;
}

export interface LiveNow {
  readonly input: InputState;
  readonly pass: { readonly number: number; readonly heardS: number; readonly bands: readonly Band[] } | null;
  readonly playing: LivePlaying | null;
}

/** What is heard of a pass, in order. */
export type Keep = (block: Pick<StereoBlock, 'left' | 'right' | 'frames'>) => void;

/** s of waiting after which the listener is begun anew, and what the new one is told of it */
const WAITED_S = 20;
const PREROLL_S = 4;
/** s before the tip came down that a pass keeps */
const BEFORE_DOWN_S = 0.3;
/** s after the last band that end a pass without a lifted arm: with nothing heard, and with unmodulated groove */
const IDLE_S = 15;
const IDLE_IN_GROOVE_S = 60;
/** s of exact zeros that end it too: the source has died */
const DEAD_S = 3;
/** s between two looks at what plays */
const LOOK_S = 0.1;

interface Chunk {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

export class LiveSession {
  readonly #format: LiveFormat;
  readonly #options: SideOptions;
  readonly #keep: Keep;
  readonly #arm: ArmWatch;
  readonly #input: InputWatch;
  #listener: SideListener;
  #frames = 0;
  /** frames that the listener has heard, while no pass runs */
  #waiting: Chunk[] = [];
  #running = false;
  #passes = 0;
  #lastPlayedS = 0;
  #lookedS = 0;
  #bandFrom = -1;
  #playing: LivePlaying | null = null;
  #wasDown = false;

  constructor(format: LiveFormat, options: SideOptions, keep: Keep) {
    this.#format = format;
    this.#options = options;
    this.#keep = keep;
    this.#arm = new ArmWatch(format.sampleRateHz);
    this.#input = new InputWatch(format);
    this.#listener = new SideListener(format, options);
  }

  get #heardS(): number {
    return this.#frames / this.#format.sampleRateHz;
  }

  /** Blocks in order. @returns the pass that this block ended, if it did */
  push(block: Pick<StereoBlock, 'left' | 'right' | 'frames'>): EndedPass | null {
    this.#input.push(block);
    this.#arm.push(block);
    if (!this.#running && this.#arm.isDown && !this.#wasDown) this.#restart(BEFORE_DOWN_S);
    this.#wasDown = this.#arm.isDown;
    this.#hear(block);
    if (this.#heardS - this.#lookedS >= LOOK_S) this.#look();
    if (!this.#running) {
      if (this.#heardS > WAITED_S) this.#restart(PREROLL_S);
      return null;
    }
    const idleS = this.#heardS - this.#lastPlayedS;
    const isDead = this.#input.zerosS > DEAD_S;
    const isOver = !this.#arm.isDown || isDead || idleS > (this.#playing === null ? IDLE_S : IDLE_IN_GROOVE_S);
    return isOver ? this.end() : null;
  }

  #hear({ left, right, frames }: Pick<StereoBlock, 'left' | 'right' | 'frames'>): void {
    if (this.#running) this.#keep({ left, right, frames });
    else {
      const copy = (from: Float64Array): Float32Array => new Float32Array(from.subarray(0, frames));
      this.#waiting.push({ left: copy(left), right: copy(right) });
    }
    this.#listener.push({ left, right, frames, startFrame: this.#frames });
    this.#frames += frames;
  }

  #look(): void {
    this.#lookedS = this.#heardS;
    const now = this.#listener.current();
    if (now === null || (!this.#running && (this.#arm.isLifted || this.#input.loudestLatelyDb < SILENT_DB))) {
      this.#playing = null;
      return;
    }
    const { band, playingS, figures, turnedAgoS } = now;
    if (band.startS !== this.#bandFrom) {
      this.#bandFrom = band.startS;
      if (band.signal !== 'silent-groove') this.#arm.bandBegan(playingS);
    }
    if (band.signal !== 'silent-groove') {
      this.#lastPlayedS = this.#heardS;
      if (!this.#running) this.#begin();
    }
    const partners = this.#listener.readings.filter(
      (one) => one.band.frequencyHz !== null && one.band.motion !== band.motion,
    );
    const partner = partners.findLast(
      (one) => band.frequencyHz !== null && Math.abs(Number(one.band.frequencyHz) / band.frequencyHz - 1) < 0.04,
    );
    const partnerAgeS = partner === undefined ? null : band.endS - partner.band.endS;
    this.#playing = { band, playingS, figures, partnerAgeS, turnedAgoS };
  }

  #begin(): void {
    this.#running = true;
    this.#passes += 1;
    for (const { left, right } of this.#waiting) {
      this.#keep({ left: Float64Array.from(left), right: Float64Array.from(right), frames: left.length });
    }
    this.#waiting = [];
  }

  /** A new listener, told of the last seconds. */
  #restart(lastS: number): void {
    const recent: Chunk[] = [];
    let frames = 0;
    for (const chunk of this.#waiting.toReversed()) {
      if (frames >= lastS * this.#format.sampleRateHz) break;
      recent.unshift(chunk);
      frames += chunk.left.length;
    }
    this.#listener = new SideListener(this.#format, this.#options);
    this.#waiting = [];
    this.#frames = 0;
    this.#lookedS = 0;
    this.#lastPlayedS = 0;
    this.#bandFrom = -1;
    this.#playing = null;
    for (const { left, right } of recent) {
      this.#hear({ left: Float64Array.from(left), right: Float64Array.from(right), frames: left.length });
    }
  }

  get newestPeak(): NewestPeak {
    return this.#input.newestPeak;
  }

  now(): LiveNow {
    const bands = this.#listener.readings.map(({ band }) => band);
    return {
      input: this.#input.state,
      pass: this.#running ? { number: this.#passes, heardS: this.#heardS, bands } : null,
      playing: this.#playing,
    };
  }

  /** Ends the pass that runs, where one does: by hand, or because the input has ended. */
  end(): EndedPass | null {
    if (!this.#running) return null;
    const { document, overview } = this.#listener.finish();
    this.#running = false;
    this.#arm.passEnded();
    this.#wasDown = false;
    this.#restart(0);
    return { number: this.#passes, document, overview };
  }
}
