/** What 5 cm/s along one wall at 1 kHz makes in the capture, each channel, as a figure of its own. */

import type { Problem } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import { CHANNELS } from './channels.ts';
import type { Finding } from './finding.ts';
import { levelTurns, turnAmong, withheldByTurn } from './levelTurned.ts';
import { referenceLevel } from './referenceLevel.ts';
import type { SideReadings } from './sideReadings.ts';
import { DB_PER_NEPER, levelOf } from './toneLevels.ts';

export interface ReferenceFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
}

/** `reference-level`, dB re a sine at full scale. @param flat captured without playback equalisation */
export function referenceFigures(side: SideReadings, flat: boolean): ReferenceFigures {
  const reference = referenceLevel(side, flat);
  const turns = levelTurns(side, flat);
  const problems: Problem[] = [];
  const findings = CHANNELS.flatMap((channel): Finding[] => {
    const of = reference[channel];
    if (of === null) return [];
    const tones = side.tones.filter(({ band }) => of.bands.includes(band.index));
    const turn = turnAmong(turns, tones);
    if (turn !== null) {
      if (problems.length === 0) problems.push(...withheldByTurn(['reference-level'], turn));
      return [];
    }
    const variance = tones.reduce((sum, tone) => sum + levelOf(tone).variance, 0);
    return [
      {
        quantity: 'reference-level',
        value: DB_PER_NEPER * Math.log(of.amplitude),
        unit: 'dBFS',
        uncertainty: (2 * DB_PER_NEPER * Math.sqrt(variance)) / of.bands.length,
        bands: of.bands,
        channel,
        notes: [statement('reference-as', { hz: of.hz })],
      },
    ];
  });
  return { findings, problems };
}
