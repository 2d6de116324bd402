/** A figure with its unit and expanded uncertainty, big enough to read from where the hands are. */

import { shownInterval, tightUnit, unitSign } from '../../core/words/figure.ts';
import { decimalsAtBench, showFigure } from '../../core/words/number.ts';

export interface FigureProps {
  /** words (polarity, channel order) are shown as they are */
  readonly value: number | string;
  /** as in the documents: `deg`, `dB`, `%`, … */
  readonly unit: string;
  /** k = 2, in `unit`; null where there is none */
  readonly uncertainty: number | null;
  /** 95 %, in `unit`, of what is an interval: it stands in place of value and uncertainty; `high` null: open */
  readonly low?: number;
  readonly high?: number | null;
  /** `big` is read from two metres, `row` stands in a list */
  readonly size?: 'big' | 'mid' | 'row';
  /** write a plus sign too */
  readonly signed?: boolean;
}

export function Figure({ value, unit, uncertainty, low, high, size = 'row', signed = false }: FigureProps) {
  if (typeof value === 'string') return <p class={`figure ${size}`}>{value.replace('-', ' ')}</p>;
  const interval = shownInterval(low, high, unit);
  if (interval !== null) return <p class={`figure ${size} interval`}>{interval}</p>;
  const sign = unitSign(unit);
  const shown = showFigure(value, uncertainty, signed, decimalsAtBench(unit));
  const tight = tightUnit(sign);
  return (
    <p class={`figure ${size}`}>
      {shown.value}
      {sign !== '' && <span class={tight ? 'unit tight' : 'unit'}>{tight ? sign : `\u00a0${sign}`}</span>}
      {shown.uncertainty !== null && (
        <span class="pm">
          {' '}
          ±&nbsp;{shown.uncertainty}
          {tight ? sign : ''}
        </span>
      )}
    </p>
  );
}
