/**
 * Steps of level, softest first → of each, whether the wall is silent, lost, or neither can be said, and what lost contact would have been heard.
 *
 * What counts beside noise: what a round tip traces, and what a step that was silent has already: it may grow as the cube of the velocity (a bend of third order). Two thresholds, and between them neither.
 */
import type { BurstReading } from './burstEstimator.ts';
import { type BandHeard, bandsOf, heardIn, lockedZ, overAt } from './lockedTests.ts';
import { limitOverTone, RINGS_HZ, ringLine, tracedHarmonics } from './lostContact.ts';

export interface Step {
  /** peak, lateral, as the record file states it */
  readonly cmS: number;
  readonly band: number;
  /** Hz as cut */
  readonly hz: number;
  /** cm/s */
  readonly grooveCmS: number;
  readonly of: BurstReading;
}

type Channel = 'left' | 'right';

export interface StepHeard {
  readonly verdict: 'silent' | 'unsure' | 'lost';
  /** Σ|M|² over the tone's power, of all that is locked and the wall's own */
  readonly share: number;
  /** lag of the tip over the tone's velocity that would have been heard, and the limit over the tone's velocity that makes it */
  readonly lag: number;
  readonly limitOverTone: number;
}

/** deviations from noise: silent under the first, lost over the second; what is heard at all but surely lies so much over the first */
const [SILENT_Z, LOST_Z, HEARD_Z] = [5, 8, 1.6];
/** power of a harmonic that grows smoothly, over the tone's power */
const GROWTH = 3;
/** over what is explained, power */
const OVER = 2;
/** of bursts over the even power, where they are not alike from period to period; and over the other wall's */
const [DEPTH, LOST_DEPTH, OVER_OTHER] = [0.05, 0.2, 0.5];
/** amplitude of a ring that is alike from period to period, over the whole. House guess: no tip is caught quite alike */
const ALIKE = 0.3;
/** over the least share of all steps, where nothing softer is to be compared with */
const OVER_LEAST = 5;

/** dB → in the readings' scale */
type LevelAt = (hz: number) => number;

/** @param levelDb of the chain for the same velocity, dB */
export function hearSteps(steps: readonly Step[], channel: Channel, levelDb: LevelAt): StepHeard[] {
  const heard = steps.map(({ of }) => bandsOf(of).map((band) => heardIn(of, channel, band)));
  const base = leastShares(steps);
  const silent: number[] = [];
  return steps.map((step, k): StepHeard => {
    const { tone } = step.of[channel];
    const lines = tracedPowers(step, tone, levelDb);
    const tests = heard[k].map((band, b): Test => {
      const grown = (j: number): number => (tone / Math.max(1e-40, steps[j].of[channel].tone)) ** GROWTH;
      const before = silent.map((j) => ({ ...heard[j][b], by: grown(j) }));
      const seen = before.filter(({ z }) => z > 3).map(({ power, by }) => power * by);
      const most = before.map(({ power, spread, by }) => (Math.max(0, power) + spread) * by);
      const least = silent.length === 0 ? OVER_LEAST * base[b] * tone : 0;
      const traced = lines.slice(band.from, band.to).reduce((sum, power) => sum + power, 0);
      return {
        band,
        explained: OVER * Math.max(traced, least, ...seen) + band.left,
        atMost: OVER * Math.max(traced, least, ...seen, most.length === 0 ? 0 : Math.min(...most)) + band.may,
      };
    });
    const bursts = burstsOf(step, channel);
    const verdict = tests.some((test) => isOver(test, LOST_Z, test.atMost)) || bursts === 'lost' ? 'lost' : null;
    const unsure = bursts === 'unsure' || tests.some((test) => isOver(test, SILENT_Z, test.explained));
    if (verdict === null && !unsure) silent.push(k);
    const lag = lagHeard(step, channel, tests, levelDb);
    return {
      verdict: verdict ?? (unsure ? 'unsure' : 'silent'),
      share: Math.max(0, heard[k][heard[k].length - 1].power) / Math.max(1e-40, tone),
      lag,
      limitOverTone: limitOverTone(lag),
    };
  });
}

interface Test {
  readonly band: BandHeard;
  /** power that something else than a lost tip makes, and at most makes */
  readonly explained: number;
  readonly atMost: number;
}

const isOver = ({ band }: Test, z: number, power: number): boolean => band.z >= z && band.power > power;

/** Of each band, over both walls and all steps: a wall that is lost from the first step on has nothing of its own to be held against, the other one has. */
function leastShares(steps: readonly Step[]): number[] {
  const shares = steps.flatMap(({ of }) =>
    (['left', 'right'] as const).map((channel) =>
      bandsOf(of).map((band) => {
        const { power, spread } = heardIn(of, channel, band);
        return (Math.max(0, power) + spread) / Math.max(1e-40, of[channel].tone);
      }),
    ),
  );
  return shares[0].map((_, b) => Math.min(...shares.map((one) => one[b] ?? 0)));
}

const gainBetween = (levelDb: LevelAt, hz: number, tone: number): number => 10 ** ((levelDb(hz) - levelDb(tone)) / 20);

/** Σ|M|² of each of the step's lines that tracing may put there. */
function tracedPowers({ cmS, grooveCmS, of }: Step, tone: number, levelDb: LevelAt): number[] {
  const traced = tracedHarmonics(of.hz, cmS * Math.SQRT1_2, grooveCmS);
  return of.left.lines.re.map((_, i) => {
    const order = of.first + i;
    // half the peak
    return (tone / 2) * (traced(order) * gainBetween(levelDb, order * of.hz, of.hz)) ** 2;
  });
}

/** Bursts at one place that are never alike. */
function burstsOf({ of }: Step, channel: Channel): StepHeard['verdict'] {
  const depth = (of_: Channel): number => {
    const { bursts, even } = of[of_];
    const square = bursts.re.reduce((sum, re, i) => sum + re ** 2 + bursts.im[i] ** 2 - bursts.variance[i], 0);
    return Math.sqrt(Math.max(0, square) / bursts.re.length) / Math.max(1e-40, even);
  };
  const other = channel === 'left' ? 'right' : 'left';
  const own = { z: lockedZ(of[channel].bursts, 0, of[channel].bursts.re.length), depth: depth(channel) };
  const powerOf = (of_: Channel): number => (depth(of_) * of[of_].even) / Math.max(1e-40, of[of_].tone);
  if (own.z < SILENT_Z || own.depth < DEPTH || powerOf(channel) < MOST_BURST_LEAK * powerOf(other)) return 'silent';
  return own.z >= LOST_Z && own.depth > LOST_DEPTH && powerOf(channel) > OVER_OTHER * powerOf(other)
    ? 'lost'
    : 'unsure';
}
/** power of the other wall's bursts that its leak may bring */
const MOST_BURST_LEAK = 0.2;

/** Lag over the tone's velocity that is heard wherever it rings. */
function lagHeard({ of }: Step, channel: Channel, tests: readonly Test[], levelDb: LevelAt): number {
  const { lines, tone } = of[channel];
  const peak = Math.sqrt(2 * tone);
  const lags = RINGS_HZ.map((ringHz) =>
    Math.min(
      ...tests.map(({ band: { from, to }, explained }) => {
        let [ring, noise] = [0, 0];
        for (let i = from; i < to; i++) {
          const hz = (of.first + i) * of.hz;
          ring += (ringLine(ringHz, of.hz, hz) * gainBetween(levelDb, hz, of.hz)) ** 2;
          noise += lines.variance[i];
        }
        const needed = Math.max(noise * (overAt(SILENT_Z + HEARD_Z, 2 * (to - from)) - 1), explained);
        return Math.sqrt(needed / Math.max(1e-40, ring)) / Math.max(1e-40, peak);
      }),
    ),
  );
  return Math.max(...lags) / ALIKE;
}
