/** Height: angle per mm for this arm, records of other thickness, and the vertical tracking angle aimed at. */
import { type ArmAtAngle, attitudeForRise, type BearingSquareTo, riseForPitch } from '../mechanics/armHeight.ts';
import { forceAtRise, type SwingingArm } from '../mechanics/forceAndHeight.ts';
import { within } from '../units/bounds.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, toldAdvice } from './document.ts';
import { sureMove } from './sureMove.ts';

export interface AngleTarget {
  readonly name: 'standard' | 'older' | 'level';
  readonly title: string;
  /** deg; null where the target is a position of the arm, not an angle */
  readonly fromDeg: number | null;
  readonly toDeg: number | null;
  readonly source: string;
}

/** What vertical tracking angle to aim at, and who says so. */
export const angleTargets: readonly AngleTarget[] = [
  {
    name: 'standard',
    title: '20° to 25°',
    fromDeg: 20,
    toDeg: 25,
    source: 'IEC 60098:2020, 6.1: 20° +5/−0, as seen',
  },
  {
    name: 'older',
    title: '15°',
    fromDeg: 15,
    toDeg: 15,
    source: 'RIAA 1963 and IEC 98:1964, second-hand; records of those years',
  },
  {
    name: 'level',
    title: 'arm level, then by ear or by measurement',
    fromDeg: null,
    toDeg: null,
    source: 'common practice: cartridges play at 22° to 35°, records are cut at 15° to 24°; no standard seen',
  },
];

export interface ThicknessEffect {
  readonly thicknessMm: number;
  /** change of the vertical tracking angle against the record that the height was set on, deg; steeper positive */
  readonly angleDeg: number;
  /** arm height that makes up for it, mm, up positive */
  readonly riseMm: number;
  /** change of force, mN; null where the arm's balance is not known */
  readonly forceMn: number | null;
}

/** What of the arm decides how a raised pivot turns the cartridge. */
export interface HeightArm {
  readonly effectiveLengthMm: number;
  /** cartridge against the line from pivot to tip; left out: taken as 0 */
  readonly offsetDeg?: number;
  /** left out: not known, both are worked out and the mean is used */
  readonly squareTo?: BearingSquareTo;
}

/** How one kind of bearing turns the cartridge with height. */
export interface BearingEffect {
  readonly squareTo: BearingSquareTo;
  /** of height for one degree of pitch */
  readonly mmPerDeg: number;
  /** deg of clockwise tilt that one degree of pitch upward brings */
  readonly tiltPerDeg: number;
}

export interface HeightSheet {
  readonly degPerMm: number;
  readonly mmPerDeg: number;
  /** one where it is known what the bearing is square to or where it makes no difference, else both */
  readonly bearings: readonly BearingEffect[];
  readonly thickness: readonly ThicknessEffect[];
  /** angle by the maker's statement at this height; null when none is stated */
  readonly statedDeg: number | null;
  /** for each target with an angle: how far to raise the arm to come into it, mm, 0 inside; null without a stated angle */
  readonly targets: readonly (AngleTarget & { readonly riseMm: number | null })[];
}

/**
 * @param question lengths mm, angles deg; `riseMm` how far the arm stands above level at the pivot
 * @throws RangeError naming the argument, its value and its bounds
 * @checked src/core/advise/height.test.ts
 */
export function heightSheet(question: {
  readonly effectiveLengthMm: number;
  readonly offsetDeg?: number;
  readonly squareTo?: BearingSquareTo;
  readonly setOnThicknessMm: number;
  readonly otherThicknessMm: readonly number[];
  /** as the cartridge's maker states it for a level arm */
  readonly verticalAngleDeg?: number;
  readonly riseMm?: number;
  readonly arm?: SwingingArm;
}): HeightSheet {
  const { setOnThicknessMm, otherThicknessMm, verticalAngleDeg, riseMm = 0, arm } = question;
  within('the record’s thickness', setOnThicknessMm, 0.2, 10, 'mm');
  const thickness = otherThicknessMm.map((mm): ThicknessEffect => {
    within('another record’s thickness', mm, 0.2, 10, 'mm');
    const more = mm - setOnThicknessMm;
    return {
      thicknessMm: mm,
      angleDeg: -pitchDeg(more, question),
      riseMm: more,
      forceMn: arm === undefined ? null : 1e3 * (forceAtRise(arm, more) - arm.force),
    };
  });
  let statedDeg: number | null = null;
  if (verticalAngleDeg !== undefined) {
    within('the vertical tracking angle', verticalAngleDeg, 0, 60, 'deg');
    statedDeg = verticalAngleDeg + pitchDeg(riseMm, question);
  }
  return {
    degPerMm: pitchDeg(1, question),
    mmPerDeg: riseMmFor(1, question),
    bearings: bearingEffects(question),
    thickness,
    statedDeg,
    targets: angleTargets.map((target) => ({ ...target, riseMm: riseInto(target, statedDeg, question) })),
  };
}

function riseInto({ fromDeg, toDeg }: AngleTarget, statedDeg: number | null, arm: HeightArm): number | null {
  if (statedDeg === null || fromDeg === null || toDeg === null) return null;
  const nearest = Math.min(Math.max(statedDeg, fromDeg), toDeg);
  return riseMmFor(nearest - statedDeg, arm);
}

/** The arm with either kind of bearing; one where the kind is known, or where the cartridge stands straight in the arm. */
function armsOf({ effectiveLengthMm, offsetDeg = 0, squareTo }: HeightArm): readonly ArmAtAngle[] {
  const kinds: readonly BearingSquareTo[] =
    squareTo !== undefined ? [squareTo] : offsetDeg === 0 ? ['arm-line'] : ['arm-line', 'cartridge'];
  return kinds.map((kind) => ({
    effectiveLength: effectiveLengthMm,
    offset: degToRad(offsetDeg),
    squareTo: kind,
  }));
}

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

/** deg, steeper positive; the mean of both kinds of bearing where it is not known which */
const pitchDeg = (riseMm: number, arm: HeightArm): number =>
  mean(armsOf(arm).map((one) => radToDeg(attitudeForRise(riseMm, one).pitch)));
const riseMmFor = (deg: number, arm: HeightArm): number =>
  mean(armsOf(arm).map((one) => riseForPitch(degToRad(deg), one)));

const bearingEffects = (arm: HeightArm): readonly BearingEffect[] =>
  armsOf(arm).map((one) => {
    const mmPerDeg = riseForPitch(degToRad(1), one);
    return { squareTo: one.squareTo, mmPerDeg, tiltPerDeg: radToDeg(attitudeForRise(mmPerDeg, one).tilt) };
  });

/** deg; more than this is not for the pillar: the tube stands visibly off level, tilt and rake go with it. House rule. */
export const MOST_BY_HEIGHT_DEG = 1.5;

/**
 * What a measured angle asks for. Playback less cutting: positive means the pick-up stands too steep, so the arm comes
 * down at its pivot. Nothing is moved for an error within its own uncertainty, and no more than height can cure.
 *
 * @param errorDeg `vertical-tracking-error` of Run, deg
 * @param uncertaintyDeg its k = 2 uncertainty, or null
 * @param slackMm how far this arm can still be moved, down and up, mm; left out: not known
 * @checked src/core/advise/height.test.ts
 */
export function heightAdvice(
  errorDeg: number,
  uncertaintyDeg: number | null,
  arm: HeightArm,
  slackMm?: { readonly down: number; readonly up: number },
): Advice {
  within('the vertical tracking error', errorDeg, -25, 25, 'deg');
  const predicts = (left: number) => [{ quantity: 'vertical-tracking-error', value: left, unit: 'deg' }];
  const sureDeg = sureMove(errorDeg, uncertaintyDeg ?? 0);
  if (sureDeg === 0) {
    return toldAdvice({
      action: 'leave-height',
      amount: null,
      unit: 'mm',
      direction: null,
      predicts: predicts(errorDeg),
      reasons: [statement('height-leave', { within: uncertaintyDeg ?? 0 })],
    });
  }
  const up = errorDeg < 0;
  const curedDeg = Math.min(sureDeg, MOST_BY_HEIGHT_DEG);
  const wanted = riseMmFor(curedDeg, arm);
  const room = slackMm === undefined ? Number.MAX_VALUE : up ? slackMm.up : slackMm.down;
  within('the way left in the arm’s height', room, 0, Number.MAX_VALUE, 'mm');
  const amount = Math.min(wanted, room);
  const done = pitchDeg(amount, arm);
  const left = errorDeg + (up ? done : -done);
  const capped = sureDeg > MOST_BY_HEIGHT_DEG;
  const ofKinds = armsOf(arm).map((one) => riseForPitch(degToRad(curedDeg), one));
  const halfApart = (Math.max(...ofKinds) - Math.min(...ofKinds)) / 2;
  return toldAdvice({
    action: 'set-arm-height',
    amount,
    unit: 'mm',
    direction: up ? 'raise-at-the-pivot' : 'lower-at-the-pivot',
    predicts: predicts(left),
    uncertainty: uncertaintyDeg === null ? null : Math.hypot(openMm(errorDeg, uncertaintyDeg, arm), halfApart),
    reasons: [
      statement('height-move', {
        off: Math.abs(errorDeg),
        way: up ? 'flatter' : 'steeper',
        does: up ? 'raise' : 'lower',
        mm: amount,
      }),
      ...(amount < wanted ? [statement('height-end-of-travel', { mm: room, left: Math.abs(left) })] : []),
      ...(capped && amount === wanted
        ? [statement('height-capped', { most: MOST_BY_HEIGHT_DEG, left: Math.abs(left) })]
        : []),
      ...(curedDeg === sureDeg && sureDeg < Math.abs(errorDeg) ? [statement('move-part')] : []),
      bearingWords(amount, up, arm),
      statement('height-recheck'),
    ],
    cautions: [statement('caution-base')],
  });
}

/**
 * How far the wanted rise may lie from the one asked for, mm: every angle within the uncertainty asks for its own, none for more than height
 * cures. Where even the smallest of them asks for all of that, nothing is open.
 */
function openMm(errorDeg: number, uncertaintyDeg: number, arm: HeightArm): number {
  const wanted = (deg: number): number => riseMmFor(Math.min(Math.max(0, deg), MOST_BY_HEIGHT_DEG), arm);
  const off = Math.abs(errorDeg);
  const asked = wanted(off);
  return Math.max(asked - wanted(off - uncertaintyDeg), wanted(off + uncertaintyDeg) - asked);
}

/** What else the move does, by what the bearing is square to. */
function bearingWords(amountMm: number, up: boolean, arm: HeightArm): Statement {
  const way = up ? 'clockwise' : 'anticlockwise';
  const tilt = (one: ArmAtAngle): number => radToDeg(attitudeForRise(amountMm, one).tilt);
  const [first, second] = armsOf(arm);
  if (arm.offsetDeg === undefined) return statement('height-offset-unknown');
  if (second !== undefined) return statement('height-bearing-unknown', { tilt: tilt(first), way });
  return tilt(first) === 0 ? statement('height-no-tilt') : statement('height-tilts', { tilt: tilt(first), way });
}
