/** Meter readings → findings and advice in the shapes of `measure`. */
import { budgetOf } from '../measure/budget.ts';
import type { Finding } from '../measure/finding.ts';
import { type ComplexLeaks, predictAfterTurn } from '../measure/tilt.ts';
import type { SheetCut } from '../record/sheet.ts';
import { dbToRatio, degToRad, radToDeg } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { LearnedRecord } from './budget/learnedRecord.ts';
import { type RecordError, recordError } from './budget/recordError.ts';
import type { Advice, JudgedFinding, Prediction, Verdict } from './document.ts';
import { separationsOf } from './leaks.ts';
import { withVerdict } from './limits.ts';
import { leaveTilt, turnAdvice, turnDirection } from './turn.ts';
import { type TurnWorth, turnWorth, usualBody, verdictOfWorth } from './turnWorth.ts';
import type { TiltFromMeter } from './voltmeter.ts';

export interface MeterDocument {
  readonly schema: 1;
  readonly findings: readonly JudgedFinding[];
  readonly advice: readonly Advice[];
}

/** deg; a tilt that a hand cannot set finer */
const HAND_DEG = 0.25;

/** What is known of the record played and of how the body was set. */
export interface MeterKnown {
  /** the record's certificate */
  readonly cut?: SheetCut;
  /** what the shop has learned of the record */
  readonly learned?: LearnedRecord | null;
  readonly setByMirror?: boolean;
}

/** The readings as leaks: as they are where phase is known, else as the assumption has them. */
function leaksHeard({ leaks, angleDeg, predictedLeftToRightDb }: TiltFromMeter): ComplexLeaks {
  if (leaks !== null) return leaks;
  const [mean, half] = [dbToRatio(-predictedLeftToRightDb), Math.tan(degToRad(angleDeg))];
  return { leftIntoRight: { re: mean - half, im: 0 }, rightIntoLeft: { re: mean + half, im: 0 } };
}

/** The deck's own leaks, without what is known of the record's. A meter's imaginary parts have no sign, so nothing is taken off those. */
function leaksOfDeck(answer: TiltFromMeter, { leaks: own }: RecordError, cutTiltDeg: number): ComplexLeaks {
  const { leftIntoRight, rightIntoLeft } = predictAfterTurn(leaksHeard(answer), degToRad(cutTiltDeg));
  return {
    leftIntoRight: { re: leftIntoRight.re - own.leftIntoRight.re, im: leftIntoRight.im },
    rightIntoLeft: { re: rightIntoLeft.re - own.rightIntoLeft.re, im: rightIntoLeft.im },
  };
}

/** The deck's part of a reading. */
interface OfDeck {
  readonly leaks: ComplexLeaks;
  readonly angleDeg: number;
  /** null where phase is unknown: any leak fits the readings */
  readonly worth: TurnWorth | null;
}

/** @param cutTiltDeg as the certificate states it */
function ofDeck(answer: TiltFromMeter, record: RecordError, cutTiltDeg: number): OfDeck {
  const leaks = leaksOfDeck(answer, record, cutTiltDeg);
  const { leftIntoRight, rightIntoLeft } = record.leaks;
  const angleDeg = answer.angleDeg - cutTiltDeg - radToDeg(Math.atan((rightIntoLeft.re - leftIntoRight.re) / 2));
  if (answer.leaks === null) return { leaks, angleDeg, worth: null };
  const spread = Math.tan(degToRad(answer.readingDeg)) ** 2 / 2;
  const noise = { re: spread, im: spread };
  // a quadrature leak that was learned stands on either side of zero
  const quadrature = record.leakDoubt.quadrature + (leftIntoRight.im ** 2 + rightIntoLeft.im ** 2) / 2;
  const doubt = { ...record.leakDoubt, quadrature, noise: { leftIntoRight: noise, rightIntoLeft: noise } };
  return { leaks, angleDeg, worth: turnWorth(leaks, doubt, usualBody(record.chain.setByMirror)) };
}

/** What a voltmeter can say of the deck, with its assumption on the answer. What is known of the record is taken off. */
export function meterDocument(answer: TiltFromMeter, { cut, learned, setByMirror }: MeterKnown = {}): MeterDocument {
  const record = recordError(cut, learned, { setByMirror });
  const cutTiltDeg = cut?.tiltDeg ?? 0;
  const deck = ofDeck(answer, record, cutTiltDeg);
  /** @param perDegree of the scale that the figure is told on, for each of the tip */
  const spreads = (readingDeg: number, perDegree: number) => {
    const phase = Math.sqrt(Math.max(0, answer.uncertaintyDeg ** 2 - answer.readingDeg ** 2));
    const doubts = [
      { of: statement('readings'), size: readingDeg },
      { of: statement('phase-of-leaks'), size: phase * perDegree },
      { of: record.tiltSource, size: 2 * radToDeg(Math.sqrt(record.leakDoubt.tilt)) * perDegree },
    ];
    const { total: uncertainty, budget } = budgetOf(doubts, 'deg');
    return { uncertainty, repeatability: readingDeg, budget };
  };
  const ofTip = spreads(answer.readingDeg, 1);
  const removed = cut?.tiltDeg === undefined ? [] : [statement('record-tilt-removed', { degrees: cut.tiltDeg })];
  const figure = (
    quantity: string,
    value: number,
    spread: ReturnType<typeof spreads>,
    notes: readonly Statement[],
  ): Finding => ({
    quantity,
    value,
    unit: 'deg',
    ...spread,
    bands: [],
    notes: [...notes, ...removed],
  });
  const notes =
    answer.bestTiltDeg === undefined ? [answer.assumption] : [statement('scale-at-zero'), answer.assumption];
  const verdict: Verdict = deck.worth === null ? 'undecided' : verdictOfWorth(deck.worth);
  const findings = [
    withVerdict({ ...figure('azimuth-error', deck.angleDeg, ofTip, notes), asHeard: answer.angleDeg }, verdict),
  ];
  if (answer.bestTiltDeg !== undefined) {
    const scale = answer.scale ?? 1;
    const best = answer.bestTiltDeg + (answer.angleDeg - deck.angleDeg) / scale;
    const onScale = spreads(answer.bestReadingDeg ?? answer.readingDeg / scale, 1 / scale);
    findings.push(withVerdict(figure('best-tilt-setting', best, onScale, [statement('own-scale')]), 'info'));
  }
  return { schema: 1, findings, advice: [adviceOf(answer, deck, ofTip.uncertainty)] };
}

function adviceOf(answer: TiltFromMeter, { leaks, angleDeg, worth }: OfDeck, uncertaintyDeg: number): Advice {
  const action =
    worth !== null ? worth.action : Math.abs(angleDeg) > HAND_DEG ? ('trial-tilt' as const) : ('leave-tilt' as const);
  const turnDeg = worth === null ? angleDeg : radToDeg(worth.turn);
  const more: Statement[] = [];
  const { lastTiltDeg, scale } = answer;
  if (lastTiltDeg !== undefined && scale !== undefined) {
    more.push(...settingWords(-turnDeg / scale, lastTiltDeg, action === 'leave-tilt'));
    if (!(0.8 <= scale && scale <= 1.25)) {
      more.push(statement('scale-off', { scale }));
    }
  }
  const after = separationsOf(predictAfterTurn(leaks, degToRad(action === 'leave-tilt' ? 0 : turnDeg)));
  const predicts: Prediction[] = [
    { quantity: 'separation-left-to-right', value: after.leftToRight, unit: 'dB' },
    { quantity: 'separation-right-to-left', value: after.rightToLeft, unit: 'dB' },
  ];
  const benefit =
    worth === null ? {} : { expectedGainDb: worth.expectedGainDb, harmProbability: worth.harmProbability };
  if (action === 'leave-tilt') {
    const open =
      worth === null ? [statement('decide-by-phase')] : [statement('leave-tilt'), statement('leave-no-gain')];
    return { ...leaveTilt(predicts, [...open, ...more, answer.assumption]), ...benefit };
  }
  if (worth === null) more.unshift(statement('turn-trial-meter'));
  else {
    if (action === 'trial-tilt') more.unshift(statement('turn-trial'));
    more.unshift(statement('turn-benefit', { gain: worth.expectedGainDb, harm: 100 * worth.harmProbability }));
  }
  return {
    ...turnAdvice(action, turnDeg, uncertaintyDeg, predicts, [...more, answer.assumption]),
    ...benefit,
  };
}

/** Where to set the person's own scale, and what that is from where the cartridge stood last. */
function settingWords(bestDeg: number, lastDeg: number, leave: boolean): Statement[] {
  const start = statement(leave ? 'scale-leave' : 'scale-set', { best: bestDeg });
  const rest = bestDeg - lastDeg;
  if (Math.abs(rest) < 0.005) return [start, statement('scale-last-there')];
  // a turn clockwise is what a tilt anticlockwise asks for
  const way = turnDirection(-rest) === 'clockwise-from-front' ? 'clockwise' : 'anticlockwise';
  return [start, statement('scale-from-last', { last: lastDeg, rest: Math.abs(rest), way })];
}
