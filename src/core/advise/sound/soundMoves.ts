/** What the angles and the overhang that were heard ask for: slide, twist, and the arm's height. */
import type { PivotedArm } from '../../geometry/arm.ts';
import { errorWithinReach } from '../../geometry/law.ts';
import { armAfterMove, moveBetween, straightMount } from '../../geometry/slide.ts';
import type { ArmGeometry } from '../../measure/armPhase.ts';
import { degToRad, radToDeg } from '../../units/units.ts';
import { statement } from '../../words/statement.ts';
import { type Advice, toldAdvice } from '../document.ts';
import { heightAdvice } from '../height.ts';
import { sureMove } from '../sureMove.ts';
import type { HeardAngle } from './heardAngles.ts';
import type { HeardOverhang } from './overhangHeard.ts';

/** deg, k = 2: what body tilt (0.7°, 1σ) and skating do to the path against the cartridge's own axis */
export const PATH_DEG = 0.6;
/** deg, no cartridge is further off */
const MOST_VERTICAL_DEG = 25;

/** The arm as the overhang heard says that it is. */
export const armOf = ({ effectiveLengthMm, overhangMm, offsetDeg }: HeardOverhang): PivotedArm => ({
  kind: 'pivoted',
  spindleToPivot: effectiveLengthMm - overhangMm,
  effectiveLength: effectiveLengthMm,
  offset: degToRad(offsetDeg),
});

/** Slide, then twist after the tilt: the twist as heard holds the cut's zenith and the body's tilt. */
export function movesFor(
  overhang: HeardOverhang,
  lateral: readonly HeardAngle[],
  arm: Exclude<ArmGeometry, 'tangential'>,
): Advice[] {
  const now = armOf(overhang);
  const wanted: PivotedArm = {
    ...now,
    effectiveLength: arm.effectiveLength,
    offset: arm.offsetDeg === undefined ? now.offset : degToRad(arm.offsetDeg),
  };
  const mount = straightMount(now);
  const move = moveBetween(now, wanted, mount);
  if (!move.found) return [];
  const wholeTwist = arm.offsetDeg === undefined ? 0 : radToDeg(move.value.twist);
  const slideU = overhang.uncertainty / Math.cos(mount.slotAngle);
  const zenith = Math.max(...lateral.map((a) => a.uncertainty));
  const twistU = Math.hypot(zenith, PATH_DEG);
  const slide = Math.sign(move.value.slide) * sureMove(move.value.slide, slideU);
  const twist = Math.sign(wholeTwist) * sureMove(wholeTwist, twistU);
  const part = (moved: number, whole: number) => (Math.abs(moved) < Math.abs(whole) ? [statement('move-part')] : []);
  const after = armAfterMove(now, mount, { slide, twist: degToRad(twist) });
  const predicts = lateral.map(({ radiusMm }) => ({
    quantity: 'tracking-error',
    value: radToDeg(errorWithinReach(after, radiusMm)),
    unit: 'deg',
  }));
  const overhangAfter = { quantity: 'overhang-heard', value: after.effectiveLength - after.spindleToPivot, unit: 'mm' };
  const advice: Advice[] = [];
  const error = overhang.effectiveLengthMm - arm.effectiveLength;
  if (slide !== 0) {
    const forward = slide > 0;
    advice.push(
      toldAdvice({
        action: 'slide',
        amount: Math.abs(slide),
        unit: 'mm',
        uncertainty: slideU,
        direction: forward ? 'forward' : 'back',
        predicts: [overhangAfter, ...predicts],
        reasons: [
          statement(forward ? 'slide-forward-heard' : 'slide-back-heard', { mm: Math.abs(slide) }),
          statement('tip-off-heard', { errorMm: Math.abs(error), way: forward ? 'back' : 'forward' }),
          ...part(slide, move.value.slide),
        ],
        cautions: [statement('move-in-headshell')],
      }),
    );
  }
  if (twist !== 0) {
    const clockwise = twist > 0;
    advice.push(
      toldAdvice({
        action: 'twist',
        amount: Math.abs(twist),
        unit: 'deg',
        uncertainty: twistU,
        direction: clockwise ? 'clockwise-from-above' : 'anticlockwise-from-above',
        predicts,
        reasons: [
          statement(clockwise ? 'twist-clockwise-heard' : 'twist-anticlockwise-heard', { deg: Math.abs(twist) }),
          ...part(twist, wholeTwist),
        ],
        cautions: [statement('move-in-headshell')],
      }),
    );
  }
  if (advice.length === 0) {
    advice.push(
      toldAdvice({
        action: 'leave-overhang',
        amount: null,
        unit: 'mm',
        direction: null,
        predicts: [],
        reasons: [statement('leave-overhang-heard', { errorMm: error, uncertaintyMm: overhang.uncertainty })],
      }),
    );
  }
  return advice;
}

/** What the surest vertical angle asks of the arm's height; nothing beyond what an angle can be. */
export function heightMoves(vertical: readonly HeardAngle[], arm: Exclude<ArmGeometry, 'tangential'>): Advice[] {
  if (vertical.length === 0) return [];
  const { value, uncertainty } = vertical.reduce((a, b) => (a.uncertainty <= b.uncertainty ? a : b));
  if (!(Math.abs(value) <= MOST_VERTICAL_DEG)) return [];
  return [heightAdvice(value, uncertainty, { effectiveLengthMm: arm.effectiveLength, offsetDeg: arm.offsetDeg })];
}
