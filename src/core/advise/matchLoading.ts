/** Match: what cable and input do to the top of the response, and the capacitance that suits. */
import {
  AUDIO_SPAN,
  deviationWithin,
  type FlatCapacitance,
  flattestCapacitance,
  flattestLoads,
  logFrequencies,
} from '../electrics/flattestLoad.ts';
import { type CoilAndLoad, loadCorner, loadPeak, loadResponseDb } from '../electrics/loading.ts';
import { reflectedLoad, seenFromInput } from '../electrics/stepUp.ts';
import type { Curve, Finding } from '../measure/finding.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, type JudgedFinding, toldAdvice, toldFinding } from './document.ts';
import { DEFAULT_LIMITS, judgeForecast } from './limits.ts';
import { emptyAnswer, type MatchAnswer, type MatchInput, missing, withhold } from './matchInput.ts';
import { ASSUMED } from './matchLimits.ts';
import { expanded, type Uncertain } from './propagate.ts';

type Element = keyof CoilAndLoad;

/** The network as the input sees it, or what is missing of it. */
export function networkOf(
  input: MatchInput,
): { readonly found: true; readonly network: CoilAndLoad } | { readonly found: false; readonly why: Statement } {
  const why = missing(input, ['coilResistanceOhm', 'coilInductanceMh', 'loadResistanceOhm', 'loadCapacitancePf']);
  if (why !== null) return { found: false, why };
  const coil: CoilAndLoad = {
    coilResistance: input.coilResistanceOhm!,
    coilInductance: input.coilInductanceMh! * 1e-3,
    loadResistance: input.loadResistanceOhm!,
    loadCapacitance: input.loadCapacitancePf! * 1e-12,
  };
  return { found: true, network: seenFromInput(coil, input.stepUp ?? 1) };
}

/** The network's elements with the uncertainties that are taken for them. */
export const uncertainNetwork = (network: CoilAndLoad): Record<Element, Uncertain> => ({
  coilResistance: { value: network.coilResistance, standard: network.coilResistance * ASSUMED.coilResistance },
  coilInductance: { value: network.coilInductance, standard: network.coilInductance * ASSUMED.coilInductance },
  loadResistance: { value: network.loadResistance, standard: network.loadResistance * ASSUMED.loadResistance },
  loadCapacitance: { value: network.loadCapacitance, standard: network.loadCapacitance * ASSUMED.loadCapacitance },
});

/** Response over frequency, dB re 1 kHz, for drawing. */
function loadCurve(network: CoilAndLoad, quantity: string, points = 121): Curve {
  const x = logFrequencies({ fromHz: 20, toHz: 50000 }, points);
  return { quantity, x, y: x.map((f) => loadResponseDb(network, f)), xUnit: 'Hz', yUnit: 'dB' };
}

/** Responses for several resistances and capacitances, for the picture of R and C. */
export function loadFamily(
  network: CoilAndLoad,
  resistances: readonly number[],
  capacitancesPf: readonly number[],
): readonly { readonly resistance: number; readonly capacitancePf: number; readonly curve: Curve }[] {
  return resistances.flatMap((resistance) =>
    capacitancesPf.map((capacitancePf) => ({
      resistance,
      capacitancePf,
      curve: loadCurve(
        { ...network, loadResistance: resistance, loadCapacitance: capacitancePf * 1e-12 },
        'load-response',
      ),
    })),
  );
}

/** What a bench may choose for this coil: the best capacitance with this cable, and the flattest of several resistances. */
export interface LoadChoices {
  /** dB, largest departure from 1 kHz within 20 Hz to 20 kHz, as it stands */
  readonly nowDb: number;
  /** the flattest that adding capacitance to what is there can reach */
  readonly withThisCable: FlatCapacitance;
  /** the flattest of all, capacitance free */
  readonly free: FlatCapacitance;
  readonly resistances: readonly (FlatCapacitance & { readonly resistance: number })[];
}

/** Resistances that a preamp or a plug may offer, Ω. */
export const OFFERED_RESISTANCES = [33000, 47000, 68000, 100000] as const;

export function loadChoices(network: CoilAndLoad, resistances: readonly number[] = OFFERED_RESISTANCES): LoadChoices {
  return {
    nowDb: deviationWithin(network),
    withThisCable: flattestCapacitance(network, network.loadCapacitance),
    free: flattestCapacitance(network, 0),
    resistances: flattestLoads(network, network.loadCapacitance, resistances),
  };
}

/**
 * The maker's range for the capacitance decides. Without one the electrical response is information: its roll-off is part of the
 * cartridge's design.
 */
function byMakersWish(finding: Finding, input: MatchInput): JudgedFinding {
  const { wantedCapacitanceMinPf: least, wantedCapacitanceMaxPf: most, loadCapacitancePf: now } = input;
  if (now === undefined || (least === undefined && most === undefined)) return toldFinding(finding, 'info');
  const kept = (least ?? 0) <= now && now <= (most ?? Number.MAX_VALUE);
  const wish =
    least === undefined
      ? statement('judged-by-maker-most', { mostPf: most as number, nowPf: now })
      : most === undefined
        ? statement('judged-by-maker-least', { leastPf: least, nowPf: now })
        : statement('judged-by-maker-range', { leastPf: least, mostPf: most, nowPf: now });
  return toldFinding({ ...finding, notes: [...finding.notes, wish] }, kept ? 'good' : 'adjust');
}

function figures(network: CoilAndLoad, input: MatchInput): JudgedFinding[] {
  const inputs = uncertainNetwork(network);
  const peak = loadPeak(network);
  const findings: JudgedFinding[] = [];
  const add = (
    quantity: string,
    value: number,
    unit: string,
    model: (n: CoilAndLoad) => number,
    notes: readonly Statement[],
    judged = true,
  ) => {
    const uncertainty = expanded<Element>(model, inputs);
    const none = uncertainty === null ? [statement('tolerance-hides-it')] : [];
    const finding = { quantity, value, unit, uncertainty, bands: [], notes: [...notes, ...none] };
    findings.push(judged ? byMakersWish(finding, input) : toldFinding(finding, 'info'));
  };
  const peakIn = (part: 'frequency' | 'level') => (n: CoilAndLoad) => {
    const one = loadPeak(n);
    return one.found ? one.value[part] : Number.NaN;
  };
  if (peak.found) {
    const { frequency, level } = peak.value;
    const heard = frequency <= AUDIO_SPAN.toHz;
    const place = heard ? [] : [statement('peak-above-hearing')];
    add('load-peak', level, 'dB', peakIn('level'), [statement('peak-re-1khz'), ...place], heard);
    add('load-peak-frequency', frequency, 'Hz', peakIn('frequency'), [statement('peak-place')]);
  }
  const at20k = (n: CoilAndLoad) => loadResponseDb(n, 20000);
  const noPeak = peak.found ? [] : [statement('no-electrical-peak', { why: peak.why })];
  const notes = [statement('response-re-1khz'), statement('electrical-only'), ...noPeak];
  add('load-deviation-20khz', at20k(network), 'dB', at20k, notes);
  const corner = loadCorner(network);
  if (corner.found) {
    const cornerOf = (n: CoilAndLoad) => {
      const one = loadCorner(n);
      return one.found ? one.value : Number.NaN;
    };
    add('load-corner', corner.value, 'Hz', cornerOf, [statement('corner-3db')]);
  }
  return findings;
}

/** Only what the maker asks for is advised: the electrical roll-off is part of the cartridge's design, and flat electrically is not flat. */
function capacitanceAdvice(input: MatchInput, network: CoilAndLoad): Advice[] {
  const now = network.loadCapacitance * 1e12;
  const { wantedCapacitanceMinPf: least, wantedCapacitanceMaxPf: most } = input;
  const predict = (pf: number) => [
    {
      quantity: 'load-deviation-20khz',
      value: loadResponseDb({ ...network, loadCapacitance: pf * 1e-12 }, 20000),
      unit: 'dB',
    },
  ];
  const change = (target: number, ...reasons: Statement[]): Advice =>
    toldAdvice({
      action: 'set-load-capacitance',
      amount: Math.abs(target - now),
      unit: 'pF',
      direction: target > now ? 'add' : 'remove',
      predicts: predict(target),
      reasons,
      cautions: [statement('caution-leads')],
    });
  if (least !== undefined && now < least) {
    return [change(least, statement('add-capacitance', { nowPf: now, leastPf: least }))];
  }
  if (most !== undefined && now > most) {
    return [change(most, statement('remove-capacitance', { nowPf: now, mostPf: most }))];
  }
  return [];
}

/** Step-up: the load that the coil sees. */
function coilLoad(input: MatchInput): JudgedFinding[] {
  const ratio = input.stepUp ?? 1;
  if (input.loadResistanceOhm === undefined) return [];
  if (ratio === 1 && input.principle !== 'moving-coil') return [];
  const seen = reflectedLoad(input.loadResistanceOhm, (input.loadCapacitancePf ?? 0) * 1e-12, ratio);
  const nf = seen.capacitance * 1e9;
  const pf =
    input.loadCapacitancePf === undefined
      ? ''
      : ` and ${nf < 1 ? `${(nf * 1e3).toFixed(0)} pF` : `${nf.toPrecision(3)} nF`}`;
  const load = `${seen.resistance.toFixed(0)} Ω${pf}`;
  const sees = ratio === 1 ? statement('coil-sees', { load }) : statement('coil-sees-through', { load, ratio });
  const asked = input.wantedLoadOhm;
  const findings: JudgedFinding[] = [
    toldFinding(
      {
        quantity: 'load-at-coil',
        value: seen.resistance,
        unit: 'Ω',
        uncertainty: 2 * seen.resistance * ASSUMED.loadResistance,
        bands: [],
        notes: [sees, ...(asked === undefined ? [] : [statement('maker-asks-load', { ohm: asked })])],
      },
      'info',
    ),
  ];
  if (input.coilResistanceOhm !== undefined) {
    const value = seen.resistance / input.coilResistanceOhm;
    const loss = 20 * Math.log10(1 + 1 / value);
    const quoted = loss < 0.1 || input.outputMv === undefined ? [] : [statement('output-under-load')];
    findings.push(
      judgeForecast(
        {
          quantity: 'load-over-coil',
          value,
          unit: '',
          uncertainty: 2 * value * Math.hypot(ASSUMED.loadResistance, ASSUMED.coilResistance),
          bands: [],
          notes: [statement('load-loss', { lossDb: loss }), ...quoted],
        },
        input.limits ?? DEFAULT_LIMITS,
      ),
    );
  }
  return findings;
}

/** `load-peak`, `load-peak-frequency`, `load-deviation-20khz`, the corner, and for moving coils what the coil sees. */
export function matchLoading(input: MatchInput): MatchAnswer {
  const known = networkOf(input);
  if (!known.found) {
    const withheld = withhold(['load-peak', 'load-peak-frequency', 'load-deviation-20khz'], known.why);
    return { ...withheld, findings: coilLoad(input) };
  }
  const { network } = known;
  return {
    ...emptyAnswer,
    findings: [...figures(network, input), ...coilLoad(input)],
    advice: capacitanceAdvice(input, network),
    curves: [loadCurve(network, 'load-response')],
  };
}
