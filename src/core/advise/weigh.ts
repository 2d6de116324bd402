/** Weigh: counterweight to a target, dial against gauge, gauge against record height, and where in the range to start. */
import { counterweightMove, forcePerMm } from '../mechanics/counterweight.ts';
import { forceAtRise, type SwingingArm } from '../mechanics/forceAndHeight.ts';
import { correctReading, type GaugeCalibration } from '../mechanics/forceGauge.ts';
import { within } from '../units/bounds.ts';
import { gramForceToMn, mnToGramForce } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type JudgedFinding, toldFinding, type Verdict } from './document.ts';
import { startForceMn } from './matchBalance.ts';

/** A force both ways, as Weigh shows it. */
export interface Force {
  readonly mn: number;
  readonly g: number;
}

export const forceOfMn = (mn: number): Force => ({ mn, g: mnToGramForce(mn) });

/** From a floating arm, or from any force, to the target. */
export interface CounterweightPlan {
  readonly perMm: Force;
  /** travel of the weight, mm, towards the tip positive */
  readonly forwardMm: number;
  /** turns of a threaded weight; null on a plain stub or when the pitch is not known */
  readonly turns: number | null;
  /** what one turn does by statics; null when the pitch is not known */
  readonly perTurn: Force | null;
  /** how far the ring's own scale is from that, in per cent; null when either is not known */
  readonly dialErrorPercent: number | null;
  readonly says: Statement;
}

/**
 * @param plan masses g, lengths mm, forces mN; `fromMn` 0 for a floating arm
 * @throws RangeError naming the argument, its value and its bounds
 * @checked src/core/advise/weigh.test.ts
 */
export function counterweightPlan(plan: {
  readonly counterweightMassG: number;
  readonly effectiveLengthMm: number;
  readonly fromMn: number;
  readonly targetMn: number;
  readonly threadPitchMm?: number;
  /** force that the ring says one turn is */
  readonly dialPerTurnMn?: number;
}): CounterweightPlan {
  const mass = within('the counterweight’s mass', plan.counterweightMassG, 0.5, 2000, 'g') * 1e-3;
  const length = within('the effective length', plan.effectiveLengthMm, 50, 1000, 'mm');
  within('the force now', plan.fromMn, -200, 200, 'mN');
  within('the target force', plan.targetMn, 0, 200, 'mN');
  const pitch = plan.threadPitchMm ?? null;
  const perMm = forceOfMn(1e3 * forcePerMm(mass, length));
  const move = counterweightMove(mass, length, plan.fromMn * 1e-3, plan.targetMn * 1e-3, pitch);
  const perTurn = pitch === null ? null : forceOfMn(perMm.mn * pitch);
  const dial = plan.dialPerTurnMn;
  const told = {
    mm: Math.abs(move.forward),
    way: move.forward >= 0 ? 'towards the tip' : 'away from the tip',
    mn: perMm.mn,
    g: perMm.g,
  };
  return {
    perMm,
    forwardMm: move.forward,
    turns: move.turns,
    perTurn,
    dialErrorPercent:
      perTurn === null || dial === undefined
        ? null
        : 100 * (within('the dial', dial, 0.01, 500, 'mN') / perTurn.mn - 1),
    says:
      move.turns === null
        ? statement('counterweight-move', told)
        : statement('counterweight-turns', { ...told, turns: Math.abs(move.turns) }),
  };
}

/** What is known of how the force goes with height. */
export type HeightEffect =
  | { readonly kind: 'arm'; readonly arm: SwingingArm }
  | {
      readonly kind: 'two-readings';
      readonly lowMm: number;
      readonly lowMn: number;
      readonly highMm: number;
      readonly highMn: number;
    }
  | { readonly kind: 'unknown' };

export interface RecordForce {
  readonly force: Force;
  /** k = 2, mN */
  readonly uncertaintyMn: number;
  /** what was taken off the reading for the gauge's height, mN */
  readonly correctionMn: number;
  readonly notes: readonly Statement[];
}

/** Largest change with height that is allowed for an arm of which nothing is known, of the force per mm (common practice). */
const UNKNOWN_PER_MM = 0.01;

/**
 * Force at record height from a reading at another height.
 *
 * @param question the reading as the gauge shows it, g; its last digit, when there is no calibration; how far the tip on the
 * gauge is above where it is on the record, mm, lower negative
 * @throws RangeError naming the argument, its value and its bounds
 */
export function forceAtRecord(question: {
  readonly readingG: number;
  readonly resolutionG: number;
  readonly calibration?: GaugeCalibration;
  readonly heightMm: number;
  readonly effect: HeightEffect;
}): RecordForce {
  const { readingG, resolutionG, calibration, heightMm, effect } = question;
  within('the gauge’s reading', readingG, 0, 20, 'g');
  within('the gauge’s last digit', resolutionG, 1e-5, 1, 'g');
  within('the height of the gauge', heightMm, -50, 50, 'mm');
  const corrected =
    calibration === undefined
      ? // an uncalibrated gauge is trusted to 2 % and a digit (common practice)
        { value: readingG, uncertainty: 2 * Math.hypot(0.01 * readingG, resolutionG / Math.sqrt(12)) }
      : correctReading(calibration, readingG);
  const mn = gramForceToMn(corrected.value);
  const own = gramForceToMn(corrected.uncertainty);
  const trust = calibration === undefined ? statement('gauge-not-held') : statement('gauge-corrected');
  if (heightMm === 0) return { force: forceOfMn(mn), uncertaintyMn: own, correctionMn: 0, notes: [trust] };
  // a gauge that is wrong by a factor is so at both heights: its last digit alone tells two readings apart
  const digitMn = gramForceToMn(2 * (calibration?.readingStandardUncertainty ?? resolutionG / Math.sqrt(12)));
  const { change, spread, how } = changeFrom(effect, mn, heightMm, digitMn);
  return {
    force: forceOfMn(mn - change),
    uncertaintyMn: Math.hypot(own, spread),
    correctionMn: change,
    notes: [trust, how],
  };
}

/** Force at `heightMm` less force at the record, mN, and its k = 2 spread; `digitMn` is what one reading leaves open, k = 2. */
function changeFrom(
  effect: HeightEffect,
  mn: number,
  heightMm: number,
  digitMn: number,
): { change: number; spread: number; how: Statement } {
  if (effect.kind === 'unknown') {
    return {
      change: 0,
      spread: Math.abs(heightMm) * UNKNOWN_PER_MM * mn,
      how: statement('height-effect-unknown'),
    };
  }
  if (effect.kind === 'two-readings') {
    const { lowMm, lowMn, highMm, highMn } = effect;
    if (!(highMm - lowMm >= 0.5)) {
      throw new RangeError(
        `the two heights are ${lowMm} and ${highMm} mm; the second at least 0.5 mm above the first was expected`,
      );
    }
    within('the force at the lower height', lowMn, 0, 200, 'mN');
    within('the force at the upper height', highMn, 0, 200, 'mN');
    const slope = (highMn - lowMn) / (highMm - lowMm);
    return {
      change: slope * heightMm,
      spread: Math.hypot(slope * heightMm * 0.2, (Math.SQRT2 * digitMn * heightMm) / (highMm - lowMm)),
      how: statement('height-effect-read', { slope }),
    };
  }
  // the arm's figures hold where it plays, so its force there is stepped until it explains the reading
  let force = mn;
  for (let i = 0; i < 20; i++) {
    const there = 1e3 * forceAtRise({ ...effect.arm, force: force * 1e-3 }, heightMm);
    force += mn - there;
  }
  return {
    change: mn - force,
    spread: Math.abs(mn - force) * 0.2,
    how: statement('height-effect-arm'),
  };
}

/** Dial and gauge beside one another: which to believe, and whether the target is met. */
export function forceFindings(question: {
  readonly targetMn: number;
  readonly dialMn?: number;
  readonly atRecord: RecordForce;
  readonly leastMn?: number;
  readonly mostMn?: number;
}): readonly JudgedFinding[] {
  const { targetMn, dialMn, atRecord, leastMn, mostMn } = question;
  within('the target force', targetMn, 0.1, 200, 'mN');
  const { force, uncertaintyMn } = atRecord;
  const away = force.mn - targetMn;
  // a twentieth of the force is what a careful setting keeps (common practice)
  const near = Math.abs(away) <= 0.05 * targetMn;
  // farther off, but no farther than this gauge can tell: nothing to praise and nothing to turn
  const untold = !near && Math.abs(away) <= uncertaintyMn;
  const outside = (leastMn !== undefined && force.mn < leastMn) || (mostMn !== undefined && force.mn > mostMn);
  const verdict: Verdict = untold ? 'info' : outside ? 'bad' : near ? 'good' : 'adjust';
  const figure = (quantity: string, value: number, notes: readonly Statement[], of: Verdict): JudgedFinding =>
    toldFinding({ quantity, value, unit: 'mN', uncertainty: uncertaintyMn, bands: [], notes }, of);
  const said = [statement('force-at-record', { g: force.g, away }), ...atRecord.notes];
  if (untold) said.push(statement('gauge-too-coarse'));
  const findings = [figure('tracking-force', force.mn, said, verdict)];
  if (dialMn !== undefined) {
    within('the dial', dialMn, 0, 200, 'mN');
    const difference = dialMn - force.mn;
    const agrees = Math.abs(difference) <= Math.max(0.1 * targetMn, uncertaintyMn);
    const told = agrees ? statement('dial-agrees') : statement('dial-disagrees');
    findings.push(figure('dial-less-gauge', difference, [told], agrees ? 'good' : 'adjust'));
  }
  return findings;
}

export interface ForceStart {
  readonly start: Force;
  readonly least: Force;
  readonly most: Force;
  readonly says: readonly Statement[];
}

/** °C that cartridge data hold for: IEC 60098:2020, 10.1.2, as seen. */
const RATED_TEMPERATURE_C = { from: 20, to: 25 } as const;

/**
 * Where in the maker's range to start, and what the room does.
 *
 * @param temperatureC of the cartridge, −20 to 60; left out: not said
 */
export function forceStart(leastMn: number, mostMn: number, recommendedMn?: number, temperatureC?: number): ForceStart {
  const start = startForceMn(leastMn, mostMn, recommendedMn);
  const { from, to } = RATED_TEMPERATURE_C;
  const says =
    recommendedMn !== undefined && start === recommendedMn
      ? [statement('start-recommended')]
      : [
          ...(recommendedMn === undefined ? [] : [statement('start-recommended-outside', { mn: recommendedMn })]),
          statement('start-two-thirds'),
        ];
  let room = statement('room-usual', { from, to });
  if (temperatureC !== undefined) {
    within('the temperature', temperatureC, -20, 60, '°C');
    if (temperatureC < from) {
      room = statement('room-cold', { temperature: temperatureC, from });
    } else if (temperatureC > to) {
      room = statement('room-warm', { temperature: temperatureC });
    }
  }
  return {
    start: forceOfMn(start),
    least: forceOfMn(leastMn),
    most: forceOfMn(mostMn),
    says: [...says, room],
  };
}
