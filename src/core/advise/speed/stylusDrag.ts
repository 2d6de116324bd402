/**
 * By how much the deck slows when the tip rests in the groove: the speed that was read with the tip up, less the speed with it down, the
 * latter by strobe, by the tone, or by both as they were put together.
 */
import { budgetOf } from '../../measure/budget.ts';
import type { Curve, Finding } from '../../measure/finding.ts';
import type { Band } from '../../record/band.ts';
import { statement } from '../../words/statement.ts';
import type { Chain } from '../budget/bench.ts';

/** %: beyond this a drive gives way to the tip. House guess */
const WORTH_A_LOOK = 0.1;

/** Both speeds over the side. @param drag the figure @param bands of the recording */
export function dragCurves(drag: Finding | undefined, { strobeUp }: Chain, bands: readonly Band[]): Curve[] {
  if (drag === undefined || typeof drag.value !== 'number' || strobeUp === null || bands.length === 0) return [];
  const x = [Math.min(...bands.map(({ startS }) => startS)), Math.max(...bands.map(({ endS }) => endS))];
  const level = (name: string, percent: number): Curve => ({
    quantity: 'stylus-drag',
    name,
    x,
    y: [percent, percent],
    xUnit: 's',
    yUnit: '%',
  });
  return [level('tip up', strobeUp.percent), level('tip down', strobeUp.percent - drag.value)];
}

/** @param speed `speed-error` of the deck, with its total uncertainty */
export function dragFigure(speed: Finding | undefined, { strobeUp, strobe }: Chain): Finding[] {
  if (strobeUp === null || speed === undefined || typeof speed.value !== 'number') return [];
  // both by strobe: the tone's doubt of the record drops out
  const down = strobe === null ? speed.value : strobe.percent;
  const downSize = strobe === null ? (speed.uncertainty ?? 0) : strobe.size;
  const value = strobeUp.percent - down;
  const { total, budget } = budgetOf(
    [
      { of: strobeUp.of, size: strobeUp.size },
      { of: strobe === null ? statement('speed-by-tone') : strobe.of, size: downSize },
    ],
    '%',
  );
  return [
    {
      quantity: 'stylus-drag',
      value,
      unit: '%',
      uncertainty: total,
      repeatability: total,
      budget,
      bands: strobe === null ? speed.bands : [],
      notes: [
        statement(strobe === null ? 'drag-by-tone' : 'drag-by-strobe'),
        ...(value - total > WORTH_A_LOOK ? [statement('drag-do')] : []),
      ],
    },
  ];
}
