/**
 * An exercise: faults hidden in the practice deck, found by what is heard and turned out by knobs that tell no figure.
 *
 * Ranges and goals are house figures: large enough to be advised on, near enough to be good work.
 *
 * @checked practice.test.ts
 */
import { random } from '../random.ts';
import { EARTHED_PARTS, NO_FAULT, PRACTICE_RANGE, type PracticeSettings } from './practiceFaults.ts';

export const HIDDEN_NUMBERS = ['tiltDeg', 'twistDeg', 'heightMm', 'speedErrorPercent', 'offCentreMm'] as const;
export type HiddenNumber = (typeof HIDDEN_NUMBERS)[number];

/** sizes that are drawn, either way round */
export const HIDDEN_SIZE: Readonly<Record<HiddenNumber, { readonly from: number; readonly to: number }>> = {
  tiltDeg: { from: 1, to: 3 },
  twistDeg: { from: 1.5, to: 3 },
  heightMm: { from: 6, to: 10 },
  speedErrorPercent: { from: 0.4, to: 1.5 },
  offCentreMm: { from: 0.3, to: 0.8 },
};
/** what is left may be so large, either way round */
export const GOAL: Readonly<Record<HiddenNumber, number>> = {
  tiltDeg: 0.3,
  twistDeg: 1,
  heightMm: 4,
  speedErrorPercent: 0.1,
  offCentreMm: 0.1,
};
/** a tip that lifts where the groove narrows: without it no sound tells the sign of twist and height */
export const ROUND_TIP_UM = 8;
const SHARE = { leadsSwapped: 0.35, leftInverted: 0.35, openJoint: 0.5 };

export type ExerciseKind = 'tilt' | 'everything';

/** Knobs, in clicks of the step of `PRACTICE_RANGE`; what was exchanged or remade by hand. */
export interface Turned {
  readonly clicks: Readonly<Partial<Record<HiddenNumber, number>>>;
  readonly leadsExchanged: boolean;
  readonly polarityExchanged: boolean;
  /** joints that were cleaned and tightened */
  readonly remade: readonly PracticeSettings['openJoint'][];
}

export const UNTURNED: Turned = { clicks: {}, leadsExchanged: false, polarityExchanged: false, remade: [] };

/** @param seed integer from 0 to 2³² − 1 */
export function hideFaults(kind: ExerciseKind, seed: number): PracticeSettings {
  const dice = random(seed, 0);
  const size = (of: HiddenNumber): number => {
    const { from, to } = HIDDEN_SIZE[of];
    const { step } = PRACTICE_RANGE[of];
    const steps = Math.round((from + (to - from) * dice.uniform()) / step);
    const sign = dice.uniform() < 0.5 ? -1 : 1;
    return Number((steps * step * (of === 'offCentreMm' ? 1 : sign)).toFixed(4));
  };
  const tiltDeg = size('tiltDeg');
  if (kind === 'tilt') return { ...NO_FAULT, tiltDeg };
  return {
    ...NO_FAULT,
    tipRadiusUm: ROUND_TIP_UM,
    tiltDeg,
    twistDeg: size('twistDeg'),
    heightMm: size('heightMm'),
    speedErrorPercent: size('speedErrorPercent'),
    offCentreMm: size('offCentreMm'),
    leadsSwapped: dice.uniform() < SHARE.leadsSwapped,
    leftInverted: dice.uniform() < SHARE.leftInverted,
    openJoint:
      dice.uniform() < SHARE.openJoint ? EARTHED_PARTS[Math.floor(dice.uniform() * EARTHED_PARTS.length)] : 'none',
  };
}

/** What is left of a hidden fault; zero has no sign. */
export const leftOf = (hidden: PracticeSettings, { clicks }: Turned, of: HiddenNumber): number =>
  Number((hidden[of] + (clicks[of] ?? 0) * PRACTICE_RANGE[of].step).toFixed(4)) + 0;

/** The deck as it is now: hidden faults with what was turned. A record may lie off centre to any side. */
export function settingsNow(
  hidden: PracticeSettings,
  turned: Turned,
  touched: PracticeSettings['touched'],
): PracticeSettings {
  const left = (of: HiddenNumber): number => {
    const { min, max } = PRACTICE_RANGE[of];
    const value = leftOf(hidden, turned, of);
    return of === 'offCentreMm' ? Math.min(max, Math.abs(value)) : Math.min(max, Math.max(min, value));
  };
  return {
    ...hidden,
    tiltDeg: left('tiltDeg'),
    twistDeg: left('twistDeg'),
    heightMm: left('heightMm'),
    speedErrorPercent: left('speedErrorPercent'),
    offCentreMm: left('offCentreMm'),
    leadsSwapped: hidden.leadsSwapped !== turned.leadsExchanged,
    leftInverted: hidden.leftInverted !== turned.polarityExchanged,
    openJoint: turned.remade.includes(hidden.openJoint) ? 'none' : hidden.openJoint,
    touched,
  };
}
