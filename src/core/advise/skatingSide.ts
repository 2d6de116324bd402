/** Skating across a side: geometry gives the arm's angle to the groove, friction the force, the device its setting. */
import { type PivotedArm, pivotedArm } from '../geometry/arm.ts';
import { trackingError } from '../geometry/law.ts';
import { leverForWeight, threadMoment, threadWeight } from '../mechanics/antiSkating.ts';
import { skatingForce, skatingForceAcrossArm, skatingMoment } from '../mechanics/skating.ts';
import { within } from '../units/bounds.ts';
import { mnToGramForce } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { ASSUMED, FRICTION } from './matchLimits.ts';
import { expanded } from './propagate.ts';

export interface SkatingQuestion {
  readonly trackingForceMn: number;
  /** friction between stylus and record */
  readonly friction: number;
  readonly effectiveLengthMm: number;
  readonly spindleToPivotMm: number;
  readonly grooveInnerMm: number;
  readonly grooveOuterMm: number;
}

export interface SkatingPoint {
  readonly radiusMm: number;
  /** between the arm's line and the groove, deg */
  readonly thetaDeg: number;
  /** on the inner groove wall, along the radius, inward positive */
  readonly forceMn: number;
  /** the same pull square to the arm at the tip */
  readonly acrossArmMn: number;
  /** about the pivot, mN·mm */
  readonly momentMnMm: number;
}

export interface SkatingSide {
  readonly inner: SkatingPoint;
  readonly outer: SkatingPoint;
  readonly points: readonly SkatingPoint[];
  /** least and largest of the moment over the side, and its mean over the radii, mN·mm */
  readonly moment: { readonly least: number; readonly mean: number; readonly most: number };
}

export type SkatingAnswer =
  | { readonly found: true; readonly side: SkatingSide }
  | { readonly found: false; readonly why: Statement };

function pointAt(arm: PivotedArm, q: SkatingQuestion, radiusMm: number): SkatingPoint | Statement {
  const theta = trackingError(arm, radiusMm);
  if (!theta.found) return statement('tip-does-not-reach', { radiusMm });
  // at the very edge of reach the arm lies along the groove and the wall would carry no end of force
  if (!(Math.abs(theta.value) <= 1.2)) {
    return statement('no-playing-position', { radiusMm, degrees: (theta.value * 180) / Math.PI });
  }
  const force = q.trackingForceMn * 1e-3;
  return {
    radiusMm,
    thetaDeg: (theta.value * 180) / Math.PI,
    forceMn: 1e3 * skatingForce(force, q.friction, theta.value),
    acrossArmMn: 1e3 * skatingForceAcrossArm(force, q.friction, theta.value),
    momentMnMm: 1e3 * skatingMoment(force, q.friction, theta.value, q.effectiveLengthMm),
  };
}

/**
 * Side force against radius, from friction and geometry.
 *
 * @param count points over the side, ends included, 2–1000
 * @returns the side; or why the arm cannot play it
 * @throws RangeError naming the argument, its value and its bounds
 * @checked test/standards/skating.test.ts
 */
export function skatingOverSide(question: SkatingQuestion, count = 61): SkatingAnswer {
  const { grooveInnerMm, grooveOuterMm } = question;
  within('count', count, 2, 1000);
  within('the outer groove radius', grooveOuterMm, 20, 200, 'mm');
  within('the inner groove radius', grooveInnerMm, 20, grooveOuterMm, 'mm');
  within('the friction', question.friction, 0, 1);
  within('the tracking force', question.trackingForceMn, 0, 200, 'mN');
  const arm = pivotedArm(question.spindleToPivotMm, question.effectiveLengthMm, 0);
  const points: SkatingPoint[] = [];
  for (let i = 0; i < count; i++) {
    const radius = grooveInnerMm + ((grooveOuterMm - grooveInnerMm) * i) / (count - 1);
    const point = pointAt(arm, question, radius);
    if ('code' in point) return { found: false, why: point };
    points.push(point);
  }
  const moments = points.map((point) => point.momentMnMm);
  return {
    found: true,
    side: {
      inner: points[0],
      outer: points[points.length - 1],
      points,
      moment: {
        least: Math.min(...moments),
        mean: moments.reduce((sum, m) => sum + m, 0) / moments.length,
        most: Math.max(...moments),
      },
    },
  };
}

/** How the deck pulls the arm outward. */
export type AntiSkatingDevice =
  | { readonly kind: 'thread'; readonly leverMm: number }
  | { readonly kind: 'notched-lever'; readonly weightG: number; readonly notchesMm: readonly number[] }
  | {
      readonly kind: 'dial';
      /** friction that the dial's maker assumed: a dial reads the tracking force it is meant for */
      readonly dialFriction: number;
    };

export interface AntiSkatingSetting {
  /** hang this on the thread (g), take this notch (mm from the pivot), or turn to this mark (mN of tracking force) */
  readonly setting: number;
  readonly unit: 'g' | 'mm' | 'mN';
  /** what friction and force leave open of `setting`, k = 2, in its unit; null for a notch, which is the nearest there is */
  readonly uncertainty: number | null;
  /** what is left at the inner, at the outer groove, square to the arm at the tip, mN; inward positive */
  readonly leftInnerMn: number;
  readonly leftOuterMn: number;
  readonly says: readonly Statement[];
}

/**
 * Start value: a device with one constant pull is set to the mean over the side; what stays at both ends is told, and
 * Run's tracking result decides.
 *
 * @param side from `skatingOverSide`
 * @returns the setting; or why this device has none
 * @throws RangeError naming the argument, its value and its bounds
 */
export function antiSkatingStart(
  side: SkatingSide,
  question: SkatingQuestion,
  device: AntiSkatingDevice,
): ({ readonly found: true } & AntiSkatingSetting) | { readonly found: false; readonly why: Statement } {
  const mean = side.moment.mean;
  if (!(mean > 0)) return { found: false, why: statement('pull-not-inward') };
  const L = question.effectiveLengthMm;
  const left = (momentMnMm: number) => ({
    leftInnerMn: (side.inner.momentMnMm - momentMnMm) / L,
    leftOuterMn: (side.outer.momentMnMm - momentMnMm) / L,
  });
  if (device.kind === 'notched-lever') {
    const wanted = leverForWeight(mean * 1e-3, device.weightG * 1e-3);
    if (device.notchesMm.length === 0) return { found: false, why: statement('no-notches') };
    const notch = device.notchesMm.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a));
    const pull = 1e3 * threadMoment(device.weightG * 1e-3, notch);
    // within a tenth friction is not known by far
    const outside =
      Math.abs(wanted - notch) > wanted / 10 &&
      (wanted > Math.max(...device.notchesMm) || wanted < Math.min(...device.notchesMm));
    return {
      found: true,
      setting: notch,
      unit: 'mm',
      uncertainty: null,
      ...left(pull),
      says: [
        statement('skating-notch', { notch, wanted, grams: device.weightG }),
        ...(outside ? [statement('skating-notch-beyond', { weight: wanted > notch ? 'heavier' : 'lighter' })] : []),
      ],
    };
  }
  const setting = (x: Readonly<Record<'friction' | 'force', number>>): number => {
    if (device.kind === 'dial') return (x.force * x.friction) / device.dialFriction;
    // the moment goes with friction times force, the geometry standing
    const grown = (x.friction * x.force) / (question.friction * question.trackingForceMn);
    return 1e3 * threadWeight(mean * 1e-3 * grown, device.leverMm);
  };
  if (device.kind === 'dial') within('the dial’s friction', device.dialFriction, 0.05, 1);
  const value = setting({ friction: question.friction, force: question.trackingForceMn });
  const uncertainty = expanded(setting, {
    friction: { value: question.friction, standard: FRICTION.standard },
    force: { value: question.trackingForceMn, standard: question.trackingForceMn * ASSUMED.force },
  });
  if (device.kind === 'thread') {
    return {
      found: true,
      setting: value,
      unit: 'g',
      uncertainty,
      ...left(mean),
      says: [
        statement(finely(value) ? 'skating-thread-fine' : 'skating-thread', {
          grams: value,
          within: tenths(uncertainty ?? value),
          lever: device.leverMm,
        }),
      ],
    };
  }
  return {
    found: true,
    setting: value,
    unit: 'mN',
    uncertainty,
    ...left(mean),
    says: [
      statement(finely(mnToGramForce(value)) ? 'skating-dial-fine' : 'skating-dial', {
        grams: mnToGramForce(value),
        mn: value,
        friction: device.dialFriction,
      }),
    ],
  };
}

/** A weight on a thread, a mark on a dial: a tenth is as fine as it is set; two places under one. */
const finely = (value: number): boolean => value < 0.95;
const tenths = (value: number): string => value.toFixed(finely(value) ? 2 : 1);
