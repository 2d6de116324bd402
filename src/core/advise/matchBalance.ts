/** Match: does the counterweight reach, does the arm take the cartridge, does the force lie in the cartridge's range. */
import { counterweightMassFor, counterweightPosition } from '../mechanics/counterweight.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, toldAdvice, toldFinding, type Verdict } from './document.ts';
import { emptyAnswer, type MatchAnswer, type MatchInput, missing, withhold } from './matchInput.ts';
import { ASSUMED, USUAL_HARDWARE_G } from './matchLimits.ts';
import { expanded } from './propagate.ts';

const KG = 1e-3;
const N = 1e-3;

/** Cartridge, hardware and a headshell that comes off, g. */
const frontMassG = (input: MatchInput): number =>
  (input.cartridgeMassG ?? 0) + (input.hardwareMassG ?? 0) + (input.headshellMassG ?? 0);

/** Standard uncertainty of masses on the arm, g: as taken, and a set of hardware besides where none is known. */
export const massStandardG = ({ hardwareMassG }: MatchInput): number =>
  Math.hypot(ASSUMED.massG, hardwareMassG === undefined ? USUAL_HARDWARE_G / Math.sqrt(12) : 0);

/** What is said wherever hardware counts as nothing because it is not known; empty where it is. */
export const hardwareNotes = ({ hardwareMassG }: MatchInput): readonly Statement[] =>
  hardwareMassG === undefined ? [statement('hardware-not-known', { mostG: USUAL_HARDWARE_G })] : [];

/** Where the counterweight's centre sits behind the pivot, mm, at a force, and the same for a floating arm. */
export interface CounterweightPlace {
  readonly atForceMm: number;
  readonly floatingMm: number;
  /** k = 2 */
  readonly uncertaintyMm: number | null;
  /** null where the stub's ends are not known */
  readonly onStub: boolean | null;
}

export type Reach =
  | { readonly found: true; readonly place: CounterweightPlace }
  | { readonly found: false; readonly why: Statement };

/** The counterweight's place by moments; the stub's ends decide whether it can stand there. */
export function counterweightReach(input: MatchInput): Reach {
  const why = missing(input, [
    'cartridgeMassG',
    ...(input.effectiveMassIs === 'bare' ? (['headshellMassG'] as const) : []),
    'effectiveLengthMm',
    'armMomentGMm',
    'counterweightMassG',
    'trackingForceMn',
  ]);
  if (why !== null) return { found: false, why };
  type Inputs = 'front' | 'length' | 'moment' | 'weight' | 'force';
  const model = (x: Record<Inputs, number>) =>
    counterweightPosition(
      {
        frontMass: x.front * KG,
        effectiveLength: x.length,
        armMoment: x.moment * KG,
        counterweightMass: x.weight * KG,
      },
      x.force * N,
    );
  const values: Record<Inputs, number> = {
    front: frontMassG(input),
    length: input.effectiveLengthMm!,
    moment: input.armMomentGMm!,
    weight: input.counterweightMassG!,
    force: input.trackingForceMn!,
  };
  const atForceMm = model(values);
  const floatingMm = model({ ...values, force: 0 });
  const { stubFromMm, stubToMm } = input;
  const onStub =
    stubFromMm === undefined || stubToMm === undefined
      ? null
      : stubFromMm <= atForceMm && stubFromMm <= floatingMm && atForceMm <= stubToMm && floatingMm <= stubToMm;
  return {
    found: true,
    place: {
      atForceMm,
      floatingMm,
      onStub,
      uncertaintyMm: expanded<Inputs>(model, {
        front: { value: values.front, standard: massStandardG(input) },
        length: { value: values.length, standard: ASSUMED.lengthMm },
        moment: { value: values.moment, standard: 0 },
        weight: { value: values.weight, standard: values.weight * ASSUMED.counterweightMass },
        force: { value: values.force, standard: values.force * ASSUMED.force },
      }),
    },
  };
}

function reachAdvice(input: MatchInput, place: CounterweightPlace): Advice[] {
  const { stubFromMm: from, stubToMm: to } = input;
  if (place.onStub !== false || from === undefined || to === undefined) return [];
  const far = Math.max(place.floatingMm, place.atForceMm) > to;
  const target = (from + to) / 2;
  const wanted = counterweightMassFor(
    {
      frontMass: frontMassG(input) * KG,
      effectiveLength: input.effectiveLengthMm!,
      armMoment: input.armMomentGMm! * KG,
    },
    0,
    Math.max(1, target),
  );
  if (!wanted.found) {
    return [
      toldAdvice({
        action: 'add-mass',
        amount: null,
        unit: 'g',
        direction: 'at-the-headshell',
        predicts: [],
        reasons: [statement('cannot-balance', { why: wanted.why })],
      }),
    ];
  }
  const grams = wanted.value / KG;
  return [
    toldAdvice({
      action: 'change-counterweight',
      amount: grams,
      unit: 'g',
      direction: far ? 'heavier' : 'lighter',
      predicts: [{ quantity: 'counterweight-position', value: target, unit: 'mm' }],
      reasons: [statement(far ? 'heavier-counterweight' : 'lighter-counterweight', { grams })],
    }),
  ];
}

/** Either place lies nearer to an end of the stub than the uncertainty can tell. */
function nearEnd(
  { stubFromMm, stubToMm }: MatchInput,
  { atForceMm, floatingMm, uncertaintyMm }: CounterweightPlace,
): boolean {
  const [near, far] = [Math.min(atForceMm, floatingMm), Math.max(atForceMm, floatingMm)];
  const close = (end: number | undefined, at: number) => end !== undefined && Math.abs(end - at) < (uncertaintyMm ?? 0);
  return close(stubFromMm, near) || close(stubToMm, far);
}

function reachAnswer(input: MatchInput): MatchAnswer {
  const reach = counterweightReach(input);
  if (!reach.found) return withhold(['counterweight-position'], reach.why);
  const { place } = reach;
  const { stubFromMm, stubToMm } = input;
  const verdict: Verdict = place.onStub === null ? 'info' : place.onStub ? 'good' : 'bad';
  const stub =
    place.onStub === null || stubFromMm === undefined || stubToMm === undefined
      ? [statement('stub-not-known')]
      : [
          statement(place.onStub ? 'stub-holds' : 'stub-too-short', { fromMm: stubFromMm, toMm: stubToMm }),
          ...(nearEnd(input, place) ? [statement('stub-end-near')] : []),
        ];
  return {
    ...emptyAnswer,
    findings: [
      toldFinding(
        {
          quantity: 'counterweight-position',
          value: place.atForceMm,
          unit: 'mm',
          uncertainty: place.uncertaintyMm,
          bands: [],
          notes: [statement('counterweight-place', { floatingMm: place.floatingMm }), ...stub, ...hardwareNotes(input)],
        },
        verdict,
      ),
    ],
    advice: reachAdvice(input, place),
  };
}

/** The arm's own statement of what it carries, where there is one. */
function carriedMass(input: MatchInput): MatchAnswer {
  const { cartridgeMassMinG: least, cartridgeMassMaxG: most, cartridgeMassG } = input;
  if (least === undefined && most === undefined) return emptyAnswer;
  if (cartridgeMassG === undefined) return withhold(['carried-mass'], missing(input, ['cartridgeMassG'])!);
  const value = cartridgeMassG + (input.hardwareMassG ?? 0);
  const inside = (least ?? 0) <= value && value <= (most ?? Number.MAX_VALUE);
  const range =
    most === undefined
      ? statement('carried-mass-from', { leastG: least ?? 0 })
      : statement('carried-mass-from-to', { leastG: least ?? 0, mostG: most });
  return {
    ...emptyAnswer,
    findings: [
      toldFinding(
        {
          quantity: 'carried-mass',
          value,
          unit: 'g',
          uncertainty: 2 * massStandardG(input),
          bands: [],
          notes: [range, ...hardwareNotes(input)],
        },
        inside ? 'good' : 'bad',
      ),
    ],
  };
}

/** The tracking force against the cartridge's range, and where in it to start. */
function forceInRange(input: MatchInput): MatchAnswer {
  const { trackingForceMn: force, trackingForceMinMn: least, trackingForceMaxMn: most } = input;
  if (least === undefined && most === undefined) return emptyAnswer;
  if (least === undefined || most === undefined) {
    return withhold(['tracking-force'], missing(input, ['trackingForceMinMn', 'trackingForceMaxMn'])!);
  }
  const start = startForceMn(least, most, input.trackingForceRecommendedMn);
  const inside = force !== undefined && least <= force && force <= most;
  const wish = input.trackingForceRecommendedMn;
  const passedOver =
    wish === undefined || (least <= wish && wish <= most) ? [] : [statement('recommended-outside', { mn: wish })];
  const finding = toldFinding(
    {
      quantity: 'tracking-force',
      value: force ?? start,
      unit: 'mN',
      uncertainty: (force ?? start) * ASSUMED.force * 2,
      bands: [],
      low: least,
      high: most,
      notes: [
        statement(force === undefined ? 'force-to-start' : 'force-given', { leastMn: least, mostMn: most }),
        ...passedOver,
      ],
    },
    force === undefined ? 'info' : inside ? 'good' : 'bad',
  );
  if (force === undefined || inside) return { ...emptyAnswer, findings: [finding] };
  return {
    ...emptyAnswer,
    findings: [finding],
    advice: [
      toldAdvice({
        action: 'set-force',
        amount: start,
        unit: 'mN',
        direction: null,
        predicts: [{ quantity: 'tracking-force', value: start, unit: 'mN' }],
        reasons: [statement(force < least ? 'force-too-light' : 'force-too-heavy', { mn: force, startMn: start })],
        cautions: [statement('caution-guard-force')],
      }),
    ],
  };
}

/**
 * Where in its range to start: what the maker recommends, else two thirds of the way up (common practice: the upper half
 * tracks better and wears less than too light a force).
 */
export function startForceMn(leastMn: number, mostMn: number, recommendedMn?: number): number {
  if (!(leastMn > 0 && leastMn <= mostMn && mostMn <= 200)) {
    throw new RangeError(
      `the tracking-force range is ${leastMn} to ${mostMn} mN; above 0, lower first, at most 200 was expected`,
    );
  }
  if (recommendedMn !== undefined && leastMn <= recommendedMn && recommendedMn <= mostMn) return recommendedMn;
  return leastMn + ((mostMn - leastMn) * 2) / 3;
}

/** Counterweight, carried mass and tracking force. */
export function matchBalance(input: MatchInput): MatchAnswer {
  const answers = [carriedMass(input), forceInRange(input)];
  const { counterweightMassG, armMomentGMm, stubFromMm, stubToMm } = input;
  const asked = [counterweightMassG, armMomentGMm, stubFromMm, stubToMm].some((figure) => figure !== undefined);
  if (asked) answers.unshift(reachAnswer(input));
  return {
    findings: answers.flatMap((a) => a.findings),
    advice: answers.flatMap((a) => a.advice),
    curves: [],
    problems: answers.flatMap((a) => a.problems),
  };
}
