/** The figures of arm and cartridge that Weigh works with, and where each comes from. */
import { useMemo } from 'preact/hooks';
import { type MatchData, readMatch } from '../../../core/job/stations/match/matchData.ts';
import { useStation } from '../../useStation.ts';
import { type FitData, hardwareFromFit } from '../fit/fitData.ts';
import { type Elsewhere, type FactLayer, type Facts, readFacts } from './facts.ts';
import type { WeighData } from './weighData.ts';

export interface KnownHere {
  readonly facts: Facts;
  readonly layers: readonly FactLayer[];
  readonly elsewhere: Elsewhere;
}

/** What Match and Fit keep, read as their own pages read it. */
export function useElsewhere(jobId: string): Elsewhere {
  const { data } = useStation<MatchData>(jobId, 'match');
  const fit = useStation<FitData>(jobId, 'fit').data;
  const { parts, typed, said } = data;
  const match = useMemo(() => readMatch(data), [parts, typed, said]);
  return { ...match, hardware: hardwareFromFit(fit) };
}

export const layersOf = ({ facts = {}, forceUnit = 'g' }: Partial<WeighData>, from: string): FactLayer => ({
  typed: facts,
  forceUnit,
  from,
});

export function useKnown(jobId: string, data: Partial<WeighData>): KnownHere {
  const elsewhere = useElsewhere(jobId);
  const layers = [layersOf(data, 'typed here')];
  return { facts: readFacts(layers, elsewhere), layers, elsewhere };
}
