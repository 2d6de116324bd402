/** Match: where arm and cartridge resonate, as a band, and what would move it. */

import type { Curve } from '../measure/finding.ts';
import { CONVERSION_SPREAD, complianceAt10Hz, type Span } from '../mechanics/compliance.ts';
import { armResonance, complianceForResonance, massForResonance } from '../mechanics/resonance.ts';
import { umPerMnToMPerN } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, type JudgedFinding, toldAdvice, toldFinding, type Verdict } from './document.ts';
import { verdictOn } from './limits.ts';
import { hardwareNotes, massStandardG } from './matchBalance.ts';
import { emptyAnswer, type MatchAnswer, type MatchInput, missing, withhold } from './matchInput.ts';
import { ASSUMED, MAP_CONTOURS, wantedResonance } from './matchLimits.ts';
import { expanded } from './propagate.ts';

/** One direction of the pair: what moves, on what spring, and where that resonates. */
export interface PairResonance {
  readonly massG: number;
  /** µm/mN at 10 Hz */
  readonly compliance: Span;
  /** Hz */
  readonly resonance: Span;
  /** k = 2, Hz */
  readonly uncertainty: number | null;
}

export type Pair =
  | {
      readonly found: true;
      readonly vertical: PairResonance;
      readonly lateral: PairResonance;
      /** the parts state lateral figures of their own */
      readonly apart: boolean;
    }
  | { readonly found: false; readonly why: Statement };

const GRAM = 1e-3;

const resonanceVerdict = (hz: number, { limits }: MatchInput): Verdict =>
  verdictOn({ quantity: 'arm-resonance-vertical', value: hz, unit: 'Hz', uncertainty: null, bands: [] }, limits);

function pairResonance(massG: number, quoted: number, input: MatchInput): PairResonance {
  const basis = input.complianceAt ?? '10hz';
  const compliance = complianceAt10Hz(quoted, basis);
  const hz = (mass: number, c: number) => armResonance(mass * GRAM, umPerMnToMPerN(c));
  const converted = basis === '10hz' ? 0 : CONVERSION_SPREAD / Math.sqrt(3);
  return {
    massG,
    compliance,
    resonance: {
      value: hz(massG, compliance.value),
      low: hz(massG, compliance.high),
      high: hz(massG, compliance.low),
    },
    uncertainty: expanded<'mass' | 'compliance'>((x) => hz(x.mass, x.compliance), {
      mass: { value: massG, standard: massStandardG(input) },
      compliance: {
        value: compliance.value,
        standard: compliance.value * Math.hypot(ASSUMED.compliance, converted),
      },
    }),
  };
}

/** Both directions of the pair; lateral figures default to the vertical ones. */
export function pairOf(input: MatchInput): Pair {
  const why = missing(input, [
    'effectiveMassG',
    ...(input.effectiveMassIs === 'bare' ? (['headshellMassG'] as const) : []),
    'cartridgeMassG',
    'complianceUmPerMn',
    'complianceAt',
  ]);
  if (why !== null) return { found: false, why };
  const front = input.cartridgeMassG! + (input.hardwareMassG ?? 0) + (input.headshellMassG ?? 0);
  const verticalMass = input.effectiveMassG! + front;
  const lateralMass = (input.effectiveMassLateralG ?? input.effectiveMassG!) + front;
  return {
    found: true,
    vertical: pairResonance(verticalMass, input.complianceUmPerMn!, input),
    lateral: pairResonance(lateralMass, input.complianceLateralUmPerMn ?? input.complianceUmPerMn!, input),
    apart: input.effectiveMassLateralG !== undefined || input.complianceLateralUmPerMn !== undefined,
  };
}

/** A part that could be fitted instead, and where the pair would resonate then. */
export interface ResonanceOption {
  readonly name: string;
  readonly kind: 'hardware' | 'headshell';
  readonly massG: number;
  /** total moving mass with it */
  readonly totalG: number;
  readonly resonance: Span;
  readonly verdict: Verdict;
}

/**
 * What other hardware or headshells would make of the resonance, nearest to the middle of the wanted band first.
 *
 * @param options each replaces the hardware or the headshell that is on; a headshell inside the arm's effective mass
 *   (none stated apart) is taken as the arm's own and cannot be exchanged here
 */
export function resonanceOptions(
  input: MatchInput,
  options: readonly { readonly name: string; readonly kind: 'hardware' | 'headshell'; readonly massG: number }[],
): readonly ResonanceOption[] {
  const { middle } = wantedResonance(input.limits);
  const distance = (hz: number): number => Math.abs(Math.log(hz / middle));
  return options
    .flatMap((option) => {
      if (option.kind === 'headshell' && input.headshellMassG === undefined) return [];
      const key = option.kind === 'hardware' ? 'hardwareMassG' : 'headshellMassG';
      const pair = pairOf({ ...input, [key]: option.massG });
      if (!pair.found) return [];
      const { massG: totalG, resonance } = pair.vertical;
      return [{ ...option, totalG, resonance, verdict: resonanceVerdict(resonance.value, input) }];
    })
    .sort((a, b) => distance(a.resonance.value) - distance(b.resonance.value));
}

/** The map of mass against compliance: lines of equal resonance, and this pair as a region on it. */
export interface MassComplianceMap {
  readonly contours: readonly {
    readonly hz: number;
    readonly compliance: readonly number[];
    readonly massG: readonly number[];
  }[];
  readonly pair: {
    readonly compliance: Span;
    /** total mass with its k = 2 spread, g */
    readonly mass: Span;
  } | null;
}

/**
 * @param span what the map shows; µm/mN and g
 */
export function massComplianceMap(
  input: MatchInput,
  span = { complianceFrom: 4, complianceTo: 50, massFrom: 4, massTo: 60 },
): MassComplianceMap {
  const contours = MAP_CONTOURS.map((hz) => {
    const points: { c: number; m: number }[] = [];
    // a contour leaves the map through its top or left edge and its bottom or right edge: cut it there exactly
    const cAtTop = complianceForResonance(hz, span.massTo * GRAM) * 1e3;
    const cAtBottom = complianceForResonance(hz, span.massFrom * GRAM) * 1e3;
    const from = Math.max(span.complianceFrom, cAtTop);
    const to = Math.min(span.complianceTo, cAtBottom);
    if (from < to) {
      const steps = 40;
      for (let i = 0; i <= steps; i++) {
        const c = from * (to / from) ** (i / steps);
        points.push({ c, m: massForResonance(hz, umPerMnToMPerN(c)) / GRAM });
      }
    }
    return { hz, compliance: points.map((p) => p.c), massG: points.map((p) => p.m) };
  });
  const pair = pairOf(input);
  if (!pair.found) return { contours, pair: null };
  const { massG, compliance } = pair.vertical;
  const spread = Math.min(2 * ASSUMED.massG, massG / 2);
  return { contours, pair: { compliance, mass: { value: massG, low: massG - spread, high: massG + spread } } };
}

function notesOf(pair: PairResonance, input: MatchInput): Statement[] {
  const { resonance, compliance, massG } = pair;
  const notes = [statement('mass-on-spring', { massG, compliance: compliance.value })];
  if (input.complianceAt !== '10hz') {
    const basis = input.complianceAt === 'static' ? 'static' : '100 Hz';
    notes.push(statement('compliance-converted', { basis, low: resonance.low, high: resonance.high }));
  }
  return [...notes, ...hardwareNotes(input)];
}

function finding(
  quantity: string,
  pair: PairResonance,
  input: MatchInput,
  more: readonly Statement[] = [],
): JudgedFinding {
  const { value, low, high } = pair.resonance;
  const verdict = resonanceVerdict(value, input);
  const { from, to } = wantedResonance(input.limits);
  const where = value < from ? 'resonance-under' : value > to ? 'resonance-over' : 'resonance-within';
  const open = verdict === 'good' && !(from <= low && high <= to) ? [statement('resonance-spread')] : [];
  const notes = [...notesOf(pair, input), ...more, statement(where, { from, to }), ...open];
  return toldFinding(
    { quantity, value, unit: 'Hz', uncertainty: pair.uncertainty, bands: [], low, high, notes },
    verdict,
  );
}

/** What to do about a resonance outside what is wanted; empty inside. `which` names it in sentences and predictions. */
function adviceFor(
  pair: PairResonance,
  input: MatchInput,
  which: { readonly says: string; readonly quantity: string } = { says: 'The resonance', quantity: 'arm-resonance' },
): Advice[] {
  const { from, aimFromBelow, middle, aimFromAbove, to } = wantedResonance(input.limits);
  const hz = pair.resonance.value;
  if (from <= hz && hz <= to) return [];
  const massAt = (target: number) => massForResonance(target, umPerMnToMPerN(pair.compliance.value)) / GRAM;
  const predicts = (value: number) => [{ quantity: which.quantity, value, unit: 'Hz' }];
  if (hz > to) {
    const least = massAt(to) - pair.massG;
    const amount = massAt(aimFromAbove) - pair.massG;
    return [
      toldAdvice({
        action: 'add-mass',
        amount,
        unit: 'g',
        direction: 'at-the-headshell',
        predicts: predicts(aimFromAbove),
        reasons: [
          statement('resonance-near-music', { which: which.says, hz }),
          statement('add-mass', { amountG: amount, targetHz: aimFromAbove, leastG: least, limitHz: to }),
        ],
      }),
    ];
  }
  const removable = (input.hardwareMassG ?? 0) + (input.headshellMassG ?? 0);
  const target = [aimFromBelow, from].find((aim) => pair.massG - massAt(aim) < removable);
  if (target === undefined) {
    const least = pair.massG - massAt(from);
    return [
      toldAdvice({
        action: 'other-arm',
        amount: null,
        unit: 'g',
        direction: null,
        predicts: predicts(from),
        reasons: [
          statement('resonance-near-warps', { which: which.says, hz }),
          statement('other-arm', {
            leastG: least,
            removableG: removable,
            compliance: complianceForResonance(middle, pair.massG * GRAM) * 1e3,
          }),
        ],
      }),
    ];
  }
  const amount = pair.massG - massAt(target);
  return [
    toldAdvice({
      action: 'remove-mass',
      amount,
      unit: 'g',
      direction: 'at-the-headshell',
      predicts: predicts(target),
      reasons: [
        statement('resonance-near-warps', { which: which.says, hz }),
        statement('remove-mass', { amountG: amount, targetHz: target }),
      ],
    }),
  ];
}

/** A change of mass for the lateral resonance's sake, with what it makes of the vertical one. */
const withVertical =
  (vertical: PairResonance) =>
  (advice: Advice): Advice => {
    if (advice.amount === null) return advice;
    const massG = vertical.massG + (advice.action === 'add-mass' ? advice.amount : -advice.amount);
    const value = vertical.resonance.value * Math.sqrt(vertical.massG / massG);
    return toldAdvice({
      ...advice,
      predicts: [...advice.predicts, { quantity: 'arm-resonance-vertical', value, unit: 'Hz' }],
      reasons: [...(advice.reasons ?? []), statement('vertical-follows', { hz: value })],
    });
  };

const contourCurves = (input: MatchInput): Curve[] =>
  massComplianceMap(input).contours.map(({ hz, compliance, massG }) => ({
    quantity: `resonance-${hz}hz`,
    x: compliance,
    y: massG,
    xUnit: 'µm/mN',
    yUnit: 'g',
  }));

/** Findings `arm-resonance`, and both directions apart where the parts state them apart. */
export function matchResonance(input: MatchInput): MatchAnswer {
  const pair = pairOf(input);
  if (!pair.found) return withhold(['arm-resonance'], pair.why);
  const { vertical, lateral, apart } = pair;
  const both = apart ? [] : [statement('resonance-both-ways')];
  const findings = [finding('arm-resonance', vertical, input, both)];
  const advice = adviceFor(vertical, input);
  if (apart) {
    findings.push(finding('arm-resonance-lateral', lateral, input));
    findings.push(finding('arm-resonance-vertical', vertical, input));
    // what is done at the headshell moves both: the lateral one asks for itself only where the vertical one is content
    const lateralOnly = { says: 'The lateral resonance', quantity: 'arm-resonance-lateral' };
    if (advice.length === 0) advice.push(...adviceFor(lateral, input, lateralOnly).map(withVertical(vertical)));
  }
  return { ...emptyAnswer, findings, advice, curves: contourCurves(input) };
}
