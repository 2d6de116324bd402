/** What the other stations know of the arm, for Place. */
import { benchAt, type StationsTyped } from '../../fields/benchFacts.ts';
import type { KnownElsewhere } from './armRequest.ts';

export function knownElsewhere(stations: StationsTyped): KnownElsewhere {
  const { behind } = benchAt('place', stations);
  const [pivot, length] = [behind('spindleToPivotMm'), behind('effectiveLengthMm')];
  return {
    ...(pivot === null ? {} : { spindleToPivotMm: pivot.value }),
    ...(length === null ? {} : { effectiveLengthMm: length.value }),
  };
}
