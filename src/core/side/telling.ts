/** What was worked out last of the band that plays, and when it is worked out anew: in steps, after it was asked for. */
import type { Steps } from '../signal/steps.ts';
import type { Follower } from './follower.ts';
import { NOTHING_YET, type PlayingNow } from './playingNow.ts';

export type Told = Pick<PlayingNow, 'readings' | 'figures'>;

/** a reading of so many seconds moves little in a fiftieth of them: it is told anew after that, and after half a second at most */
const TOLD_ANEW = { share: 1 / 50, mostS: 0.5 };

export class Telling {
  #steps: { readonly of: Follower; readonly run: Steps<Told> } | null = null;
  #told: (Told & { readonly of: Follower }) | null = null;
  #toldAtS = 0;
  #isAsked = false;

  /** Nothing of it holds any more. */
  forget(): void {
    this.#told = null;
    this.#steps = null;
  }

  /** What was worked out last of this band; it will be worked out anew. */
  ask(playing: Follower): Told {
    this.#isAsked = true;
    return this.#told?.of === playing ? this.#told : NOTHING_YET;
  }

  /** One step. @param nowS s heard so far @param begin works out anew */
  work(playing: Follower | null, nowS: number, begin: (playing: Follower) => Steps<Told>): void {
    if (this.#steps === null && this.#isAsked && playing !== null && this.#isOld(playing, nowS)) {
      this.#isAsked = false;
      this.#toldAtS = nowS;
      this.#steps = { of: playing, run: begin(playing) };
    }
    if (this.#steps === null) return;
    const { of, run } = this.#steps;
    const { done, value } = run.next();
    if (done !== true) return;
    this.#told = { ...value, of };
    this.#steps = null;
  }

  #isOld(playing: Follower, nowS: number): boolean {
    const anewAfterS = Math.min(TOLD_ANEW.mostS, TOLD_ANEW.share * (nowS - playing.band.startS));
    return this.#told?.of !== playing || nowS - this.#toldAtS >= anewAfterS;
  }
}
