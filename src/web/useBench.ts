/** What is known of arm, cartridge and hardware at a station of the page, read anew from what all stations keep. */
import { type Bench, benchAt } from '../core/job/fields/benchFacts.ts';
import type { StationName } from '../core/job/station.ts';
import { useStation } from './useStation.ts';

export function useBench(jobId: string, at: StationName): Bench {
  const match = useStation(jobId, 'match').data;
  const fit = useStation(jobId, 'fit').data;
  const weigh = useStation(jobId, 'weigh').data;
  const place = useStation(jobId, 'place').data;
  const height = useStation(jobId, 'height').data;
  return benchAt(at, { match, fit, weigh, place, height });
}
