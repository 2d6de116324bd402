/** Meter readings → findings and advice in the shapes of `measure`. */
import { budgetOf } from '../measure/budget.ts';
import type { Finding } from '../measure/finding.ts';
import { predictAfterTurn } from '../measure/tilt.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
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

/**
 * What a voltmeter can say, with its assumption on the answer.
 * @param record what the record may hide
 */
export function meterDocument(answer: TiltFromMeter, record: RecordError = recordError(undefined)): MeterDocument {
  const several = answer.bestTiltDeg !== undefined;
  const known = answer.leaks;
  // without phase any leak fits the readings, the record's among them
  const ofRecord = known === null ? 0 : 2 * radToDeg(Math.sqrt(record.leakDoubt.tilt));
  const ofPhase = Math.sqrt(Math.max(0, answer.uncertaintyDeg ** 2 - answer.readingDeg ** 2));
  const { total, budget } = budgetOf(
    [
      { of: statement('readings'), size: answer.readingDeg },
      { of: statement('phase-of-leaks'), size: ofPhase },
      { of: record.tiltSource, size: ofRecord },
    ],
    'deg',
  );
  const spread = Math.tan(degToRad(answer.readingDeg)) ** 2 / 2;
  const noise = { re: spread, im: spread };
  const worth =
    known === null
      ? null
      : turnWorth(
          known,
          { ...record.leakDoubt, noise: { leftIntoRight: noise, rightIntoLeft: noise } },
          usualBody(record.chain.setByMirror),
        );
  const figure = (quantity: string, value: number, notes: readonly Statement[]): Finding => ({
    quantity,
    value,
    unit: 'deg',
    uncertainty: total,
    repeatability: answer.readingDeg,
    budget,
    bands: [],
    notes,
  });
  const verdict: Verdict = worth === null ? 'undecided' : verdictOfWorth(worth);
  const findings = [
    withVerdict(
      figure(
        'azimuth-error',
        answer.angleDeg,
        several ? [statement('scale-at-zero'), answer.assumption] : [answer.assumption],
      ),
      verdict,
    ),
  ];
  if (answer.bestTiltDeg !== undefined) {
    findings.push(withVerdict(figure('best-tilt-setting', answer.bestTiltDeg, [statement('own-scale')]), 'info'));
  }
  return { schema: 1, findings, advice: [adviceOf(answer, worth, total)] };
}

function adviceOf(answer: TiltFromMeter, worth: TurnWorth | null, uncertaintyDeg: number): Advice {
  const action =
    worth !== null
      ? worth.action
      : Math.abs(answer.angleDeg) > HAND_DEG
        ? ('trial-tilt' as const)
        : ('leave-tilt' as const);
  const turnDeg = worth === null ? answer.angleDeg : radToDeg(worth.turn);
  const more: Statement[] = [];
  const { lastTiltDeg, scale, leaks } = answer;
  if (lastTiltDeg !== undefined && scale !== undefined) {
    more.push(...settingWords(-turnDeg / scale, lastTiltDeg, action === 'leave-tilt'));
    if (!(0.8 <= scale && scale <= 1.25)) {
      more.push(statement('scale-off', { scale }));
    }
  }
  const after =
    leaks === null
      ? { leftToRight: answer.predictedLeftToRightDb, rightToLeft: answer.predictedRightToLeftDb }
      : separationsOf(predictAfterTurn(leaks, degToRad(action === 'leave-tilt' ? 0 : turnDeg)));
  const predicts: Prediction[] = [
    { quantity: 'separation-left-to-right', value: after.leftToRight, unit: 'dB' },
    { quantity: 'separation-right-to-left', value: after.rightToLeft, unit: 'dB' },
  ];
  const benefit =
    worth === null ? {} : { expectedGainDb: worth.expectedGainDb, harmProbability: worth.harmProbability };
  if (action === 'leave-tilt') {
    const open = worth === null ? statement('decide-by-phase') : statement('leave-tilt');
    return { ...leaveTilt(predicts, [open, ...more, answer.assumption]), ...benefit };
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
