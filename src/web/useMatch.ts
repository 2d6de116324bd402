/** Match's own data of a job, with what it says; every change also renews its lines on the sheet. */
import { useMemo } from 'preact/hooks';
import { type MatchData, type MatchReading, readMatch } from '../core/job/stations/match/matchData.ts';
import { sheetLines } from '../core/job/stations/match/reportLines.ts';
import { useStation } from './useStation.ts';

export interface Match {
  readonly data: Partial<MatchData>;
  readonly reading: MatchReading;
  set(patch: Partial<MatchData>): void;
}

export function useMatch(jobId: string): Match {
  const station = useStation<MatchData>(jobId, 'match');
  const { data } = station;
  const { parts, typed, said } = data;
  const reading = useMemo(() => readMatch(data), [parts, typed, said]);
  return {
    data,
    reading,
    set: (patch) => station.set({ ...patch, forReport: sheetLines({ ...data, ...patch }) }),
  };
}
