/** Range, start, target, and the counterweight's way to it; every figure is the core's. */
import type { JudgedFinding } from '../../../advise/document.ts';
import { type CounterweightPlace, counterweightReach, matchBalance } from '../../../advise/matchBalance.ts';
import type { MatchInput } from '../../../advise/matchInput.ts';
import { ASSUMED } from '../../../advise/matchLimits.ts';
import { expanded } from '../../../advise/propagate.ts';
import { type CounterweightPlan, counterweightPlan, type ForceStart, forceStart } from '../../../advise/weigh.ts';
import { armMomentFromFloat } from '../../../mechanics/counterweight.ts';
import { type Facts, inputOf, type Known } from '../../fields/benchFacts.ts';
import { readQuantity } from '../../fields/quantity.ts';
import { type Answer, ask, flat, none, notKnown, unusable } from '../answer.ts';
import type { MatchReading } from '../match/matchData.ts';
import type { WeighTyped } from '../weigh.ts';
import { forceFields, weighFields } from './weighData.ts';

/** Where in the range to start; why not where the range is not known. */
export function startOf(facts: Facts, temperatureText: string | undefined): Answer<ForceStart> {
  const least = facts.trackingForceMinMn?.value;
  const most = facts.trackingForceMaxMn?.value;
  if (least === undefined || most === undefined) {
    const end = most !== undefined ? 'least ' : least !== undefined ? 'largest ' : '';
    return none(notKnown([`the ${end}tracking force that the cartridge’s maker states`]));
  }
  const temperature = readQuantity(temperatureText, weighFields.temperature);
  return ask(() =>
    forceStart(
      least,
      most,
      facts.trackingForceRecommendedMn?.value,
      'value' in temperature ? temperature.value : undefined,
    ),
  );
}

export interface Target {
  readonly mn: number;
  readonly from: 'typed' | 'start';
}

/** The force aimed at: typed, else where the range says to start. A target that cannot be used is no target. */
export function targetOf(data: WeighTyped, start: Answer<ForceStart>): Target | null {
  const typed = readQuantity(data.target, forceFields.target, data.forceUnit ?? 'g');
  if ('value' in typed) return { mn: typed.value, from: 'typed' };
  if ('wrong' in typed || !start.found) return null;
  return { mn: start.value.start.mn, from: 'start' };
}

export interface Spread {
  readonly value: number;
  /** k = 2; null where none can be given */
  readonly uncertainty: number | null;
}

export interface Travel {
  readonly plan: CounterweightPlan;
  readonly forwardMm: Spread;
  readonly turns: Spread | null;
  readonly perMmMn: Spread;
  readonly perTurnMn: Spread | null;
  readonly dialErrorPercent: Spread | null;
}

/** As typed with the figure (k = 2), else as assumed. */
export const standardOf = ({ uncertainty }: Known, assumed: number): number =>
  uncertainty === undefined ? assumed : uncertainty / 2;

type Inputs = 'mass' | 'length' | 'from';

/**
 * The counterweight's way from one force to another, each figure with what mass, length and the force now leave open.
 *
 * @param from mN with its k = 2 uncertainty; 0 without one for a floating arm
 */
export function travelOf(facts: Facts, from: Spread, targetMn: number): Answer<Travel> {
  const { counterweightMassG: mass, effectiveLengthMm: length, threadPitchMm, dialPerTurnMn } = facts;
  if (mass === undefined || length === undefined) {
    return none(
      notKnown([
        ...(mass === undefined ? ['the counterweight’s mass'] : []),
        ...(length === undefined ? ['the effective length'] : []),
      ]),
    );
  }
  const planFor = (x: Readonly<Record<Inputs, number>>) =>
    counterweightPlan({
      counterweightMassG: x.mass,
      effectiveLengthMm: x.length,
      fromMn: x.from,
      targetMn,
      threadPitchMm: threadPitchMm?.value,
      dialPerTurnMn: dialPerTurnMn?.value,
    });
  const inputs = {
    mass: { value: mass.value, standard: standardOf(mass, mass.value * ASSUMED.counterweightMass) },
    length: { value: length.value, standard: standardOf(length, ASSUMED.lengthMm) },
    from: { value: from.value, standard: (from.uncertainty ?? 0) / 2 },
  };
  return ask(() => {
    const plan = planFor({ mass: mass.value, length: length.value, from: from.value });
    const spread = (figure: (plan: CounterweightPlan) => number | null | undefined): Spread | null => {
      const value = figure(plan);
      if (value === null || value === undefined) return null;
      return { value, uncertainty: expanded<Inputs>((x) => figure(planFor(x)) ?? Number.NaN, inputs) };
    };
    const always = (figure: (plan: CounterweightPlan) => number): Spread => ({
      value: figure(plan),
      uncertainty: expanded<Inputs>((x) => figure(planFor(x)), inputs),
    });
    return {
      plan,
      forwardMm: always((p) => p.forwardMm),
      turns: spread((p) => p.turns),
      perMmMn: always((p) => p.perMm.mn),
      perTurnMn: spread((p) => p.perTurn?.mn),
      dialErrorPercent: spread((p) => p.dialErrorPercent),
    };
  });
}

export interface Stand {
  readonly place: CounterweightPlace;
  readonly findings: readonly JudgedFinding[];
  /** what would help where it does not reach, as full sentences */
  readonly helps: readonly string[];
}

/** The figures with the arm's own moment: as stated, or from where this arm was found to float. */
function balanceInput(
  facts: Facts,
  match: MatchReading,
  floatsAtText: string | undefined,
  targetMn: number,
): Answer<MatchInput> {
  const input: MatchInput = { ...inputOf(facts, match), trackingForceMn: targetMn };
  const float = readQuantity(floatsAtText, weighFields.floatsAt);
  if ('wrong' in float) return unusable('the place where the arm floats');
  if ('empty' in float) return { found: true, value: input };
  const { cartridgeMassG, hardwareMassG = 0, headshellMassG = 0, effectiveLengthMm, counterweightMassG } = input;
  if (cartridgeMassG === undefined || effectiveLengthMm === undefined || counterweightMassG === undefined) {
    return none(
      notKnown([
        ...(cartridgeMassG === undefined ? ['the cartridge’s mass'] : []),
        ...(effectiveLengthMm === undefined ? ['the effective length'] : []),
        ...(counterweightMassG === undefined ? ['the counterweight’s mass'] : []),
      ]),
    );
  }
  return ask(() => ({
    ...input,
    armMomentGMm:
      1e3 *
      armMomentFromFloat(
        {
          frontMass: 1e-3 * (cartridgeMassG + hardwareMassG + headshellMassG),
          effectiveLength: effectiveLengthMm,
          counterweightMass: 1e-3 * counterweightMassG,
        },
        float.value,
      ),
  }));
}

/** Where the counterweight is floating and at the force, and whether its stub holds it there. */
export function standOf(
  facts: Facts,
  match: MatchReading,
  floatsAtText: string | undefined,
  targetMn: number,
): Answer<Stand> {
  const input = balanceInput(facts, match, floatsAtText, targetMn);
  if (!input.found) return input;
  return flat(
    ask((): Answer<Stand> => {
      const reach = counterweightReach(input.value);
      if (!reach.found) return none(reach.why);
      const { findings, advice } = matchBalance(input.value);
      return {
        found: true,
        value: {
          place: reach.place,
          findings: findings.filter(({ quantity }) => quantity !== 'tracking-force'),
          helps: advice.filter(({ action }) => action !== 'set-force').map(({ why }) => why),
        },
      };
    }),
  );
}
