/** The invented sides that the practice deck plays: short ones, so that a turn of the headshell is heard again soon. */
import type { SheetFile } from '../sheet.ts';

const CUT = {
  verticalAngleDeg: 20,
  verticalAngleKind: 'effective',
  tiltDeg: 0,
  tiltUncertaintyDeg: 0.05,
  separationDb: 50,
  speedUncertaintyPercent: 0.02,
  zenithUncertaintyDeg: 0.2,
};

const tone = (motion: 'left' | 'right' | 'lateral', frequencyHz: number, radiusMm: number, durationS: number) =>
  ({ signal: 'tone', motion, frequencyHz, peakVelocityCmS: 5, radiusMm, durationS }) as const;

const pair = (motion: 'lateral' | 'vertical', radiusMm: number, durationS: number) =>
  ({
    signal: 'two-tone',
    motion,
    frequenciesHz: [400, 4000],
    ratio: 4,
    peakVelocityCmS: 8,
    radiusMm,
    durationS,
  }) as const;

/** Both channels' leaks, over and over: what the headshell is turned by. */
const tilt = {
  schema: 1,
  name: 'Practice side, tilt',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  cut: CUT,
  bands: [tone('lateral', 1000, 143, 5), tone('left', 1000, 140, 7), tone('right', 1000, 137, 7)],
} satisfies SheetFile;

/** One band for every fault that can be hidden. */
const everything = {
  schema: 1,
  name: 'Practice side, everything',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  cut: CUT,
  bands: [
    tone('lateral', 1000, 143, 6),
    tone('left', 1000, 140, 7),
    tone('right', 1000, 137, 7),
    tone('lateral', 3150, 130, 14),
    pair('lateral', 120, 7),
    pair('vertical', 114, 7),
    { signal: 'silent-groove', motion: 'none', radiusMm: 108, durationS: 8 },
    pair('lateral', 80, 7),
    tone('lateral', 3150, 72, 14),
  ],
} satisfies SheetFile;

export const practiceSides = { tilt, everything } as const;
export type PracticeSide = keyof typeof practiceSides;
