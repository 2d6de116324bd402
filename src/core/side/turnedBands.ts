/**
 * One-sided tones of a recording during which the headshell was turned: from where on each is read. The same ear as a live pass has
 * (phaseJumps.ts, leakSteps.ts), so that a pass and its recording are read alike.
 *
 * @checked turnedBands.test.ts
 */
import { type Problem, problem } from '../capture/problem.ts';
import type { Recording } from '../capture/recording.ts';
import type { Band } from '../record/band.ts';
import { drivenBy } from './follower.ts';
import { LeakSteps } from './leakSteps.ts';
import { PhaseJumps, WINDOW_S } from './phaseJumps.ts';

export interface TurnedBand {
  /** of the band */
  readonly index: number;
  readonly beganS: number;
  /** from here on the leak stands still */
  readonly fromS: number;
}

/** s of a band that must be left after the turn; with less the band is read as a whole */
const LEAST_LEFT_S = 0.5;

/** @param bands as they may be measured @param turnS s of one turn of the record */
export async function findTurned(recording: Recording, bands: readonly Band[], turnS: number): Promise<TurnedBand[]> {
  const { sampleRateHz, frames } = recording.format;
  const turned: TurnedBand[] = [];
  for (const band of bands) {
    const { index, startS, endS, frequencyHz } = band;
    if (band.signal !== 'tone' || frequencyHz === null || drivenBy(band) === 'both') continue;
    const leak = new LeakSteps(turnS, WINDOW_S);
    let fromS: number | null = null;
    const ear = new PhaseJumps(sampleRateHz, (left, right, atS) => {
      fromS = leak.hear(left, right, atS)?.fromS ?? fromS;
    });
    ear.tune(frequencyHz);
    const range = {
      fromFrame: Math.round(startS * sampleRateHz),
      toFrame: Math.min(frames, Math.floor(endS * sampleRateHz)),
    };
    for await (const block of recording.blocks(range)) ear.push(block);
    if (fromS !== null && fromS > startS && endS - fromS >= LEAST_LEFT_S) turned.push({ index, beganS: startS, fromS });
  }
  return turned;
}

/** The bands without what was played before the turn. */
export const afterTurn = (bands: readonly Band[], turned: readonly TurnedBand[]): Band[] =>
  bands.map((band) => {
    const found = turned.find(({ index }) => index === band.index);
    return found === undefined ? band : { ...band, startS: found.fromS };
  });

export const turnedProblem = ({ beganS, fromS }: Pick<TurnedBand, 'beganS' | 'fromS'>): Problem =>
  problem('turned-in-band', { fromS }, { startS: beganS, endS: fromS });
