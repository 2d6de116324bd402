/**
 * Which way the groove moves, from the levels of both channels and the sign of their cross spectrum.
 *
 * Gains are unknown, leaks may be as strong as 15 dB and a tilt adds to them, so no fixed ratio parts one-sided bands
 * from two-sided ones in every capture. All bands of a capture are therefore explained together by two figures,
 *
 *   g  left over right in gain, dB
 *   δ  how a tilt or unequal leaks pull lateral and vertical apart: left over right is g + δ for lateral, g − δ for vertical
 *
 * the likeliest pair under a prior of ±2.5 dB and ±2 dB; a one-sided band is expected 20 dB or more away. Each band is
 * then what costs least. What comes out is the motion as heard: with swapped leads left and right are exchanged, and
 * with one channel inverted lateral and vertical are.
 *
 * @checked heardMotion.test.ts
 */
import type { BandMotion } from './band.ts';

export interface ChannelPowers {
  /** mean square */
  readonly left: number;
  readonly right: number;
  /** mean of left · right */
  readonly cross: number;
}

export interface ChannelBalance {
  /** dB */
  readonly gainDb: number;
  /** dB */
  readonly apartDb: number;
}

const GAIN_SPREAD_DB = 2.5;
const APART_SPREAD_DB = 2;
/** of a two-sided band about what is expected */
const SPREAD_DB = 1.2;
const SIDED_DB = 20;
const SIDED_SPREAD_DB = 7;
/** less common to both channels than this, and more than chance */
const LEAST_COHERENCE = 0.2;
const STEP_DB = 0.5;

const ratioDb = ({ left, right }: ChannelPowers): number =>
  Math.max(-60, Math.min(60, 10 * Math.log10((left + 1e-30) / (right + 1e-30))));
const coherence = ({ left, right, cross }: ChannelPowers): number => cross / Math.sqrt(left * right + 1e-30);

/** What a band's motion would cost. @param over dB, left over right beyond the gains' own */
const sidedCost = (over: number): number => (Math.max(0, SIDED_DB - over) / SIDED_SPREAD_DB) ** 2;
/** lateral or vertical, only as the cross spectrum has it */
const twoSidedCost = (over: number, common: number, apartDb: number): number =>
  ((common > 0 ? over - apartDb : over + apartDb) / SPREAD_DB) ** 2;

/** No arrays in here: some thousands of them are asked for, several times a second while a record plays. */
const leastCost = (over: number, common: number, apartDb: number): number =>
  Math.min(sidedCost(over), sidedCost(-over), twoSidedCost(over, common, apartDb));

/** What the bands of one capture say together. */
export function channelBalance(bands: readonly ChannelPowers[]): ChannelBalance {
  const heard = bands
    .map((band) => ({ ratio: ratioDb(band), common: coherence(band) }))
    .filter(({ common }) => Math.abs(common) > LEAST_COHERENCE);
  let best: ChannelBalance = { gainDb: 0, apartDb: 0 };
  let least = Infinity;
  for (let gainDb = -8; gainDb <= 8; gainDb += STEP_DB) {
    for (let apartDb = -6; apartDb <= 6; apartDb += STEP_DB) {
      let sum = (gainDb / GAIN_SPREAD_DB) ** 2 + (apartDb / APART_SPREAD_DB) ** 2;
      for (const { ratio, common } of heard) sum += leastCost(ratio - gainDb, common, apartDb);
      if (sum < least) {
        least = sum;
        best = { gainDb, apartDb };
      }
    }
  }
  return best;
}

export function heardMotion(powers: ChannelPowers, balance: ChannelBalance): BandMotion {
  const common = coherence(powers);
  const over = ratioDb(powers) - balance.gainDb;
  const least = leastCost(over, common, balance.apartDb);
  if (sidedCost(over) === least) return 'left';
  if (sidedCost(-over) === least) return 'right';
  if (Math.abs(common) <= LEAST_COHERENCE) return 'unknown';
  return common > 0 ? 'lateral' : 'vertical';
}
