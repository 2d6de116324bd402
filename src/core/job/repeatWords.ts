/** What repeated readings say, in statements. */
import { LEAST_POINTS } from '../advise/repeat/controlChart.ts';
import { shownFigure, shownSpread } from '../words/figure.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { RepeatedFigure } from './repeats.ts';

/** of a scatter over what the signal allows: beyond, something else moves between readings */
const MORE = 2;
/** standard uncertainties of a slope */
const TREND = 3;

export function repeatWords({ quantity, typeA, repeatability, chart, points, unit }: RepeatedFigure): Statement[] {
  const said: Statement[] = [];
  if (typeA !== null) {
    said.push(
      statement('repeat-type-a', {
        count: typeA.count,
        mean: shownFigure(typeA.mean, unit, typeA.uncertainty),
        scatter: shownSpread(typeA.scatter, unit),
      }),
    );
    if (repeatability !== null && typeA.count >= 3 && 2 * typeA.scatter > MORE * repeatability) {
      said.push(statement('repeat-scatters', { times: (2 * typeA.scatter) / Math.max(repeatability, 1e-12) }));
    }
  }
  if (chart === null) return [...said, statement('repeat-few', { count: points.length, least: LEAST_POINTS })];
  const last = chart.signals.at(-1) ?? [];
  if (last.includes('beyond')) said.push(statement('repeat-beyond'));
  else if (last.includes('jump')) said.push(statement('repeat-jump'));
  if (last.includes('run')) said.push(statement('repeat-run'));
  if (last.length === 0) said.push(statement('repeat-in-control', { count: points.length }));
  if (Math.abs(chart.slope) > TREND * chart.slopeSpread) {
    const over = points.length - 1;
    const wear = quantity === 'effective-tip-radius' && chart.slope > 0;
    said.push(
      statement(wear ? 'repeat-wear' : 'repeat-trend', {
        change: shownFigure(chart.slope * over, unit, 2 * chart.slopeSpread * over, true),
      }),
    );
  }
  return said;
}
