/** The bands as heard → matched to the sheet, and cut to what of them may be measured. */
import { SHORTEST_S } from '../capture/formatProblems.ts';
import type { Problem } from '../capture/problem.ts';
import type { Spoiled } from '../capture/sampleInspector.ts';
import { trustedBands } from '../measure/trusted.ts';
import type { Band } from '../record/band.ts';
import { lowSweepStretches } from '../record/lowSweeps.ts';
import { type ChannelOrder, matchSheet } from '../record/matchSheet.ts';
import type { RecordSheet } from '../record/sheet.ts';
import type { Stretch } from '../record/stretch.ts';

export interface MeasurableSide {
  /** all bands, matched */
  readonly bands: Band[];
  /** the bands without their spoiled stretches; those that are left out stand in `problems` */
  readonly trusted: Band[];
  readonly order: ChannelOrder;
  /** where the record file has sweeps that are too low to be told by ear */
  readonly lowSweeps: readonly Stretch[];
  readonly problems: Problem[];
}

/** @param durationS of the capture; less than half a turn holds nothing to measure */
export function whatMayBeMeasured(
  heard: Band[],
  spoiled: readonly Spoiled[],
  sheet: RecordSheet | undefined,
  durationS: number,
): MeasurableSide {
  const matched =
    sheet === undefined ? { bands: heard, order: 'unknown' as const, problems: [] } : matchSheet(heard, sheet);
  const lowSweeps =
    sheet === undefined || durationS < SHORTEST_S ? [] : lowSweepStretches(matched.bands, sheet, durationS);
  // what was taken for unmodulated groove may be such a sweep
  const isFree = ({ signal, startS, endS }: Band): boolean =>
    signal !== 'silent-groove' || !lowSweeps.some((sweep) => sweep.startS < endS - 1 && sweep.endS > startS + 1);
  const trusted = trustedBands(durationS < SHORTEST_S ? [] : matched.bands.filter(isFree), spoiled);
  return {
    bands: matched.bands,
    trusted: trusted.bands,
    order: matched.order,
    lowSweeps,
    problems: [...matched.problems, ...trusted.problems],
  };
}
