/**
 * What a side tells of the arm's geometry: findings with both uncertainties, the curve behind them, and the moves. Overhang comes first:
 * it needs no certificate. The pivot distance must be known for it; the slide needs the arm's intended length and offset too.
 */

import type { Problem } from '../../capture/problem.ts';
import { withheld } from '../../capture/problem.ts';
import type { PivotedArm } from '../../geometry/arm.ts';
import { errorWithinReach } from '../../geometry/law.ts';
import type { ArmGeometry } from '../../measure/armPhase.ts';
import type { Curve, Finding } from '../../measure/finding.ts';
import type { HeardGeometry } from '../../measure/soundFigures.ts';
import type { SheetCut } from '../../record/sheet.ts';
import { degToRad, radToDeg } from '../../units/units.ts';
import { statement } from '../../words/statement.ts';
import type { Advice } from '../document.ts';
import { type AngleOfTones, trackingOfTones, verticalOfTones } from './harmonicAngles.ts';
import { type HeardAngle, trackingAngles, USUAL_CUT_DEG, verticalAngles } from './heardAngles.ts';
import { type HeardOverhang, overhangHeard } from './overhangHeard.ts';
import { armOf, heightMoves, movesFor, PATH_DEG } from './soundMoves.ts';
import { type StylusSkew, stylusSkew, USUAL_WIDTH } from './stylusSkew.ts';

export interface SoundGeometry {
  readonly findings: Finding[];
  readonly advice: Advice[];
  readonly problems: Problem[];
  readonly curves: Curve[];
}

const NOTHING: SoundGeometry = { findings: [], advice: [], problems: [], curves: [] };

/** @param equalisationDb k = 2, of the bench's playback equalisation */
export function soundGeometry(
  heard: HeardGeometry | undefined,
  given: ArmGeometry | null,
  equalisationDb: number,
  contactWidth: { readonly um: number; readonly size: number } | null = null,
): SoundGeometry {
  if (heard === undefined) return NOTHING;
  const { twoTones, seconds, polarity, cut } = heard;
  if (twoTones.length === 0 && !seconds.some(({ vertical }) => vertical)) return NOTHING;
  const arm = given === 'tangential' ? null : given;
  if (!polarity.found) {
    const names = [
      ...new Set(
        [...twoTones, ...seconds.filter(({ vertical }) => vertical)].map(({ vertical }) =>
          vertical ? 'vertical-tracking-error' : 'tracking-error',
        ),
      ),
    ];
    return { ...NOTHING, problems: names.map((name) => withheld(name, statement('polarity-undecided'))) };
  }
  const ofTwoTones = verticalAngles(twoTones, polarity.sign, cut, equalisationDb);
  const ofTones = ofTwoTones.length > 0 ? null : verticalOfTones(seconds, polarity.sign, cut, equalisationDb);
  const vertical: HeardAngle[] = ofTones === null ? ofTwoTones : [ofTones];
  const apart = vertical.length === 0 ? null : vertical.reduce((sum, { value }) => sum + value, 0) / vertical.length;
  const lateral = trackingAngles(twoTones, polarity.sign, cut, apart, equalisationDb);
  const overhang = arm === null ? null : overhangHeard(lateral, arm.spindleToPivot, cut, equalisationDb);
  const coarse = trackingOfTones(seconds, polarity.sign, cut, equalisationDb, arm === null ? null : pivoted(arm));
  const problems: Problem[] = [];
  if (lateral.length > 1 && overhang === null && given !== 'tangential') {
    problems.push(withheld('overhang-heard', statement(arm === null ? 'pivot-distance-missing' : 'radii-too-close')));
  }
  const skew =
    heard.lags.length === 0
      ? null
      : stylusSkew(heard.lags, errorHeardAt(lateral, overhang, cut), contactWidth ?? USUAL_WIDTH);
  if (skew !== null && !skew.found) problems.push(withheld('stylus-skew', skew.why));
  return {
    findings: [
      ...(overhang === null ? [] : [overhangFinding(overhang, lateral)]),
      ...lateral.map((angle) =>
        angleFinding('tracking-error', angle, [statement('path-of-the-tip', { pathDeg: PATH_DEG })]),
      ),
      ...vertical.map((angle) =>
        angleFinding('vertical-tracking-error', angle, [
          ...(ofTones === null ? [] : [statement('vertical-by-harmonic')]),
          verticalNote(cut),
        ]),
      ),
      ...(skew === null || !skew.found ? [] : [skewFinding(skew, contactWidth)]),
      ...(coarse === null ? [] : [crossCheck(coarse, lateral)]),
    ],
    advice: [
      ...(overhang === null || arm === null ? [] : movesFor(overhang, lateral, arm)),
      ...(arm === null ? [] : heightMoves(vertical, arm)),
    ],
    problems,
    curves: [...curvesOf(lateral, overhang), ...(skew?.found ? skew.curves : [])],
  };
}

const angleFinding = (quantity: string, angle: HeardAngle, notes: Finding['notes']): Finding => ({
  quantity,
  value: angle.value,
  unit: 'deg',
  uncertainty: angle.uncertainty,
  repeatability: angle.repeatability,
  budget: angle.budget,
  bands: [angle.band],
  notes: [statement('at-radius', { radiusMm: angle.radiusMm }), ...notes],
});

/** mm from a two-tone band within which its angle is the tone's too, where no arm was fitted */
const NEAR_MM = 12;

/** Tracking error with the cut's zenith in it; the edge stands against the arm's own, which the tilt of the body and skating hide from the path. */
const errorHeardAt =
  (lateral: readonly HeardAngle[], overhang: HeardOverhang | null, cut: SheetCut | undefined) =>
  (radiusMm: number): { deg: number; size: number } | null => {
    const ofPath = Math.max(0, ...lateral.map(({ uncertainty, budget }) => withoutZenith(uncertainty, budget)));
    const size = Math.hypot(ofPath, PATH_DEG);
    const zenith = cut?.zenithDeg ?? 0;
    if (overhang !== null) return { deg: radToDeg(errorWithinReach(armOf(overhang), radiusMm)) + zenith, size };
    const near = lateral.find((angle) => Math.abs(angle.radiusMm - radiusMm) <= NEAR_MM);
    return near === undefined ? null : { deg: near.value + zenith, size: Math.hypot(size, 0.3) };
  };

/** The cut's zenith turns the edge's own line too, and is no doubt here. */
const withoutZenith = (total: number, budget: HeardAngle['budget']): number =>
  Math.sqrt(Math.max(0, total ** 2 - (budget.find(({ of }) => of.code === 'cut-zenith')?.size ?? 0) ** 2));

/** deg: set by eye, a tip is no truer */
const SKEW_WORTH_A_LOOK = 2;

function skewFinding(skew: StylusSkew, width: { readonly um: number } | null): Finding {
  const { deg, uncertainty, repeatability, budget, bands } = skew;
  return {
    quantity: 'stylus-skew',
    value: deg,
    unit: 'deg',
    uncertainty,
    repeatability,
    budget,
    bands,
    notes: [
      width === null
        ? statement('skew-width-assumed', { um: USUAL_WIDTH.um })
        : statement('skew-width-stated', { um: width.um }),
      ...(Math.abs(deg) - uncertainty > SKEW_WORTH_A_LOOK ? [statement('skew-do')] : []),
    ],
  };
}

/** The second harmonic's word beside that of the two-tone bands. */
function crossCheck(coarse: AngleOfTones, lateral: readonly HeardAngle[]): Finding {
  const nearest = lateral.reduce<HeardAngle | null>(
    (a, b) => (a === null || Math.abs(b.radiusMm - coarse.radiusMm) < Math.abs(a.radiusMm - coarse.radiusMm) ? b : a),
    null,
  );
  const beside =
    nearest === null
      ? []
      : [
          statement(
            Math.abs(nearest.value - coarse.value) > Math.hypot(coarse.uncertainty, nearest.uncertainty)
              ? 'cross-check-apart'
              : 'cross-check-agrees',
            { deg: nearest.value, radiusMm: nearest.radiusMm },
          ),
        ];
  return {
    ...angleFinding('tracking-error-cross-check', coarse, [
      statement('by-second-harmonic', { bands: coarse.bands.length }),
      ...beside,
    ]),
    bands: coarse.bands,
  };
}

const pivoted = ({
  spindleToPivot,
  effectiveLength,
  offsetDeg,
}: Exclude<ArmGeometry, 'tangential'>): PivotedArm | null =>
  offsetDeg === undefined ? null : { kind: 'pivoted', spindleToPivot, effectiveLength, offset: degToRad(offsetDeg) };

function verticalNote(cut: SheetCut | undefined) {
  const deg = cut?.verticalAngleDeg ?? USUAL_CUT_DEG;
  if (cut?.verticalAngleKind === 'mechanical') return statement('cut-mechanical', { deg });
  return cut?.verticalAngleDeg === undefined
    ? statement('cut-angle-assumed', { deg })
    : statement('cut-effective', { deg });
}

const overhangFinding = (of: HeardOverhang, lateral: readonly HeardAngle[]): Finding => ({
  quantity: 'overhang-heard',
  value: of.overhangMm,
  unit: 'mm',
  uncertainty: of.uncertainty,
  repeatability: of.repeatability,
  budget: of.budget,
  bands: lateral.map(({ band }) => band),
  notes: [statement('overhang-by-difference', { offsetDeg: of.offsetDeg })],
});

/** What was heard at each radius, and the arm that fits it. */
function curvesOf(lateral: readonly HeardAngle[], overhang: HeardOverhang | null): Curve[] {
  if (lateral.length < 2) return [];
  const byRadius = [...lateral].sort((a, b) => a.radiusMm - b.radiusMm);
  const common = { quantity: 'tracking-error', xUnit: 'mm', yUnit: 'deg' } as const;
  const heard: Curve = {
    ...common,
    name: 'heard',
    x: byRadius.map((a) => a.radiusMm),
    y: byRadius.map((a) => a.value),
  };
  if (overhang === null) return [heard];
  const arm = armOf(overhang);
  const inner = Math.floor(byRadius[0].radiusMm);
  const outer = Math.ceil(byRadius[byRadius.length - 1].radiusMm);
  const x = Array.from({ length: outer - inner + 1 }, (_, i) => inner + i);
  return [heard, { ...common, name: 'the arm that fits', x, y: x.map((r) => radToDeg(errorWithinReach(arm, r))) }];
}
