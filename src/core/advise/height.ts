/** Height: angle per mm for this arm, records of other thickness, and the vertical tracking angle aimed at. */
import { angleForRise, riseForAngle } from '../mechanics/armHeight.ts';
import { forceAtRise, type SwingingArm } from '../mechanics/forceAndHeight.ts';
import { within } from '../units/bounds.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import type { Advice } from './document.ts';

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
    source:
      'common practice: pick-ups were found at 22° to 35°, records at 15° to 24° (survey at an AES convention, in summary)',
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

export interface HeightSheet {
  readonly degPerMm: number;
  readonly mmPerDeg: number;
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
  readonly setOnThicknessMm: number;
  readonly otherThicknessMm: readonly number[];
  /** as the cartridge's maker states it for a level arm */
  readonly verticalAngleDeg?: number;
  readonly riseMm?: number;
  readonly arm?: SwingingArm;
}): HeightSheet {
  const { effectiveLengthMm: length, setOnThicknessMm, otherThicknessMm, verticalAngleDeg, riseMm = 0, arm } = question;
  within('the record’s thickness', setOnThicknessMm, 0.2, 10, 'mm');
  const thickness = otherThicknessMm.map((mm): ThicknessEffect => {
    within('another record’s thickness', mm, 0.2, 10, 'mm');
    const more = mm - setOnThicknessMm;
    return {
      thicknessMm: mm,
      angleDeg: -radToDeg(angleForRise(more, length)),
      riseMm: more,
      forceMn: arm === undefined ? null : 1e3 * (forceAtRise(arm, more) - arm.force),
    };
  });
  let statedDeg: number | null = null;
  if (verticalAngleDeg !== undefined) {
    within('the vertical tracking angle', verticalAngleDeg, 0, 60, 'deg');
    statedDeg = verticalAngleDeg + radToDeg(angleForRise(riseMm, length));
  }
  return {
    degPerMm: radToDeg(angleForRise(1, length)),
    mmPerDeg: riseForAngle(degToRad(1), length),
    thickness,
    statedDeg,
    targets: angleTargets.map((target) => ({ ...target, riseMm: riseInto(target, statedDeg, length) })),
  };
}

function riseInto({ fromDeg, toDeg }: AngleTarget, statedDeg: number | null, length: number): number | null {
  if (statedDeg === null || fromDeg === null || toDeg === null) return null;
  const nearest = Math.min(Math.max(statedDeg, fromDeg), toDeg);
  return riseForAngle(degToRad(nearest - statedDeg), length);
}

/**
 * What a measured angle asks for. Playback less cutting: positive means the pick-up stands too steep, so the arm comes
 * down at its pivot.
 *
 * @param errorDeg `vertical-tracking-error` of Run, deg
 * @param uncertaintyDeg its k = 2 uncertainty, or null
 * @param slackMm how far this arm can still be moved, down and up, mm; left out: not known
 */
export function heightAdvice(
  errorDeg: number,
  uncertaintyDeg: number | null,
  effectiveLengthMm: number,
  slackMm?: { readonly down: number; readonly up: number },
): Advice {
  within('the vertical tracking error', errorDeg, -25, 25, 'deg');
  const rise = riseForAngle(degToRad(-errorDeg), effectiveLengthMm);
  const uncertainty = uncertaintyDeg === null ? null : (uncertaintyDeg * effectiveLengthMm * Math.PI) / 180;
  const predicts = (left: number) => [{ quantity: 'vertical-tracking-error', value: left, unit: 'deg' }];
  if (Math.abs(errorDeg) <= (uncertaintyDeg ?? 0)) {
    return {
      action: 'leave-height',
      amount: null,
      unit: 'mm',
      direction: null,
      predicts: predicts(errorDeg),
      why: `The angle lies within what the measurement can tell (± ${(uncertaintyDeg ?? 0).toFixed(1)}°): leave the height.`,
    };
  }
  const room = slackMm === undefined ? Number.MAX_VALUE : rise >= 0 ? slackMm.up : slackMm.down;
  within('the way left in the arm’s height', room, 0, Number.MAX_VALUE, 'mm');
  const amount = Math.min(Math.abs(rise), room);
  const left = errorDeg + radToDeg(angleForRise(Math.sign(rise) * amount, effectiveLengthMm));
  const short =
    amount < Math.abs(rise)
      ? ` The arm moves ${room.toFixed(1)} mm that way; a wedge under the cartridge does the rest.`
      : '';
  return {
    action: 'set-arm-height',
    amount,
    unit: 'mm',
    direction: rise >= 0 ? 'raise-at-the-pivot' : 'lower-at-the-pivot',
    predicts: predicts(left),
    uncertainty,
    why: `The pick-up stands ${Math.abs(errorDeg).toFixed(1)}° ${errorDeg > 0 ? 'steeper' : 'flatter'} than the groove was cut: ${rise >= 0 ? 'raise' : 'lower'} the arm ${amount.toFixed(1)} mm at its pivot.${short} Weigh and look at the tilt again afterwards.`,
    caution: 'Arm locked in its rest while its base is loosened; hold the base, not the arm.',
  };
}
