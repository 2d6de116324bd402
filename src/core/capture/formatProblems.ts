/** What the format alone tells of a recording's use. */

import { type Problem, problem } from './problem.ts';
import type { CaptureFormat } from './recording.ts';

/** Shortest recording that anything can be measured in, s: half a turn, and a steady stretch of one tone. */
export const SHORTEST_S = 1;
/** Rates that can be read, Hz. */
export const READABLE_RATES_HZ = [8_000, 384_000] as const;
/** Rates that all figures are proved for, Hz. */
const PROVED_RATES_HZ = [44_100, 192_000] as const;

/** Channel count, rate and length. @checked openRecording.test.ts */
export function formatProblems(format: Pick<CaptureFormat, 'channels' | 'durationS' | 'sampleRateHz'>): Problem[] {
  const { channels, durationS, sampleRateHz } = format;
  const problems: Problem[] = [];
  if (!(PROVED_RATES_HZ[0] <= sampleRateHz && sampleRateHz <= PROVED_RATES_HZ[1])) {
    problems.push(problem('rate-unusual', { rateHz: sampleRateHz }));
  }
  if (channels === 1) problems.push(problem('mono'));
  if (channels > 2) problems.push(problem('extra-channels', { channels }));
  problems.push(...lengthProblems(durationS));
  return problems;
}

export function lengthProblems(durationS: number): Problem[] {
  return durationS >= SHORTEST_S
    ? []
    : [problem('too-short', { seconds: Math.floor(durationS * 100) / 100, leastS: SHORTEST_S })];
}
