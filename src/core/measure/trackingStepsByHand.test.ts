/** What each step tells, term by term, of lines written down by hand. */
import { describe, expect, it } from 'vitest';
import type { BurstReading, ChannelBursts, Lines } from './burstEstimator.ts';
import { bandsOf, heardIn, lockedZ, overAt } from './lockedTests.ts';
import { limitOverTone, RINGS_HZ, ringLine, tracedHarmonics } from './lostContact.ts';
import { hearSteps, type Step } from './trackingSteps.ts';

const HZ = 300;
const FIRST = 14;
const COUNT = 36;
const NOISE = 1e-5;

const linesOf = (count: number, of: (i: number) => number, variance = NOISE ** 2): Lines => ({
  re: Array.from({ length: count }, (_, i) => of(i)),
  im: new Array(count).fill(0),
  variance: new Array(count).fill(variance),
});
interface Wall {
  /** amplitude of every line over the tone's velocity */
  readonly lines?: number | ((i: number) => number);
  readonly variance?: number;
  readonly bursts?: number;
  readonly burstVariance?: number;
  readonly even?: number;
}
const wall = (
  cmS: number,
  { lines = 0, variance = NOISE ** 2, bursts = 0, burstVariance = 1e-12, even = 1e-5 }: Wall,
): ChannelBursts => ({
  tone: cmS ** 2 / 2,
  even: even * cmS ** 2,
  lines: linesOf(COUNT, (i) => cmS * (typeof lines === 'number' ? lines : lines(i)), variance * cmS ** 2),
  bursts: linesOf(4, () => bursts * even * cmS ** 2, burstVariance * cmS ** 4),
});
const step = (cmS: number, left: Wall = {}, right: Wall = {}): Step => {
  const of: BurstReading = { hz: HZ, first: FIRST, frames: 100, left: wall(cmS, left), right: wall(cmS, right) };
  return { cmS, band: 0, hz: HZ, grooveCmS: 40, of };
};
const flat = (_hz: number): number => 0;
const verdicts = (steps: Step[], channel: 'left' | 'right' = 'left', level = flat) =>
  hearSteps(steps, channel, level)
    .map(({ verdict }) => verdict)
    .join(' ');

describe('what is locked', () => {
  /** z of all lines at one amplitude over noise, by hand */
  const zOf = (over: number, count = COUNT) => {
    const freedom = 2 * count;
    const nine = 2 / (9 * freedom);
    return (Math.cbrt((2 * count * over ** 2) / freedom) - (1 - nine)) / Math.sqrt(nine);
  };
  /** amplitude at which the whole reaches so many deviations */
  const amplitudeAt = (z: number): number => {
    let [low, high] = [0, 10];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (zOf(middle) < z) low = middle;
      else high = middle;
    }
    return high * NOISE;
  };

  it('is silent under five deviations of noise, lost from eight on', () => {
    expect(verdicts([step(5), step(7, { lines: amplitudeAt(4.95) })])).toBe('silent silent');
    expect(verdicts([step(5), step(7, { lines: amplitudeAt(5.05) })])).not.toBe('silent silent');
    expect(verdicts([step(5), step(7, { lines: amplitudeAt(7.9) })])).toBe('silent unsure');
    expect(verdicts([step(5), step(7, { lines: amplitudeAt(9) })])).toBe('silent lost');
    expect(verdicts([step(5), step(7, {}, { lines: amplitudeAt(9) })], 'right')).toBe('silent lost');
  });

  const sure = 1e-18;
  const both = (cmS: number, lines: number, right = lines): Step =>
    step(cmS, { lines, variance: sure }, { lines: right, variance: sure });

  it('what a silent step has already may grow as the cube of the velocity, twice over', () => {
    // as much in both walls is no loss; amplitudes over the tone, so that the third power of v is the second of the ratio
    const grown = (cmS: number, times: number) => both(cmS, 0.001 * Math.sqrt(times) * (cmS / 5) ** 2);
    const of = (times: number) => verdicts([both(5, 0.001), grown(8, times)]);
    expect(of(1.9)).toBe('silent silent');
    expect(of(2.1)).toBe('silent lost');
  });

  it('what may hide in the noise of a silent step grows as well: until twice that a step is no more than unsure', () => {
    const [v, a] = [NOISE ** 2, 1.2 * NOISE];
    const first = step(5, { lines: a });
    expect(verdicts([first])).toBe('silent');
    // Σ|M|² beyond noise and its spread, of all lines
    const may = 2 * (a * a - v + v / Math.sqrt(COUNT)) * (8 / 5) ** 4;
    const of = (times: number) => verdicts([first, both(8, Math.sqrt(times * may), 0)]);
    expect(of(0.98)).toBe('silent unsure');
    expect(of(1.02)).toBe('silent lost');
  });

  it('the share is all that is locked, over the tone’s power', () => {
    const one = step(7, { lines: 0.01 });
    const [, heard] = hearSteps([step(5), one], 'left', flat);
    const { power } = heardIn(one.of, 'left', { from: 0, to: COUNT });
    expect(heard.share).toBeCloseTo(power / (49 / 2), 12);
    const [none] = hearSteps([step(5)], 'left', flat);
    expect(none.share).toBe(0);
  });

  it('with nothing softer to compare with, five times the least share of all is no loss', () => {
    const first = (times: number) => verdicts([both(5, 0.001 * Math.sqrt(times)), both(7, 0.001)]).split(' ')[0];
    expect(first(9.9)).toBe('silent');
    expect(first(10.1)).toBe('lost');
  });

  it('what a round tip traces is none', () => {
    // a groove so slow that the ball nearly bridges: 2/n of the n-th harmonic, half its peak in the lines
    const groove = (one: Step): Step => ({ ...one, grooveCmS: 5 });
    const level = (hz: number): number => (hz > 2 * HZ ? -20 : 0);
    const of = (times: number, by: (hz: number) => number) => {
      const lines = (i: number) => Math.sqrt(times) / (FIRST + i);
      return verdicts([step(5), groove(step(10, { lines, variance: sure }))], 'left', by).split(' ')[1];
    };
    expect(tracedHarmonics(HZ, 10 * Math.SQRT1_2, 5)(20)).toBe(0.1);
    expect(of(1.98, flat)).toBe('silent');
    expect(of(2.02, flat)).toBe('lost');
    // through a chain that falls by 20 dB from the tone up a hundredth of it comes
    expect(of(0.0198, level)).toBe('silent');
    expect(of(0.0202, level)).toBe('lost');
  });
});

describe('bursts at one place', () => {
  const sure = 1e-16;
  const of = (left: Wall, right: Wall = {}) => verdicts([step(5, left, right)]);

  it('are lost where they are deeper than a fifth, unsure from a twentieth on', () => {
    expect(of({ bursts: 0.049, burstVariance: sure })).toBe('silent');
    expect(of({ bursts: 0.051, burstVariance: sure })).toBe('unsure');
    expect(of({ bursts: 0.199, burstVariance: sure })).toBe('unsure');
    expect(of({ bursts: 0.201, burstVariance: sure })).toBe('lost');
  });

  it('as sure as noise leaves them: five deviations, and eight to be lost', () => {
    const z = (bursts: number, burstVariance: number) => lockedZ(wall(5, { bursts, burstVariance }).bursts, 0, 4);
    // variance so that |bursts|² of four lines stands so far out
    const at = (wanted: number) => {
      let [low, high] = [1e-20, 1e-5];
      for (let i = 0; i < 100; i++) {
        const middle = Math.sqrt(low * high);
        if (z(0.5, middle) > wanted) low = middle;
        else high = middle;
      }
      return low;
    };
    expect(of({ bursts: 0.5, burstVariance: at(4.9) })).toBe('silent');
    expect(of({ bursts: 0.5, burstVariance: at(5.1) })).toBe('unsure');
    expect(of({ bursts: 0.5, burstVariance: at(7.9) })).toBe('unsure');
    expect(of({ bursts: 0.5, burstVariance: at(8.1) })).toBe('lost');
  });

  it('that the other wall has five times as much of are its leak; over half of the other’s they are the wall’s own', () => {
    const right = (bursts: number) => ({ bursts, burstVariance: sure });
    const left = { bursts: 0.3, burstVariance: sure };
    expect(of(left, right(0.3 / 0.19))).toBe('silent');
    expect(of(left, right(0.3 / 0.21))).toBe('unsure');
    expect(of(left, right(0.3 / 0.49))).toBe('unsure');
    expect(of(left, right(0.3 / 0.51))).toBe('lost');
    // by power over the tone, not by depth alone
    expect(of({ ...left, even: 1e-6 }, { bursts: 0.3, burstVariance: sure, even: 1e-5 })).toBe('silent');
  });

  it('the noise of the bursts is taken off their depth', () => {
    const depth = (bursts: number, variance: number) => of({ bursts, burstVariance: variance, even: 1e-5 });
    // √(0.205² − 0.05²) = 0.199, √(0.21² − 0.05²) = 0.204
    expect(depth(0.205, (0.05 * 1e-5) ** 2)).toBe('unsure');
    expect(depth(0.21, (0.05 * 1e-5) ** 2)).toBe('lost');
  });
});

describe('the lag that would have been heard', () => {
  /** By the formula: of the least of all bands for each ring, the most of all rings, over the share that is alike. */
  function reference(one: Step, explained: (from: number, to: number) => number, level: (hz: number) => number) {
    const { lines, tone } = one.of.left;
    const lags = RINGS_HZ.map((ringHz) =>
      Math.min(
        ...bandsOf(one.of).map(({ from, to }) => {
          let [ring, noise] = [0, 0];
          for (let i = from; i < to; i++) {
            const hz = (FIRST + i) * HZ;
            ring += (ringLine(ringHz, HZ, hz) * 10 ** ((level(hz) - level(HZ)) / 20)) ** 2;
            noise += lines.variance[i];
          }
          const needed = Math.max(noise * (overAt(6.6, 2 * (to - from)) - 1), explained(from, to));
          return Math.sqrt(needed / ring) / Math.sqrt(2 * tone);
        }),
      ),
    );
    return Math.max(...lags) / 0.3;
  }

  it('is what noise hides, or what is explained otherwise, wherever it rings, through the chain', () => {
    const level = (hz: number): number => -6 * Math.log2(hz / 1000);
    const steps = [step(5), step(10, {}, { lines: 3e-4 })];
    const told = hearSteps(steps, 'left', level);
    const traced = tracedHarmonics(HZ, 10 * Math.SQRT1_2, 40);
    const explained = (from: number, to: number): number => {
      let power = 0;
      for (let i = from; i < to; i++) {
        const order = FIRST + i;
        power += 25 * (traced(order) * 10 ** ((level(order * HZ) - level(HZ)) / 20)) ** 2;
      }
      return 2 * power + heardIn(steps[1].of, 'left', { from, to }).left;
    };
    expect(told[1].lag).toBeCloseTo(reference(steps[1], explained, level), 9);
    expect(told[1].limitOverTone).toBeCloseTo(limitOverTone(told[1].lag), 12);
  });
});
