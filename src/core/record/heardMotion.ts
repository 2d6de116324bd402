/**
 * Which way the groove moves, from the levels of both channels and the sign of their cross spectrum.
 *
 * Gains are unknown, leaks may be as strong as 15 dB and tilt adds to them, so no fixed ratio parts one-sided bands from
 * two-sided ones in every capture. The gain difference is taken from the two-sided bands (or half-way between the
 * one-sided ones), and the limit is put into the widest gap between the ratios heard, between 3 and 9 dB.
 *
 * What comes out is the motion as heard: with swapped leads left and right are exchanged, and with one channel inverted
 * lateral and vertical are.
 */
import type { BandMotion } from './band.ts';
import { median } from './toneTracks.ts';

export interface ChannelPowers {
  /** mean square */
  readonly left: number;
  readonly right: number;
  /** mean of left · right */
  readonly cross: number;
}

export interface ChannelBalance {
  /** dB, left over right, of a two-sided band */
  readonly gainDb: number;
  /** dB, a band whose channels differ by more is one-sided */
  readonly limitDb: number;
}

const EARLY_LIMIT = 7;

const ratioDb = ({ left, right }: ChannelPowers): number =>
  Math.max(-60, Math.min(60, 10 * Math.log10((left + 1e-30) / (right + 1e-30))));
const coherence = ({ left, right, cross }: ChannelPowers): number => cross / Math.sqrt(left * right + 1e-30);

/** What the bands of one capture say together. */
export function channelBalance(bands: readonly ChannelPowers[]): ChannelBalance {
  const ratios = bands.map(ratioDb);
  const twoSided = bands.filter((b) => Math.abs(ratioDb(b)) < 6.5 && Math.abs(coherence(b)) > 0.6).map(ratioDb);
  const lefts = ratios.filter((r) => r > EARLY_LIMIT);
  const rights = ratios.filter((r) => r < -EARLY_LIMIT);
  let gainDb = 0;
  if (twoSided.length > 0) gainDb = median(twoSided);
  // Separation is seldom the same both ways: half of the difference is no more than a hint.
  else if (lefts.length > 0 && rights.length > 0) {
    gainDb = Math.max(-3, Math.min(3, (median(lefts) + median(rights)) / 2));
  }
  // With something to go by, two-sided bands keep within 3 dB and one-sided ones are 9 dB away.
  const [least, most] = twoSided.length > 0 || (lefts.length > 0 && rights.length > 0) ? [3, 9] : [5.5, 8];
  const away = ratios.map((r) => Math.abs(r - gainDb)).filter((x) => x > least && x < most);
  const marks = [least, ...away.sort((a, b) => a - b), most];
  let limitDb = EARLY_LIMIT;
  let widest = 0;
  for (let i = 1; i < marks.length; i++) {
    if (marks[i] - marks[i - 1] > widest) {
      widest = marks[i] - marks[i - 1];
      limitDb = (marks[i] + marks[i - 1]) / 2;
    }
  }
  return { gainDb, limitDb };
}

export function heardMotion(powers: ChannelPowers, { gainDb, limitDb }: ChannelBalance): BandMotion {
  const over = ratioDb(powers) - gainDb;
  if (over > limitDb) return 'left';
  if (over < -limitDb) return 'right';
  const c = coherence(powers);
  if (c > 0.4) return 'lateral';
  if (c < -0.4) return 'vertical';
  return 'unknown';
}
