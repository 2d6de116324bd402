/** What the stations together know of arm and cartridge, as far as the sizes of a move's effects need it. */
import type { StationState } from './api.ts';
import type { StationName } from './station.ts';
import { type MatchData, readMatch } from './stations/match/matchData.ts';
import { solved } from './stations/place/solved.ts';
import type { PlaceTyped } from './stations/place.ts';

/** What is not known is not there. */
export interface KnownArm {
  readonly effectiveLengthMm?: number;
  readonly spindleToPivotMm?: number;
  readonly offsetDeg?: number;
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
  const { chosen, input } = readMatch(stations.match.data as Partial<MatchData>);
  const place = solved(stations.place.data as PlaceTyped);
  const aimed = place.kind === 'place' && place.place.kind === 'pivoted' ? place.place : null;
  const { cartridgeMassG, hardwareMassG = 0, complianceUmPerMn, complianceAt } = input;
  const known = {
    effectiveLengthMm: aimed?.effectiveLengthMm ?? input.effectiveLengthMm,
    spindleToPivotMm: aimed?.spindleToPivotMm ?? input.spindleToPivotMm,
    offsetDeg: aimed?.offsetDeg ?? chosen.arm?.offsetDeg,
    slidingMassG: cartridgeMassG === undefined ? undefined : cartridgeMassG + hardwareMassG,
    forceMn: lastForce(stations.weigh.data) ?? input.trackingForceMn,
    complianceUmPerMn:
      complianceUmPerMn === undefined || complianceAt === undefined
        ? undefined
        : complianceUmPerMn * atRest[complianceAt],
    movingMassG: chosen.arm?.movingMassG,
    centreBelowPivotMm: chosen.arm?.centreBelowPivotMm,
    pivotAboveTipMm: chosen.arm?.pivotAboveTipMm,
    threadPitchMm: chosen.hardware?.threadPitchMm,
  };
  return Object.fromEntries(
    Object.entries(known).filter(([, value]) => value !== undefined && value !== null),
  ) as KnownArm;
}
