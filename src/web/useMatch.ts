/** Match's own data of a job, with what it says. */
import { useMemo } from 'preact/hooks';
import { type MatchData, type MatchReading, readMatch } from '../core/job/stations/match/matchData.ts';
import { useStation } from './useStation.ts';

export interface Match {
  readonly data: Partial<MatchData>;
  readonly reading: MatchReading;
  set(patch: Partial<MatchData>): void;
}

export function useMatch(jobId: string): Match {
  const { data, set } = useStation<MatchData>(jobId, 'match');
  const { parts, typed, said } = data;
  const reading = useMemo(() => readMatch(data), [parts, typed, said]);
  return { data, reading, set };
}
