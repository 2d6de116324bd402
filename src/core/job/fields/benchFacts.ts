/**
 * What is known of arm, cartridge and hardware at a station: typed there, else at another station, else weighed or worked
 * out at Fit, else as Place has found the arm, else as Match has it, typed or from the parts picked. Everything is read from what was typed each time it is
 * asked for; nothing that follows from it is stored.
 */
import type { MatchInput } from '../../advise/matchInput.ts';
import { type StationName, stationTitles } from '../station.ts';
import type { HardwareFound } from '../stations/fit/fitData.ts';
import { hardwareForWeigh } from '../stations/fit/hardwareFound.ts';
import type { FitTyped } from '../stations/fit.ts';
import { type MatchData, type MatchReading, readMatch } from '../stations/match/matchData.ts';
import { armFacts, isPlaceBegun } from '../stations/place/armFacts.ts';
import type { KnownElsewhere } from '../stations/place/armRequest.ts';
import type { PlaceTyped } from '../stations/place.ts';
import { type FactName, factFields, factNames } from './factFields.ts';
import type { ForceUnit } from './force.ts';
import { type ReadQuantity, readQuantity } from './quantity.ts';

/** What the stations keep, as it was typed; what is not there was not typed. */
export type StationsTyped = Readonly<Partial<Record<StationName, object>>>;

export type TypedFacts = Readonly<Partial<Record<FactName, string>>>;

export interface Known {
  readonly value: number;
  /** k = 2, where one was typed with it */
  readonly uncertainty?: number;
  /** "typed here", "typed at Weigh", "from Fit", "as read at Place", "from Match" */
  readonly from: string;
}

export type Facts = Readonly<Partial<Record<FactName, Known>>>;

/** Texts typed at one station, the strongest first. */
interface Layer {
  readonly typed: TypedFacts;
  readonly forceUnit: ForceUnit;
  readonly from: string;
}

export interface Bench {
  readonly facts: Facts;
  /** what stands in a field's place while nothing is typed there */
  behind(name: FactName): Known | null;
  readonly match: MatchReading;
}

interface TypedAt {
  readonly facts?: TypedFacts;
  readonly forceUnit?: ForceUnit;
  readonly arm?: {
    readonly known?: string;
    readonly spindleToPivot?: string;
    readonly effectiveLength?: string;
  };
}

/** Stations that ask for facts, the one that measures them first. */
const asking = ['place', 'weigh', 'height'] as const satisfies readonly StationName[];

function typedAt(station: (typeof asking)[number], stations: StationsTyped): TypedFacts {
  const data = (stations[station] ?? {}) as TypedAt;
  if (station !== 'place') return data.facts ?? {};
  const { known = 'spindle-to-pivot', spindleToPivot, effectiveLength } = data.arm ?? {};
  return {
    ...(known === 'spindle-to-pivot' && spindleToPivot !== undefined ? { spindleToPivotMm: spindleToPivot } : {}),
    ...(known === 'effective-length' && effectiveLength !== undefined ? { effectiveLengthMm: effectiveLength } : {}),
  };
}

function layersFor(at: StationName, stations: StationsTyped): readonly Layer[] {
  const forceUnit = ((stations.weigh ?? {}) as TypedAt).forceUnit ?? 'g';
  const own = asking.filter((station) => station === at);
  const others = asking.filter((station) => station !== at);
  return [...own, ...others].map((station) => ({
    typed: typedAt(station, stations),
    forceUnit,
    from: station === at ? 'typed here' : `typed at ${stationTitles[station].title}`,
  }));
}

const ofMatch: Readonly<Partial<Record<FactName, (match: MatchReading) => number | undefined>>> = {
  verticalAngleDeg: ({ chosen }) => chosen.cartridge?.verticalAngleDeg,
  offsetDeg: ({ chosen }) => chosen.arm?.offsetDeg,
  threadPitchMm: ({ chosen }) => chosen.arm?.threadPitchMm,
  dialPerTurnMn: ({ chosen }) => chosen.arm?.dialPerTurnMn,
  movingMassG: ({ chosen }) => chosen.arm?.movingMassG,
  centreBelowPivotMm: ({ chosen }) => chosen.arm?.centreBelowPivotMm,
  pivotAboveTipMm: ({ chosen }) => chosen.arm?.pivotAboveTipMm,
};

const readFact = (name: FactName, text: string | undefined, forceUnit: ForceUnit): ReadQuantity =>
  readQuantity(text, factFields[name], factFields[name].unit === 'mN' ? forceUnit : undefined);

/** What is worked out of the other stations, each asked for only where it is needed. */
interface WorkedOut {
  readonly match: MatchReading;
  readonly hardware: HardwareFound | null;
  /** the arm that Place has found; null where it has none */
  place(): ReturnType<typeof armFacts>;
  /** Place's answer goes before what Match has */
  readonly isPlaceBegun: boolean;
}

function readOne(name: FactName, layers: readonly Layer[], worked: WorkedOut): Known | null {
  const { match, hardware } = worked;
  for (const { typed, forceUnit, from } of layers) {
    const read = readFact(name, typed[name], forceUnit);
    if ('value' in read) return { ...read, from };
    // what was typed and cannot be used is left out, not replaced
    if ('wrong' in read) return null;
  }
  if (name === 'hardwareMassG' && hardware !== null) return { value: hardware.massG, from: 'from Fit' };
  const ofPlace = () =>
    name === 'offsetDeg' || name === 'effectiveLengthMm' ? (worked.place()?.[name] ?? null) : null;
  const value = ofMatch[name]?.(match) ?? match.input[name as keyof MatchInput];
  const fromMatch = typeof value === 'number' ? { value, from: 'from Match' } : null;
  return worked.isPlaceBegun ? (ofPlace() ?? fromMatch) : (fromMatch ?? ofPlace());
}

/** Where the arm is asked about as it is set; at Place itself and before it, its answer would be its own question. */
const afterPlace: readonly StationName[] = ['height', 'tilt', 'run', 'hand-over'];

/** @param at the station that asks */
export function benchAt(at: StationName, stations: StationsTyped): Bench {
  const match = readMatch((stations.match ?? {}) as Partial<MatchData>);
  const hardware = hardwareForWeigh((stations.fit ?? {}) as FitTyped, match.chosen);
  const layers = layersFor(at, stations);
  const isOwn = layers[0]?.from === 'typed here';
  const typedAtPlace = (stations.place ?? {}) as PlaceTyped;
  const usesPlace = afterPlace.includes(at);
  const worked: WorkedOut = {
    match,
    hardware,
    place: () => (usesPlace ? armFacts(typedAtPlace, knownElsewhere(stations)) : null),
    isPlaceBegun: usesPlace && isPlaceBegun(typedAtPlace),
  };
  const facts = Object.fromEntries(
    factNames.flatMap((name) => {
      const known = readOne(name, layers, worked);
      return known === null ? [] : [[name, known]];
    }),
  ) as Facts;
  return {
    facts,
    behind: (name) => readOne(name, isOwn ? layers.slice(1) : layers, worked),
    match,
  };
}

/** What the other stations know of the arm, for Place. */
export function knownElsewhere(stations: StationsTyped): KnownElsewhere {
  const { behind } = benchAt('place', stations);
  const [pivot, length] = [behind('spindleToPivotMm'), behind('effectiveLengthMm')];
  return {
    ...(pivot === null ? {} : { spindleToPivotMm: pivot.value }),
    ...(length === null ? {} : { effectiveLengthMm: length.value }),
  };
}

/** Values alone, for functions that ask for figures by these names. */
export const figuresOf = (facts: Facts): Readonly<Partial<Record<FactName, number>>> =>
  Object.fromEntries(Object.entries(facts).map(([name, known]) => [name, known.value]));

const asMatchHasThem = [
  'cartridgeMassG',
  'hardwareMassG',
  'trackingForceMinMn',
  'trackingForceMaxMn',
  'trackingForceRecommendedMn',
  'effectiveLengthMm',
  'spindleToPivotMm',
  'counterweightMassG',
  'armMomentGMm',
  'stubFromMm',
  'stubToMm',
] as const satisfies readonly (FactName & keyof MatchInput)[];

/** The figures as Match's own functions take them; a figure that was typed and cannot be used is not there. */
export function inputOf(facts: Facts, match: MatchReading): MatchInput {
  const { trackingForceMn: _, ...rest } = match.input;
  const kept = Object.fromEntries(Object.entries(rest).filter(([name]) => !(name in factFields)));
  const known = asMatchHasThem.flatMap((name) => {
    const fact = facts[name];
    return fact === undefined ? [] : [[name, fact.value]];
  });
  return { ...kept, ...Object.fromEntries(known) };
}
