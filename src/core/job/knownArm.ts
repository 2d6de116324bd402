/** What the stations together know of arm and cartridge, as far as the sizes of a move's effects need it. */
import type { BearingSquareTo } from '../mechanics/armHeight.ts';
import type { StationState } from './api.ts';
import { benchAt, knownElsewhere } from './fields/benchFacts.ts';
import { type StationName, stationNames } from './station.ts';
import { bearingOf } from './stations/height/heightAnswers.ts';
import type { HeightTyped } from './stations/height.ts';
import { solved } from './stations/place/solved.ts';
import type { PlaceTyped } from './stations/place.ts';

/** What is not known is not there. */
export interface KnownArm {
  readonly effectiveLengthMm?: number;
  readonly spindleToPivotMm?: number;
  readonly offsetDeg?: number;
  /** what the vertical bearing's axis is square to */
  readonly bearing?: BearingSquareTo;
  /** cartridge, screws, nuts, spacer */
  readonly slidingMassG?: number;
  readonly forceMn?: number;
  /** at rest */
  readonly complianceUmPerMn?: number;
  readonly movingMassG?: number;
  readonly centreBelowPivotMm?: number;
  readonly pivotAboveTipMm?: number;
  readonly threadPitchMm?: number;
}

/** At rest over as quoted; the rule that core/mechanics/compliance has its source for. */
const atRest = { static: 1, '10hz': 2, '100hz': 4 } as const;

const lastForce = (data: Readonly<Record<string, unknown>>): number | undefined => {
  const sets = Array.isArray(data.sets) ? (data.sets as readonly unknown[]) : [];
  const last = sets.at(-1) as { mn?: unknown } | undefined;
  return typeof last?.mn === 'number' && last.mn > 0 ? last.mn : undefined;
};

/** @param stations their data as stored; what cannot be read is not known */
export function knownArm(stations: Readonly<Record<StationName, Pick<StationState, 'data'>>>): KnownArm {
  const data = Object.fromEntries(stationNames.map((name) => [name, stations[name].data]));
  const { facts, match } = benchAt('hand-over', data);
  const { chosen, input } = match;
  const place = solved(stations.place.data as PlaceTyped, knownElsewhere(data));
  const aimed = place.kind === 'place' && place.place.kind === 'pivoted' ? place.place : null;
  const { complianceUmPerMn, complianceAt } = input;
  const cartridgeMassG = facts.cartridgeMassG?.value;
  const known = {
    effectiveLengthMm: facts.effectiveLengthMm?.value,
    spindleToPivotMm: aimed?.spindleToPivotMm ?? facts.spindleToPivotMm?.value,
    offsetDeg: facts.offsetDeg?.value,
    bearing: bearingOf(stations.height.data as HeightTyped, match),
    slidingMassG: cartridgeMassG === undefined ? undefined : cartridgeMassG + (facts.hardwareMassG?.value ?? 0),
    forceMn: lastForce(stations.weigh.data) ?? input.trackingForceMn,
    complianceUmPerMn:
      complianceUmPerMn === undefined || complianceAt === undefined
        ? undefined
        : complianceUmPerMn * atRest[complianceAt],
    movingMassG: facts.movingMassG?.value,
    centreBelowPivotMm: facts.centreBelowPivotMm?.value,
    pivotAboveTipMm: facts.pivotAboveTipMm?.value,
    threadPitchMm: chosen.hardware?.threadPitchMm,
  };
  return Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined)) as KnownArm;
}
