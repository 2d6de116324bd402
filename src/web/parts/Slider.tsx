/** A figure that is turned rather than typed, by mouse or arrow keys, and said in words. */
import { useId } from 'preact/hooks';

export interface SliderProps {
  readonly label: string;
  /** the figure in words */
  readonly says: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  /** left out: any */
  readonly step?: number;
  /** what an arrow key brings, and ten times it a page key, where any figure may stand: to a whole multiple */
  readonly byKey?: number;
  onValue(value: number): void;
}

const KEYS: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -10,
  PageUp: 10,
};

export function Slider({ label, says, value, min, max, step, byKey, onValue }: SliderProps) {
  const id = useId();
  const onKeyDown = (event: KeyboardEvent): void => {
    const steps = KEYS[event.key];
    if (byKey === undefined || steps === undefined) return;
    event.preventDefault();
    onValue(Math.min(max, Math.max(min, (Math.round(value / byKey) + steps) * byKey)));
  };
  return (
    <div class="slider">
      <label for={id}>{label}</label>
      <span class="slider-says" aria-hidden="true">
        {says}
      </span>
      <input
        id={id}
        type="range"
        min={min}
        max={max}
        step={step ?? 'any'}
        value={value}
        aria-valuetext={says}
        onInput={(event) => onValue(event.currentTarget.valueAsNumber)}
        onKeyDown={onKeyDown}
      />
    </div>
  );
}
