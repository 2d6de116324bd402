/** The practice deck's knobs: what each is called, its unit, and which way is which. */
import type { PracticeNumber, PracticeSettings } from '../../core/deck/practice/practiceFaults.ts';

export interface KnobWords {
  readonly label: string;
  readonly unit: string;
  readonly decimals: number;
  readonly signed: boolean;
  /** what a knob turned up does, and turned down */
  readonly up: string;
  readonly down: string;
}

export const KNOBS: Readonly<Record<PracticeNumber, KnobWords>> = {
  tiltDeg: { label: 'Tilt', unit: 'deg', decimals: 1, signed: true, up: 'clockwise', down: 'anticlockwise' },
  twistDeg: { label: 'Twist', unit: 'deg', decimals: 1, signed: true, up: 'clockwise', down: 'anticlockwise' },
  heightMm: { label: 'Arm height', unit: 'mm', decimals: 1, signed: true, up: 'up', down: 'down' },
  trackingForceMn: { label: 'Tracking force', unit: 'mN', decimals: 1, signed: false, up: 'more', down: 'less' },
  speedErrorPercent: { label: 'Speed', unit: '%', decimals: 2, signed: true, up: 'faster', down: 'slower' },
  offCentreMm: {
    label: 'Record eccentricity',
    unit: 'mm',
    decimals: 2,
    signed: false,
    up: 'pushed one way',
    down: 'pushed the other way',
  },
  balanceDb: { label: 'Left louder', unit: 'dB', decimals: 1, signed: true, up: 'louder', down: 'softer' },
  clicksPerMinute: { label: 'Clicks of dust', unit: '1/min', decimals: 0, signed: false, up: 'more', down: 'fewer' },
  surfaceNoiseDb: { label: 'Groove noise', unit: 'dB', decimals: 0, signed: true, up: 'louder', down: 'softer' },
  tipRadiusUm: { label: 'Worn tip, radius', unit: 'µm', decimals: 0, signed: false, up: 'rounder', down: 'finer' },
};

export const JOINT_WORDS: Readonly<Record<PracticeSettings['openJoint'], string>> = {
  none: 'none',
  headshell: 'headshell to arm',
  arm: 'arm to its earth terminal',
  'arm-earth': 'earth lead to the preamp',
  chassis: 'chassis to the preamp',
};

export const TOUCH_WORDS: Readonly<Record<PracticeSettings['touched'], string>> = {
  none: 'nothing',
  headshell: 'the headshell',
  arm: 'the arm tube',
  'arm-earth': 'the arm’s earth terminal',
  chassis: 'the chassis',
};
