/** What Weigh puts on the job's sheet: only what was set, read and calibrated. */

import { showFigure } from '../../../words/number.ts';
import { forceWithin, forceWords } from '../../fields/force.ts';
import type { ReportLine } from '../../reportLines.ts';
import type { WeighTyped } from '../weigh.ts';
import { calibrationOf } from './gauge.ts';
import { skatingSays } from './kept.ts';
import type { ForceSet } from './weighData.ts';

type Line = ReportLine;

/** "18.2 ± 0.3 mN (1.86 ± 0.03 g), weighed at record height" */
export function setWords({ by, mn, uncertaintyMn, calibrated }: ForceSet): string {
  if (by === 'dial') return `${forceWords(mn)} by the dial, not weighed`;
  return `${forceWithin(mn, uncertaintyMn)} at record height, weighed with a gauge ${calibrated ? 'held against known masses' : 'that was not held against a known mass'}`;
}

export function weighLines(data: WeighTyped): readonly Line[] {
  const lines: Line[] = [];
  const { sets = [] } = data;
  const last = sets.at(-1);
  const left = sets.length === 1 ? '; left as it came' : '; weighed again and left as it was';
  if (last !== undefined) {
    lines.push({
      label: 'Tracking force',
      text: `${setWords(last)}; aimed at ${forceWords(last.targetMn)}${last.left ? left : ''}`,
      at: last.at,
    });
    if (last.by === 'gauge' && last.dialMn !== null) lines.push({ label: 'Dial then', text: forceWords(last.dialMn) });
  }
  const calibration = calibrationOf(data.masses ?? [], data.gauge ?? {});
  if (calibration?.found) {
    const { readsHighPercent, calibration: fitted } = calibration.value;
    const { value, uncertainty } = readsHighPercent;
    const shown = showFigure(Math.abs(value), uncertainty, false, 2);
    const within = shown.uncertainty === null ? '' : ` ± ${shown.uncertainty}`;
    lines.push({
      label: 'Force gauge',
      text: `reads ${shown.value}${within} % ${value < 0 ? 'low' : 'high'}, from ${fitted.readings} weighing${fitted.readings === 1 ? '' : 's'} of known mass; readings were corrected`,
    });
  }
  if (data.skatingSet) {
    lines.push({
      label: 'Anti-skating',
      text: `${skatingSays(data.skatingSet)} (start value)`,
      at: data.skatingSet.at,
    });
  }
  return lines;
}
