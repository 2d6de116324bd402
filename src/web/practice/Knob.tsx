/** One knob, by mouse or arrow keys: with its figure, or in an exercise with clicks that tell none. */
import type { HiddenNumber } from '../../core/deck/practice/exercise.ts';
import { PRACTICE_RANGE, type PracticeNumber } from '../../core/deck/practice/practiceFaults.ts';
import { unitSign } from '../../core/words/figure.ts';
import { showNumber } from '../../core/words/number.ts';
import { Slider } from '../parts/Slider.tsx';
import { KNOBS } from './knobs.ts';
import { exercise, settings, turn } from './practiceLive.ts';

export function Knob({ of }: { of: PracticeNumber }) {
  const { label, unit, decimals, signed } = KNOBS[of];
  const value = settings.value[of];
  const sign = unitSign(unit);
  return (
    <Slider
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
    <Slider
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
