/** Match: the pull towards the middle at the first and the last groove. */
import { degToRad } from '../units/units.ts';
import { statement } from '../words/statement.ts';
import { toldFinding } from './document.ts';
import { emptyAnswer, type MatchAnswer, type MatchInput, missing, withhold } from './matchInput.ts';
import { ASSUMED, FRICTION } from './matchLimits.ts';
import { type SkatingPoint, type SkatingQuestion, skatingOverSide } from './skatingSide.ts';

/** The span that most printed null points were made for (inner RIAA 1963, outer IEC 98:1958), mm. */
export const USUAL_GROOVES = { innerMm: 60.325, outerMm: 146.05 } as const;

const names = ['skating-force-inner', 'skating-force-outer'] as const;

/** `skating-force-inner` and `-outer`, with the curve between. */
export function matchSkating(input: MatchInput): MatchAnswer {
  const oneEdge = (input.grooveInnerMm === undefined) !== (input.grooveOuterMm === undefined);
  const why = missing(input, [
    'trackingForceMn',
    'effectiveLengthMm',
    'spindleToPivotMm',
    ...(oneEdge ? (['grooveInnerMm', 'grooveOuterMm'] as const) : []),
  ]);
  if (why !== null) return withhold(names, why);
  const friction = input.friction ?? FRICTION.usual;
  const question: SkatingQuestion = {
    trackingForceMn: input.trackingForceMn!,
    friction,
    effectiveLengthMm: input.effectiveLengthMm!,
    spindleToPivotMm: input.spindleToPivotMm!,
    grooveInnerMm: input.grooveInnerMm ?? USUAL_GROOVES.innerMm,
    grooveOuterMm: input.grooveOuterMm ?? USUAL_GROOVES.outerMm,
  };
  const answer = skatingOverSide(question);
  if (!answer.found) return withhold(names, answer.why);
  const { side } = answer;
  // U of μ F tan θ, k = 2: a quarter of a millimetre in L and d moves tan θ far less than friction is uncertain
  const uncertainty = ({ thetaDeg, forceMn }: SkatingPoint) =>
    2 *
    Math.hypot(FRICTION.standard * question.trackingForceMn * Math.tan(degToRad(thetaDeg)), ASSUMED.force * forceMn);
  const note = (radiusMm: number) =>
    input.friction === undefined
      ? statement('skating-friction-assumed', { radiusMm, friction, source: FRICTION.source })
      : statement('skating-friction-given', { radiusMm, friction });
  return {
    ...emptyAnswer,
    findings: (
      [
        ['skating-force-inner', side.inner],
        ['skating-force-outer', side.outer],
      ] as const
    ).map(([quantity, point]) =>
      toldFinding(
        {
          quantity,
          value: point.forceMn,
          unit: 'mN',
          uncertainty: uncertainty(point),
          bands: [],
          notes: [note(point.radiusMm)],
        },
        'info',
      ),
    ),
    curves: [
      {
        quantity: 'skating-force',
        x: side.points.map((p) => p.radiusMm),
        y: side.points.map((p) => p.forceMn),
        xUnit: 'mm',
        yUnit: 'mN',
      },
    ],
  };
}
