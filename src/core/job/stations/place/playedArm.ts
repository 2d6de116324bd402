/** The arm that plays the test record, as the stations know it: for what a recording's once-per-turn phasors are read with. */
import type { ArmGeometry } from '../../../measure/armPhase.ts';
import { benchAt, knownElsewhere, type StationsTyped } from '../../fields/benchFacts.ts';
import type { PlaceTyped } from '../place.ts';
import { aimedArm, standingArm } from './arms.ts';
import { solved } from './solved.ts';

/**
 * As it was read off the template at Place, else as Place aims at it, else by the lengths that Match or another station has.
 * @returns null where no station tells both lengths
 */
export function playedArm(stations: StationsTyped): ArmGeometry | null {
  const place = (stations.place ?? {}) as PlaceTyped;
  if (place.arm?.known === 'tangential') return 'tangential';
  const answer = solved(place, knownElsewhere(stations));
  const arm = answer.kind === 'place' ? (standingArm(answer.place) ?? aimedArm(answer.place)) : null;
  if (arm !== null) return { spindleToPivot: arm.spindleToPivot, effectiveLength: arm.effectiveLength };
  const { spindleToPivotMm, effectiveLengthMm } = benchAt('place', stations).facts;
  if (spindleToPivotMm === undefined || effectiveLengthMm === undefined) return null;
  return { spindleToPivot: spindleToPivotMm.value, effectiveLength: effectiveLengthMm.value };
}
