/** What is true of a simulated capture. */

import { timesOf } from './speed.ts';
import { captureStart, type Take } from './take.ts';

export interface Truth {
  readonly schema: 1;
  readonly capture: { readonly sampleRateHz: number; readonly durationS: number };
  readonly bands: readonly {
    index: number;
    startS: number;
    endS: number;
    signal: string;
    motion: string;
    frequencyHz: number | null;
    radiusMm: number;
  }[];
}

export function truthOf(take: Take): Truth {
  const { sheet, side, speed } = take;
  const fromS = captureStart(take);
  const bands = side.stretches.filter((one) => one.kind === 'band');
  const edges = timesOf(
    speed,
    bands.flatMap((one) => [one.startS, one.endS]),
  );
  return {
    schema: 1,
    capture: { sampleRateHz: take.sampleRateHz, durationS: take.frames / take.sampleRateHz },
    bands: bands.map((one, i) => {
      const band = sheet.bands[one.band];
      const startS = edges[2 * i] - fromS;
      const endS = edges[2 * i + 1] - fromS;
      const mean = (one.endS - one.startS) / (endS - startS);
      return {
        index: i,
        startS,
        endS,
        signal: band.signal,
        motion: band.motion ?? 'none',
        frequencyHz: band.frequencyHz === null ? null : band.frequencyHz * mean,
        radiusMm: one.radiusMm,
      };
    }),
  };
}
