/**
 * What is claimed of each figure: the one table that README.md prints and `platterside selfcheck` holds to. Accuracy: how far a figure may lie
 * beside the truth of a deck whose record is cut without fault, noise and knocks in it. A test compares README.md with it.
 */
export interface Claim {
  readonly quantity: string;
  /** as README.md has it */
  readonly title: string;
  readonly unit: string;
  readonly decimals: number;
  /** largest error, of a true value */
  readonly within: (truth: number) => number;
  readonly words: string;
}

const same = (size: number) => (): number => size;
/** dB: a leak far down drowns in the groove's noise */
const separation = (db: number): number => 0.3 * 10 ** (Math.max(0, db - 30) / 20);
/** %: 5 % of itself, and not finer than 0.003 % */
const flutter = (percent: number): number => Math.max(0.05 * percent, 0.003);

export const CLAIMS: readonly Claim[] = [
  {
    quantity: 'azimuth-error',
    title: 'tilt (azimuth)',
    unit: 'deg',
    decimals: 3,
    within: same(0.05),
    words: 'within 0.05°',
  },
  {
    quantity: 'separation-left-to-right',
    title: 'separation, left into right',
    unit: 'dB',
    decimals: 3,
    within: separation,
    words: 'within 0.3 dB up to 30 dB',
  },
  {
    quantity: 'separation-right-to-left',
    title: 'separation, right into left',
    unit: 'dB',
    decimals: 3,
    within: separation,
    words: 'within 0.3 dB up to 30 dB',
  },
  {
    quantity: 'channel-balance',
    title: 'channel balance',
    unit: 'dB',
    decimals: 4,
    within: same(0.03),
    words: 'within 0.03 dB',
  },
  { quantity: 'speed-error', title: 'speed', unit: '%', decimals: 4, within: same(0.005), words: 'within 0.005 %' },
  {
    quantity: 'wow-flutter-weighted',
    title: 'wow and flutter, weighted',
    unit: '%',
    decimals: 4,
    within: flutter,
    words: 'within 5 % of itself or 0.003 %',
  },
];

/** Share of decks whose true figure the stated ± holds, on records of their own faults. */
export const COVERAGE = { from: 90, to: 99, words: '90 to 99 %' } as const;
/** Times faster than the record plays, by processor time. */
export const SPEED = { atLeast: 5, words: 'at least 5 times as fast as the record plays' } as const;
