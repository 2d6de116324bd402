/** A drawing whose values a pointer or the arrow keys read, one at a time. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { say, statement } from '../../../core/words/statement.ts';

export interface PlotReaderProps {
  /** what a screen reader calls it */
  readonly name: string;
  /** how many values there are */
  readonly count: number;
  /** the one that is read; null: none */
  readonly at: number | null;
  /** the keys begin here */
  readonly begin: number;
  /** values that Page Up and Page Down pass */
  readonly page: number;
  /** after the last comes the first again */
  readonly around?: boolean;
  /** what is read, or what there is to read */
  readonly told: string;
  onAt(at: number | null): void;
  /** @param x @param y shares of the width and the height @returns the value that a pointer there means */
  under(x: number, y: number): number;
  readonly children: ComponentChildren;
}

export function PlotReader({ name, count, at, begin, page, around, told, onAt, under, children }: PlotReaderProps) {
  const [byKey, setByKey] = useState(false);
  const move = (to: number): void => {
    if (count === 0) return;
    onAt(around ? ((to % count) + count) % count : Math.min(count - 1, Math.max(0, to)));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const here = at ?? begin;
    const steps: Record<string, number> = {
      ArrowRight: here + 1,
      ArrowUp: here + 1,
      ArrowLeft: here - 1,
      ArrowDown: here - 1,
      PageUp: here + page,
      PageDown: here - page,
      Home: 0,
      End: count - 1,
    };
    if (!(event.key in steps)) return;
    event.preventDefault();
    setByKey(true);
    move(steps[event.key]);
  };
  return (
    <div
      class={around ? 'plot polar' : 'plot'}
      role="slider"
      tabIndex={0}
      aria-label={say(statement('plot-read-by-keys', { name }))}
      aria-orientation="horizontal"
      aria-valuemin={0}
      aria-valuemax={Math.max(0, count - 1)}
      aria-valuenow={at ?? begin}
      aria-valuetext={told}
      onKeyDown={onKeyDown}
      onPointerMove={(event) => {
        const box = event.currentTarget.getBoundingClientRect();
        setByKey(false);
        move(under((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height));
      }}
      onPointerLeave={() => {
        if (!byKey) onAt(null);
      }}
      onBlur={() => onAt(null)}
    >
      {children}
    </div>
  );
}
