/**
 * By how much the right channel lags the left on lateral tones of 5 kHz and more: what a skewed contact edge does, and the chain.
 *
 *   lag = arg(L/R)/ω
 */

import type { SideReadings } from './sideReadings.ts';
import { ratioOf } from './toneLevels.ts';
import { grooveSpeed } from './twoTones.ts';
import { isLateral, type Polarity } from './wiring.ts';

export interface EdgeLag {
  readonly band: number;
  readonly radiusMm: number;
  /** groove, cm/s */
  readonly speed: number;
  /** rad/s */
  readonly omega: number;
  /** s, right later positive; and its standard uncertainty from the signal */
  readonly lagS: number;
  readonly spread: number;
}

const FROM_HZ = 5000;

export function edgeLags(side: SideReadings, polarity: Polarity): EdgeLag[] {
  return side.tones.flatMap((tone): EdgeLag[] => {
    const radiusMm = tone.cut?.radiusMm;
    if (radiusMm === undefined || tone.meanHz < FROM_HZ || !isLateral(tone, polarity)) return [];
    const { re, im, varRe, varIm } = ratioOf(tone);
    const sign = polarity.inverted ? -1 : 1;
    const omega = 2 * Math.PI * tone.meanHz;
    return [
      {
        band: tone.band.index,
        radiusMm,
        speed: grooveSpeed(side.rpm, radiusMm),
        omega,
        lagS: Math.atan2(sign * im, sign * re) / omega,
        spread: Math.sqrt((varRe + varIm) / 2 / (re * re + im * im)) / omega,
      },
    ];
  });
}
