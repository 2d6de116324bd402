/**
 * What the record played may hide: what is known of it (taken off) and how unsure that is, from the record file's certificate, else
 * from what the shop has learned of it, else by the table of defaults.
 *
 * A cutter's leaks d are one thing with four real parts that reaches tilt, both separations and balance at once:
 *
 *   t = (Re d_RL − Re d_LR)/2    adds to the tilt as heard, and 2t of balance (0.30 dB a degree)
 *   (Re d_RL + Re d_LR)/2, Im    add to the separations
 *
 * Default: complex normal, half of all cuts leak less than −35 dB. The size is Rayleigh distributed, its median 1.1774 σ of one real part:
 * σ = 10^(−35/20)/1.1774 = 0.0151, so U(tilt) = 2 · 0.0151/√2 = 1.22°. A certificate's figure is the size itself (rms): σ = size/√2.
 */
import type { Doubt } from '../../measure/budget.ts';
import type { ComplexLeaks } from '../../measure/tilt.ts';
import type { SheetCut } from '../../record/sheet.ts';
import { degToRad } from '../../units/units.ts';
import { type Statement, statement } from '../../words/statement.ts';
import { verticalDoubt } from '../sound/doubts.ts';
import { type BenchKnown, type Chain, chainOf } from './bench.ts';
import { ASSUMED } from './defaults.ts';
import type { LearnedRecord } from './learnedRecord.ts';

export interface RecordError {
  /** the cut's own leaks as far as they are known beyond the record file's tilt, to be taken off */
  readonly leaks: ComplexLeaks;
  /** variances of what is left of them: of t, of the common real part, of either imaginary part */
  readonly leakDoubt: { readonly tilt: number; readonly common: number; readonly quadrature: number };
  readonly leakSource: Statement;
  readonly tiltSource: Statement;
  /** dB, known and taken off; and what is left */
  readonly balanceDb: number;
  readonly balance: Doubt;
  /** the balance's doubt comes beside what the leaks bring; false where both were learned together */
  readonly balanceApart: boolean;
  /** %, known and taken off; and what is left */
  readonly speedPercent: number;
  readonly speed: Doubt;
  /** dB, of a band's level as the record file states it */
  readonly velocity: Doubt;
  /** mm, of each band's radius as the record file states it */
  readonly radius: Doubt;
  /** mm, of what a warp adds to the hole */
  readonly warp: Doubt;
  /** deg, of the cut's twist and of its vertical angle, as the record file states them */
  readonly zenith: Doubt;
  readonly verticalAngle: Doubt;
  /** the leaks are neither certified nor learned: what would decide a verdict is a better known record */
  readonly uncertified: boolean;
  /** what the chain behind the record may hide */
  readonly chain: Chain;
}

/** Rayleigh's median over the spread of one real part: √(2 ln 2) */
const RAYLEIGH_MEDIAN = Math.sqrt(2 * Math.LN2);

const none = { re: 0, im: 0 };

/** Variance of one real part of the cut's leak. */
function partVariance(cut: SheetCut | undefined): { readonly variance: number; readonly stated: boolean } {
  const levels = [cut?.leakDb, cut?.separationDb].flatMap((db) => (db === undefined ? [] : [-Math.abs(db)]));
  if (levels.length === 0) {
    return { variance: (10 ** (ASSUMED.recordLeak.size / 20) / RAYLEIGH_MEDIAN) ** 2, stated: false };
  }
  // the worse of the two, where both are stated
  return { variance: 10 ** (Math.max(...levels) / 10) / 2, stated: true };
}

/** Variance of the cut's tilt, rad², where the record file states it. */
function tiltVariance(cut: SheetCut | undefined): number | null {
  if (cut?.tiltUncertaintyDeg === undefined && cut?.tiltDeg === undefined) return null;
  return Math.tan(degToRad(cut.tiltUncertaintyDeg ?? ASSUMED.recordTilt.size) / 2) ** 2;
}

/**
 * @param learned what the shop's own jobs say of this record; used where the record file is silent
 * @param bench what the bench knows of its chain; the table of defaults for the rest
 */
export function recordError(
  cut: SheetCut | undefined,
  learned: LearnedRecord | null = null,
  bench: BenchKnown = {},
): RecordError {
  const leak = partVariance(cut);
  const tilt = tiltVariance(cut);
  const knows = learned?.leaks !== undefined && !leak.stated ? learned.leaks : null;
  const ofLearned = statement('record-learned', { decks: learned?.decks ?? 0 });
  const meanTilt = knows === null ? 0 : (knows.mean.rightIntoLeft.re - knows.mean.leftIntoRight.re) / 2;
  // a stated tilt is taken off where the leaks are read; what was learned of it would take it off twice
  const kept = tilt === null ? 0 : meanTilt;
  const balance = learned?.balanceDb;
  const stated = cut?.levelUncertaintyDb === undefined ? null : Math.SQRT2 * cut.levelUncertaintyDb;
  const knowsBalance = stated === null && balance !== undefined && balance.uncertainty < ASSUMED.recordBalance.size;
  const speed = learned?.speedPercent;
  const knowsSpeed =
    cut?.speedUncertaintyPercent === undefined && speed !== undefined && speed.uncertainty < ASSUMED.recordSpeed.size;
  return {
    leaks:
      knows === null
        ? { leftIntoRight: none, rightIntoLeft: none }
        : {
            leftIntoRight: { re: knows.mean.leftIntoRight.re + kept, im: knows.mean.leftIntoRight.im },
            rightIntoLeft: { re: knows.mean.rightIntoLeft.re - kept, im: knows.mean.rightIntoLeft.im },
          },
    leakDoubt: {
      tilt: tilt ?? knows?.variance.tilt ?? leak.variance / 2,
      common: knows?.variance.common ?? leak.variance / 2,
      quadrature: knows?.variance.quadrature ?? leak.variance,
    },
    leakSource: knows === null ? ASSUMED.recordLeak.of : ofLearned,
    tiltSource: tilt !== null ? ASSUMED.recordTilt.of : knows === null ? ASSUMED.recordLeak.of : ofLearned,
    balanceDb: knowsBalance ? balance.mean : 0,
    balance: knowsBalance
      ? { of: ofLearned, size: balance.uncertainty }
      : { of: ASSUMED.recordBalance.of, size: Math.min(ASSUMED.recordBalance.size, stated ?? Number.MAX_VALUE) },
    balanceApart: !knowsBalance,
    speedPercent: knowsSpeed ? speed.mean : 0,
    speed: knowsSpeed
      ? { of: ofLearned, size: speed.uncertainty }
      : { of: ASSUMED.recordSpeed.of, size: cut?.speedUncertaintyPercent ?? ASSUMED.recordSpeed.size },
    velocity: {
      of: ASSUMED.recordVelocity.of,
      size: cut?.levelUncertaintyDb ?? ASSUMED.recordVelocity.size,
    },
    radius: { of: ASSUMED.radius.of, size: cut?.radiusUncertaintyMm ?? ASSUMED.radius.size },
    warp: {
      of: ASSUMED.warp.of,
      size: (ASSUMED.warp.size * (cut?.warpMm ?? ASSUMED.warpHeight.size)) / ASSUMED.warpHeight.size,
    },
    zenith: { of: ASSUMED.recordZenith.of, size: cut?.zenithUncertaintyDeg ?? ASSUMED.recordZenith.size },
    verticalAngle: { of: ASSUMED.recordVerticalAngle.of, size: verticalDoubt(cut) },
    uncertified: !leak.stated && knows === null && tilt === null,
    chain: chainOf(bench),
  };
}
