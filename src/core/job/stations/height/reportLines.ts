/** What Height puts on the job's sheet: how it was left. */

import { showNumber } from '../../../words/number.ts';
import type { ReportLine } from '../../reportLines.ts';
import type { HeightTyped } from '../height.ts';
import type { HeightSet } from './heightData.ts';

/** "level", "2.0 mm over level at the pivot" */
export const riseWords = (mm: number): string =>
  Math.abs(mm) < 0.05 ? 'level' : `${showNumber(Math.abs(mm), 1)} mm ${mm > 0 ? 'over' : 'under'} level at the pivot`;

export function setWords({ riseMm, thicknessMm, mark }: HeightSet): string {
  const read = mark.trim() === '' ? '' : `, pillar at ${mark.trim()}`;
  return `${riseWords(riseMm)} on a record of ${showNumber(thicknessMm, 1)} mm${read}`;
}

export function heightLines(data: HeightTyped): readonly ReportLine[] {
  const { sets = [] } = data;
  const last = sets.at(-1);
  if (last === undefined) return [];
  const left = sets.length === 1 ? '; found so and left' : '; looked at again and left as it was';
  return [
    {
      label: 'Arm height',
      text: `${setWords(last)}${last.left ? left : ''}`,
      at: last.at,
    },
  ];
}
