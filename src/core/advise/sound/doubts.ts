/**
 * What record and chain may hide in the angles heard, each k = 2: from the one table of defaults, the record file's certificate before
 * it; and the few that only these figures have. docs/methods/tracking-error-from-sound.md gives the reasons.
 */
import type { SheetCut } from '../../record/sheet.ts';
import { ASSUMED } from '../budget/defaults.ts';

/** the lacquer's spring-back, where the cutter's own angle is stated: a house guess */
const SPRING_BACK_DEG = 5;
/** the groove's own angle as a record file states it: a house guess */
const STATED_DEG = 1;
/** of the cut; tan 1.2° is a leak of −33.5 dB */
const CUT_TILT_DEG = 1.2;
/** between playback and cut, where no vertical band tells it */
const VERTICAL_APART_DEG = 5;
/** rad that leaks turn the lower tone's phase by: undone, or not */
const PHASE_KNOWN = 0.01;
const PHASE_UNKNOWN = 0.04;

const DB = 20 / Math.LN10;

/** @param equalisationDb of the bench's own playback equalisation */
export const doubts = (cut: SheetCut | undefined, equalisationDb: number) => ({
  /** share of the angle */
  velocity: (cut?.levelUncertaintyDb ?? ASSUMED.recordVelocity.size) / DB,
  equalisation: equalisationDb / DB,
  /** deg */
  zenith: cut?.zenithUncertaintyDeg ?? ASSUMED.recordZenith.size,
  verticalAngle: verticalDoubt(cut),
  cutTilt: cut?.tiltUncertaintyDeg ?? CUT_TILT_DEG,
  verticalApart: VERTICAL_APART_DEG,
  radiusMm: cut?.radiusUncertaintyMm ?? ASSUMED.radius.size,
  /** rad */
  phase: (leaksKnown: boolean): number => (leaksKnown ? PHASE_KNOWN : PHASE_UNKNOWN),
});

/** deg, k = 2, of the angle that the record file states */
export function verticalDoubt(cut: SheetCut | undefined): number {
  if (cut?.verticalAngleDeg === undefined) return ASSUMED.recordVerticalAngle.size;
  if (cut.verticalAngleKind === 'mechanical') return SPRING_BACK_DEG;
  return cut.verticalAngleKind === 'effective' ? STATED_DEG : ASSUMED.recordVerticalAngle.size;
}
