/** One knob, by mouse or arrow keys: with its figure, or in an exercise with clicks that tell none. */
import { useId } from 'preact/hooks';
import type { HiddenNumber } from '../../core/deck/practice/exercise.ts';
import { PRACTICE_RANGE, type PracticeNumber } from '../../core/deck/practice/practiceFaults.ts';
import { unitSign } from '../../core/words/figure.ts';
import { showNumber } from '../../core/words/number.ts';
import { KNOBS } from './knobs.ts';
import { exercise, settings, turn } from './practiceLive.ts';

interface RangeProps {
  readonly label: string;
  readonly says: string;
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  onValue(value: number): void;
}

function Range({ label, says, value, min, max, step, onValue }: RangeProps) {
  const id = useId();
  return (
    <div class="knob">
      <label for={id}>{label}</label>
      <span class="knob-says" aria-hidden="true">
        {says}
      </span>
      <input
        id={id}
        type="range"
        min={min}
        max={max}
        step={step}
        value={value}
        aria-valuetext={says}
        onInput={(event) => onValue(event.currentTarget.valueAsNumber)}
      />
    </div>
  );
}

export function Knob({ of }: { of: PracticeNumber }) {
  const { label, unit, decimals, signed } = KNOBS[of];
  const value = settings.value[of];
  const sign = unitSign(unit);
  return (
    <Range
      label={label}
      says={`${showNumber(value, decimals, signed)}${sign === '°' ? '' : ' '}${sign}`}
      value={value}
      {...PRACTICE_RANGE[of]}
      onValue={(next) => {
        settings.value = { ...settings.value, [of]: next };
      }}
    />
  );
}

/** clicks either way */
const MOST_CLICKS: Readonly<Record<HiddenNumber, number>> = {
  tiltDeg: 50,
  twistDeg: 50,
  heightMm: 40,
  speedErrorPercent: 120,
  offCentreMm: 60,
};

export function UnmarkedKnob({ of }: { of: HiddenNumber }) {
  const now = exercise.value;
  if (now === null) return null;
  const clicks = now.turned.clicks[of] ?? 0;
  const { label, up, down } = KNOBS[of];
  const size = Math.abs(clicks);
  const says = clicks === 0 ? 'as it was' : `${size} ${size === 1 ? 'click' : 'clicks'} ${clicks > 0 ? up : down}`;
  return (
    <Range
      label={label}
      says={says}
      value={clicks}
      min={-MOST_CLICKS[of]}
      max={MOST_CLICKS[of]}
      step={1}
      onValue={(next) => turn({ clicks: { ...now.turned.clicks, [of]: next } })}
    />
  );
}
