/**
 * Who may see the second screen: the one device on which the code of the bench screen was entered. A code works once and for
 * three minutes; it is tried at most once a second, and after five wrong codes the whole is over.
 */
import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';

const CODE_MS = 180_000;
const BETWEEN_TRIES_MS = 1000;
export const MOST_WRONG = 5;
const DIGITS = 6;

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
const same = (a: string, b: string): boolean => timingSafeEqual(digest(a), digest(b));
const drawCode = (): string => String(randomInt(10 ** DIGITS)).padStart(DIGITS, '0');

export type Entered = { readonly token: string } | { readonly refused: 'wrong' | 'too-fast' | 'over' };

export class OneDevice {
  readonly #now: () => number;
  readonly #draw: () => string;
  #code: { readonly text: string; readonly until: number } | null = null;
  #token: string | null = null;
  #wrong = 0;
  #triedAt = Number.NEGATIVE_INFINITY;

  /** @param now ms, of a clock that only goes on; @param draw a code of six digits */
  constructor(now: () => number, draw: () => string = drawCode) {
    this.#now = now;
    this.#draw = draw;
    this.renew();
  }

  /** A new code; whoever was let in before is not any more. */
  renew(): void {
    this.#token = null;
    this.#code = { text: this.#draw(), until: this.#now() + CODE_MS };
  }

  /** The code to show; null once it was entered. One that ran out is replaced. */
  get code(): { readonly text: string; readonly until: number } | null {
    if (this.#code !== null && this.#now() >= this.#code.until) this.renew();
    return this.#code;
  }

  get isOver(): boolean {
    return this.#wrong >= MOST_WRONG;
  }

  /** @param text as typed; blanks in it do not count */
  enter(text: string): Entered {
    if (this.isOver) return { refused: 'over' };
    const since = this.#now() - this.#triedAt;
    if (since < BETWEEN_TRIES_MS) return { refused: 'too-fast' };
    this.#triedAt = this.#now();
    const code = this.code;
    if (code === null || !same(text.replace(/\s/g, ''), code.text)) {
      this.#wrong += 1;
      return { refused: this.isOver ? 'over' : 'wrong' };
    }
    this.#code = null;
    this.#token = randomBytes(32).toString('base64url');
    return { token: this.#token };
  }

  letsIn(token: string): boolean {
    return this.#token !== null && same(token, this.#token);
  }
}
