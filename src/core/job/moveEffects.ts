/**
 * How much of a change a move makes at another station, worked out for this arm. What is not known of the arm leaves the
 * size unknown, and then the station is looked at again as the table in `stale.ts` says.
 */
import type { Effect } from '../advise/recheck.ts';
import { armAfterMove, straightMount } from '../geometry/slide.ts';
import {
  cantileverTurn,
  drawOfRise,
  forceChangeOfSlide,
  pitchChangeOfLength,
  sideSwing,
} from '../mechanics/afterMove.ts';
import { attitudeForRise } from '../mechanics/armHeight.ts';
import { tiltOfShim } from '../mechanics/cartridgeTurn.ts';
import { forceAtRise } from '../mechanics/forceAndHeight.ts';
import { M2_5_PITCH } from '../mechanics/screwLength.ts';
import { degToRad, radToDeg } from '../units/units.ts';
import type { KnownArm } from './knownArm.ts';

/** @param by how much was moved, signed, in the move's own unit (`moveUnits`) */
export type EffectOf = (by: number, arm: KnownArm) => Effect | null;

/** The tip's depth below the axis that a headshell turns about, mm, where it is not known: from memory, not seen in a source. */
const USUAL_TIP_BELOW_AXIS = 18;

const own =
  (quantity: Effect['quantity']): EffectOf =>
  (by) => ({ quantity, size: by });

/** How far the tip comes away from the pivot, mm, when the cartridge is slid (mm) and twisted (rad) in its shell. */
function lengthened(arm: KnownArm, slide: number, twist: number): number | null {
  const { effectiveLengthMm, spindleToPivotMm, offsetDeg } = arm;
  if (effectiveLengthMm === undefined || spindleToPivotMm === undefined || offsetDeg === undefined) return null;
  const before = {
    kind: 'pivoted',
    spindleToPivot: spindleToPivotMm,
    effectiveLength: effectiveLengthMm,
    offset: degToRad(offsetDeg),
  } as const;
  return armAfterMove(before, straightMount(before), { slide, twist }).effectiveLength - effectiveLengthMm;
}

const slid = (by: number, arm: KnownArm) => lengthened(arm, by, 0);
const twisted = (by: number, arm: KnownArm) => lengthened(arm, 0, degToRad(by));

const forceOf =
  (forward: typeof slid): EffectOf =>
  (by, arm) => {
    const { effectiveLengthMm: length, slidingMassG, forceMn } = arm;
    const mm = forward(by, arm);
    if (mm === null || length === undefined || slidingMassG === undefined || forceMn === undefined) return null;
    const change = forceChangeOfSlide(forceMn * 1e-3, slidingMassG * 1e-3, length, mm);
    return { quantity: 'tracking-force', size: 1e3 * change };
  };

const pitchOfSlide: EffectOf = (by, arm) => {
  const { effectiveLengthMm: length, pivotAboveTipMm: above } = arm;
  const mm = slid(by, arm);
  if (mm === null || length === undefined || above === undefined) return null;
  return { quantity: 'vertical-angle', size: radToDeg(pitchChangeOfLength(above, length, mm)) };
};

/** Where the bearing's axis is not known it is taken as square to the arm's line: that tilts as well. */
function attitude(rise: number, { effectiveLengthMm, offsetDeg = 0, bearing = 'arm-line' }: KnownArm) {
  if (effectiveLengthMm === undefined) return null;
  return attitudeForRise(rise, { effectiveLength: effectiveLengthMm, offset: degToRad(offsetDeg), squareTo: bearing });
}

const pitchOf =
  (riseOf: (by: number) => number): EffectOf =>
  (by, arm) => {
    const stands = attitude(riseOf(by), arm);
    return stands === null ? null : { quantity: 'vertical-angle', size: radToDeg(stands.pitch) };
  };

/** The force on a tip that stands where it stood while the pivot is raised: as the tip lowered by as much. */
const forceOfRise: EffectOf = (by, arm) => {
  const { effectiveLengthMm, pivotAboveTipMm, movingMassG, centreBelowPivotMm, forceMn } = arm;
  if (effectiveLengthMm === undefined || pivotAboveTipMm === undefined || movingMassG === undefined) return null;
  if (centreBelowPivotMm === undefined || forceMn === undefined) return null;
  const after = forceAtRise(
    {
      force: forceMn * 1e-3,
      effectiveLength: effectiveLengthMm,
      pivotAboveTip: pivotAboveTipMm,
      movingMass: movingMassG * 1e-3,
      centreBelowPivot: centreBelowPivotMm,
    },
    -by,
  );
  return { quantity: 'tracking-force', size: 1e3 * after - forceMn };
};

const overhangOfRise: EffectOf = (by, { effectiveLengthMm: length, pivotAboveTipMm: above }) =>
  length === undefined || above === undefined ? null : { quantity: 'overhang', size: -drawOfRise(by, length, above) };

const tiltOfHeight: EffectOf = (by, arm) => {
  const stands = arm.offsetDeg === undefined ? null : attitude(by, arm);
  return stands === null ? null : { quantity: 'tilt', size: radToDeg(stands.tilt) };
};

/** The swing to the side, as far as it lies along the line from pivot to tip, mm. */
const swung = (by: number, { offsetDeg }: KnownArm): number | null =>
  offsetDeg === undefined ? null : sideSwing(USUAL_TIP_BELOW_AXIS, degToRad(by)) * Math.sin(degToRad(offsetDeg));

const overhangOfTurn: EffectOf = (by, arm) => {
  const mm = swung(by, arm);
  return mm === null ? null : { quantity: 'overhang', size: mm };
};

const angleOfForce: EffectOf = (by, { complianceUmPerMn }) =>
  complianceUmPerMn === undefined
    ? null
    : { quantity: 'vertical-angle', size: -radToDeg(cantileverTurn(by * 1e-3, complianceUmPerMn * 1e-3)) };

const threadsOfShim: EffectOf = (by, { threadPitchMm = M2_5_PITCH }) => ({
  quantity: 'threads',
  size: by / threadPitchMm,
});

/** The effects that have a size, by what is moved; used in the table of `stale.ts`. */
export const effects = {
  slide: { force: forceOf(slid), angle: pitchOfSlide, own: own('overhang') },
  twist: { force: forceOf(twisted), own: own('offset') },
  turn: { force: forceOf(swung), overhang: overhangOfTurn, own: own('tilt') },
  shim: {
    threads: threadsOfShim,
    angle: pitchOf((by) => -by / 2),
    own: ((by) => ({ quantity: 'tilt', size: radToDeg(tiltOfShim(by)) })) as EffectOf,
  },
  force: { angle: angleOfForce, own: own('tracking-force') },
  height: { force: forceOfRise, overhang: overhangOfRise, tilt: tiltOfHeight, own: pitchOf((by) => by) },
  pivot: { own: own('pivot-distance') },
} as const;
