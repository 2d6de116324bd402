/**
 * The practice deck's exercise played through as a newcomer would: nothing is known but what a pass says, every advice is followed by the
 * click, hands are laid on the metal parts, and what is left at the end is near enough.
 */
import { expect, it } from 'vitest';
import type { SideDocument } from '../../src/core/advise/document.ts';
import {
  GOAL,
  HIDDEN_NUMBERS,
  type HiddenNumber,
  hideFaults,
  leftOf,
  settingsNow,
  type Turned,
  UNTURNED,
} from '../../src/core/deck/practice/exercise.ts';
import { PlayingDeck } from '../../src/core/deck/practice/PlayingDeck.ts';
import {
  EARTHED_PARTS,
  PRACTICE_ARM,
  PRACTICE_RANGE,
  type PracticeSettings,
  practiceDeck,
} from '../../src/core/deck/practice/practiceFaults.ts';
import { practiceSides } from '../../src/core/deck/practice/practiceSides.ts';
import { HumWatch } from '../../src/core/live/humWatch.ts';
import { type EndedPass, LiveSession } from '../../src/core/live/LiveSession.ts';
import { parseSheet } from '../../src/core/record/sheet.ts';

const RATE = 44_100;
const FRAMES = 2048;
const LONGEST_PASS_S = 200;
/** s after a hand was laid on, and of the reading */
const HAND_S = 3;
/** dB less hum: the hand earths what has no earth */
const HELPS_DB = 6;
const MOST_PASSES = 4;
const SEED = 13;

/** Which knob each advice turns, and what its directions are called. */
const KNOBS: Readonly<Record<string, { readonly of: HiddenNumber; readonly up: string; readonly down: string }>> = {
  tilt: { of: 'tiltDeg', up: 'clockwise-from-front', down: 'anticlockwise-from-front' },
  twist: { of: 'twistDeg', up: 'clockwise-from-above', down: 'anticlockwise-from-above' },
  'set-arm-height': { of: 'heightMm', up: 'raise-at-the-pivot', down: 'lower-at-the-pivot' },
  speed: { of: 'speedErrorPercent', up: 'faster', down: 'slower' },
};

class Newcomer {
  readonly hidden: PracticeSettings;
  turned: Turned = UNTURNED;
  readonly #deck: PlayingDeck;
  readonly #session: LiveSession;
  readonly #left = new Float64Array(FRAMES);
  readonly #right = new Float64Array(FRAMES);

  constructor(seed: number) {
    this.hidden = hideFaults('everything', seed);
    const record = practiceSides.everything;
    const parsed = parseSheet(JSON.stringify(record), 'practice.record.json');
    if (!parsed.ok) throw new Error('the practice record was refused');
    const { spindleToPivotMm, effectiveLengthMm, offsetDeg } = PRACTICE_ARM;
    this.#deck = new PlayingDeck(record, this.#now('none'), { sampleRateHz: RATE, seed });
    this.#session = new LiveSession(
      { file: 'practice', sampleRateHz: RATE, channels: 2, bitDepth: 24, encoding: 'integer' },
      {
        sheet: parsed.sheet,
        arm: { spindleToPivot: spindleToPivotMm, effectiveLength: effectiveLengthMm, offsetDeg },
      },
      () => undefined,
    );
  }

  #now(touched: PracticeSettings['touched']) {
    return practiceDeck(settingsNow(this.hidden, this.turned, touched));
  }

  #hear(): EndedPass | null {
    this.#deck.fill(this.#left, this.#right, FRAMES);
    return this.#session.push({ left: this.#left, right: this.#right, frames: FRAMES });
  }

  /** From wherever the tip is to the end of the next pass, which the tool must tell by itself. */
  pass(): SideDocument {
    for (let n = 0; n < LONGEST_PASS_S * RATE; n += FRAMES) {
      const over = this.#hear();
      if (over !== null) return over.document;
    }
    throw new Error(`no pass ended within ${LONGEST_PASS_S} s`);
  }

  /** With the arm up: the last part, on the way from the tip to the preamp, whose hum a hand takes away. */
  openJoint(): PracticeSettings['openJoint'] {
    this.#deck.lift();
    const humWith = (touched: PracticeSettings['touched']): number => {
      this.#deck.change(this.#now(touched), true);
      for (let n = 0; n < RATE / 2; n += FRAMES) this.#hear();
      const watch = new HumWatch(RATE);
      for (let n = 0; n < HAND_S * RATE; n += FRAMES) {
        this.#hear();
        watch.push({ left: this.#left, right: this.#right, frames: FRAMES });
      }
      return watch.reading?.db ?? Number.NaN;
    };
    const alone = humWith('none');
    const helped = EARTHED_PARTS.filter((part) => humWith(part) < alone - HELPS_DB);
    return helped.at(-1) ?? 'none';
  }

  /** What was done to the deck; the tip comes down again for the next pass. */
  do(turned: Partial<Turned>): void {
    this.turned = { ...this.turned, ...turned };
    this.#deck.change(this.#now('none'), false);
    this.#deck.setDown();
  }

  /** Every advice of a pass, by the click; the record pushed on its spindle by what its hole was read to be off. */
  follow({ advice, findings }: SideDocument): void {
    const clicks: Partial<Record<HiddenNumber, number>> = { ...this.turned.clicks };
    const turn = (of: HiddenNumber, by: number): void => {
      clicks[of] = (clicks[of] ?? 0) + Math.round(by / PRACTICE_RANGE[of].step);
    };
    for (const { action, amount, direction } of advice) {
      const knob = KNOBS[action];
      if (knob === undefined || amount === null) continue;
      expect([knob.up, knob.down]).toContain(direction);
      turn(knob.of, direction === knob.up ? amount : -amount);
    }
    const hole = findings.find(({ quantity }) => quantity === 'eccentricity');
    if (typeof hole?.value === 'number' && hole.value > GOAL.offCentreMm) turn('offCentreMm', -hole.value);
    const isAdvised = (action: string): boolean => advice.some((one) => one.action === action);
    this.do({
      clicks,
      leadsExchanged: this.turned.leadsExchanged !== isAdvised('swap-channels'),
      polarityExchanged: this.turned.polarityExchanged !== isAdvised('reverse-one-channel'),
    });
  }
}

it('every fault that is hidden is found by what the tool says', { timeout: 600_000 }, () => {
  const one = new Newcomer(SEED);
  // this draw has all of them
  expect(one.hidden).toMatchObject({ leadsSwapped: true, leftInverted: true, openJoint: 'arm' });
  const first = one.pass();
  const joint = one.openJoint();
  expect(joint).toBe(one.hidden.openJoint);
  one.turned = { ...one.turned, remade: [joint] };
  one.follow(first);
  const left = (): Record<string, number> =>
    Object.fromEntries(HIDDEN_NUMBERS.map((of) => [of, leftOf(one.hidden, one.turned, of)]));
  const isNear = (): boolean => HIDDEN_NUMBERS.every((of) => Math.abs(left()[of]) <= GOAL[of]);
  const steps = [left()];
  for (let passes = 1; passes < MOST_PASSES && !isNear(); passes++) {
    one.follow(one.pass());
    steps.push(left());
  }
  console.log(steps.map((step) => JSON.stringify(step)).join('\n'));
  expect(isNear()).toBe(true);
  expect(one.turned).toMatchObject({ leadsExchanged: true, polarityExchanged: true });
});
