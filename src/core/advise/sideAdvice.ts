/** Findings of a side → what to do about them. */

import type { TiltReading } from '../measure/figuresOfSide.ts';
import type { Finding } from '../measure/finding.ts';
import { type ComplexLeaks, predictAfterTurn, tiltOfEqualSeparations } from '../measure/tilt.ts';
import type { Band } from '../record/band.ts';
import type { Complex } from '../units/complex.ts';
import { radToDeg, ratioToDb } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { deckLeaks, fromLateral, leakFigure } from './budget/deckFigures.ts';
import type { RecordError } from './budget/recordError.ts';
import { type Advice, type Prediction, toldAdvice } from './document.ts';
import { adviseHum } from './humAdvice.ts';
import { equalSeparationsHideTilt } from './leaks.ts';
import { DEFAULT_LIMITS, type Limits, verdictOn } from './limits.ts';
import { adviseTracking } from './trackingAdvice.ts';
import { leaveTilt, turnAdvice } from './turn.ts';
import { type TurnWorth, turnWorth, usualBody, WORTH_TRYING_DB } from './turnWorth.ts';

const find = (findings: readonly Finding[], quantity: string) => findings.find((f) => f.quantity === quantity);
const numberOf = (finding: Finding | undefined) => (typeof finding?.value === 'number' ? finding.value : null);

const abs1plus = ({ re, im }: Complex): number => Math.hypot(1 + re, im);

/**
 * Channel balance after the turn. A lateral tone drives both channels alike, so each also hears the other's leak: left comes
 * out as 1 + c_RL and right as 1 + c_LR, with the gains removed, and the turn changes both.
 *
 * @param balance on the lateral tone, dB, left over right
 */
function balanceAfter(balance: Finding, now: ComplexLeaks, after: ComplexLeaks): Prediction {
  const share = (leaks: ComplexLeaks): number => abs1plus(leaks.rightIntoLeft) / abs1plus(leaks.leftIntoRight);
  const value = (balance.value as number) + ratioToDb(share(after) / share(now));
  return { quantity: 'channel-balance', value, unit: 'dB', uncertainty: balance.uncertainty };
}

/** What the tilt's advice rests on. */
export interface TiltGround {
  /** the deck's leaks as far as they are known: what is known of the record taken off */
  readonly leaks: ComplexLeaks;
  readonly record: RecordError;
  readonly worth: TurnWorth;
  /** standard, of the signal, along each leak */
  readonly noise: { readonly leftIntoRight: number; readonly rightIntoLeft: number };
}

/** @returns null where the leaks could not be read */
export function tiltGround(tilt: TiltReading | undefined, record: RecordError): TiltGround | null {
  if (tilt === undefined) return null;
  const leaks = deckLeaks(tilt, record);
  const { leftIntoRight: a, rightIntoLeft: b } = tilt.spread;
  const square = ({ re, im }: Complex) => ({ re: re ** 2, im: im ** 2 });
  return {
    leaks,
    record,
    worth: turnWorth(
      leaks,
      { ...record.leakDoubt, noise: { leftIntoRight: square(a), rightIntoLeft: square(b) } },
      usualBody(record.chain.setByMirror),
    ),
    noise: { leftIntoRight: Math.hypot(a.re, a.im) / Math.SQRT2, rightIntoLeft: Math.hypot(b.re, b.im) / Math.SQRT2 },
  };
}

/**
 * @param tilt of least leak, deg, clockwise positive, k = 2 uncertainty
 * @param balance on a lateral tone; null where there is none
 * @param orderKnown whether a record file has told that left comes out left
 */
function adviseTilt(
  tilt: Finding,
  { leaks, worth, record, noise }: TiltGround,
  balance: Finding | null,
  orderKnown: boolean,
): Advice {
  const angle = numberOf(tilt) ?? 0;
  const benefit = { expectedGainDb: worth.expectedGainDb, harmProbability: worth.harmProbability };
  if (worth.action === 'leave-tilt') {
    const open =
      worth.gainIfKnownDb >= WORTH_TRYING_DB ? [statement('leave-could-gain', { gain: worth.gainIfKnownDb })] : [];
    return { ...leaveTilt([], [statement('leave-tilt'), statement('leave-no-gain'), ...open]), ...benefit };
  }
  const turnDeg = radToDeg(worth.turn);
  const more: Statement[] = [
    statement('turn-benefit', { gain: worth.expectedGainDb, harm: 100 * worth.harmProbability }),
  ];
  if (worth.action === 'trial-tilt') more.push(statement('turn-trial'));
  if (Math.abs(turnDeg) < 0.95 * Math.abs(angle)) more.push(statement('turn-part', { heard: angle }));
  if (equalSeparationsHideTilt(leaks, worth.turn)) {
    more.push(statement('alike-and-tilted'));
  }
  const equal = tiltOfEqualSeparations(leaks);
  const other = equal === null ? angle : radToDeg(equal);
  if (Math.abs(other - angle) > Math.max(0.1, tilt.uncertainty ?? 0)) {
    more.push(statement('set-for-equal', { other }));
  }
  if (!orderKnown) {
    more.push(statement('left-assumed-turn'));
  }
  const after = predictAfterTurn(leaks, worth.turn);
  const way = (quantity: string, of: keyof ComplexLeaks): Prediction => {
    const { value, low, high, uncertainty } = leakFigure(after[of], record, noise[of]);
    return { quantity, value, unit: 'dB', low, high, uncertainty };
  };
  const predicts = [
    way('separation-left-to-right', 'leftIntoRight'),
    way('separation-right-to-left', 'rightIntoLeft'),
    ...(balance === null ? [] : [balanceAfter(balance, leaks, after)]),
  ];
  return { ...turnAdvice(worth.action, turnDeg, 2 * radToDeg(worth.tiltSpread), predicts, more), ...benefit };
}

function adviseWiring(findings: readonly Finding[]): Advice[] {
  const advice: Advice[] = [];
  const wiring = (action: string, reason: Statement): void => {
    const [reasons, cautions] = [[reason], [statement('caution-wiring')]];
    advice.push(toldAdvice({ action, amount: null, unit: '', direction: null, predicts: [], reasons, cautions }));
  };
  if (find(findings, 'polarity')?.value === 'antiphase') {
    wiring('reverse-one-channel', statement('one-channel-reversed-move'));
  }
  if (find(findings, 'channel-order')?.value === 'swapped') {
    wiring('swap-channels', statement('channels-swapped-move'));
  }
  return advice;
}

function adviseSpeed(findings: readonly Finding[], limits: Limits): Advice[] {
  const speed = find(findings, 'speed-error');
  const value = numberOf(speed);
  // outside the limit by the whole uncertainty: else the record may be what is off
  if (speed === undefined || value === null || !['adjust', 'bad'].includes(verdictOn(speed, limits))) return [];
  const [percent, fast] = [Math.abs(value), value > 0];
  const off = fast ? 'fast' : 'slow';
  const set = fast ? 'slower' : 'faster';
  return [
    toldAdvice({
      action: 'speed',
      amount: percent,
      unit: '%',
      uncertainty: speed.uncertainty,
      direction: set,
      predicts: [{ quantity: 'speed-error', value: 0, unit: '%' }],
      reasons: [
        percent > 8 ? statement('speed-wrong', { percent, off }) : statement('speed-trim', { percent, off, set }),
      ],
      cautions: [statement('caution-speed')],
    }),
  ];
}

/**
 * All advice for a side, wiring first: a reversed channel is put right before anything is turned.
 * @param findings of the deck, record and chain in their uncertainties
 * @param ground of the tilt's advice; null where the leaks could not be read
 * @param bands of the side, as far as the findings rest on them
 */
export function adviseSide(
  findings: readonly Finding[],
  ground: TiltGround | null,
  limits: Limits = DEFAULT_LIMITS,
  bands: readonly Pick<Band, 'index' | 'motion'>[] = [],
): Advice[] {
  const tilt = find(findings, 'azimuth-error');
  const balance = find(findings, 'channel-balance');
  const lateral = balance !== undefined && numberOf(balance) !== null && fromLateral(balance, bands) ? balance : null;
  return [
    ...adviseWiring(findings),
    ...(tilt === undefined || ground === null
      ? []
      : [adviseTilt(tilt, ground, lateral, find(findings, 'channel-order') !== undefined)]),
    ...adviseSpeed(findings, limits),
    ...adviseHum(findings, limits),
    ...adviseTracking(findings),
  ];
}
