/** What 5 cm/s along one wall at 1 kHz makes in the capture, each channel, as a figure of its own. */

import { statement } from '../words/statement.ts';
import { CHANNELS } from './channels.ts';
import type { Finding } from './finding.ts';
import { referenceLevel } from './referenceLevel.ts';
import type { SideReadings } from './sideReadings.ts';
import { DB_PER_NEPER, levelOf } from './toneLevels.ts';

/** `reference-level`, dB re a sine at full scale. @param flat captured without playback equalisation */
export function referenceFigures(side: SideReadings, flat: boolean): Finding[] {
  const reference = referenceLevel(side, flat);
  return CHANNELS.flatMap((channel): Finding[] => {
    const of = reference[channel];
    if (of === null) return [];
    const variance = side.tones
      .filter(({ band }) => of.bands.includes(band.index))
      .reduce((sum, tone) => sum + levelOf(tone).variance, 0);
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
}
