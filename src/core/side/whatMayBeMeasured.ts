/** The bands as heard → matched to the sheet, and cut to what of them may be measured. */
import { SHORTEST_S } from '../capture/formatProblems.ts';
import type { Problem } from '../capture/problem.ts';
import type { Spoiled } from '../capture/sampleInspector.ts';
import { trustedBands } from '../measure/trusted.ts';
import type { Band } from '../record/band.ts';
import { type ChannelOrder, matchSheet } from '../record/matchSheet.ts';
import type { RecordSheet } from '../record/sheet.ts';

export interface MeasurableSide {
  /** all bands, matched */
  readonly bands: Band[];
  /** the bands without their spoiled stretches; those that are left out stand in `problems` */
  readonly trusted: Band[];
  readonly order: ChannelOrder;
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
  const trusted = trustedBands(durationS < SHORTEST_S ? [] : matched.bands, spoiled);
  return {
    bands: matched.bands,
    trusted: trusted.bands,
    order: matched.order,
    problems: [...matched.problems, ...trusted.problems],
  };
}
