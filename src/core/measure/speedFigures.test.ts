/** The speed's figure from tones whose means are written down: which of them tell it, and how sure they are together. */
import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { coverageFactor } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { type MadeTone, madeCut, madeSide, madeTone } from './handMade.fixture.ts';
import { fitRotation } from './rotation.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { meanFrequency, speedFigures, speedOfTone, wowHeard } from './speed.ts';

const TURN_HZ = 100 / 180;
/** A tone whose trace holds `of`, ratio; too short for a fit unless said otherwise. */
function tone(
  index: number,
  hz: number,
  ratio: number,
  { lengthS = 1, of = () => 0, ...more }: MadeTone & { lengthS?: number; of?: (t: number) => number } = {},
): ToneBand {
  const meanHz = hz * (1 + ratio);
  const deviation = Float64Array.from({ length: lengthS * 20 }, (_, n) => of(n / 20));
  return madeTone({
    segments: [{ trace: { rateHz: 20, startS: 0, meanHz, deviation, groupS: 0.05 } }],
    ...more,
    band: { index, frequencyHz: meanHz, ...more.band },
  });
}
/** Standard, of a tone of one second: a swing of 0.1 % over 5/9 of a turn. */
const SHORT = 1e-3 / (Math.SQRT2 * Math.PI * TURN_HZ);
const figures = (tones: ToneBand[], speed = tones, more: Partial<SideReadings> = {}) =>
  speedFigures(madeSide({ tones, ...more }), speed);

describe('a tone too short for a fit', () => {
  it('hides up to a/√2πn of a swing over n turns, the whole of it in less than a third of a turn', () => {
    const spread = (lengthS: number, by = 1e-3) => {
      const { value, variance, degreesOfFreedom } = meanFrequency(
        tone(0, 1000, 0.01, { lengthS }).reading.segments[0],
        TURN_HZ,
        () => by,
      );
      expect([value, degreesOfFreedom]).toEqual([1010, 50]);
      return Math.sqrt(variance) / 1010;
    };
    expect(spread(2)).toBeCloseTo(SHORT / 2, 9);
    expect(spread(2, 3e-3)).toBeCloseTo((3 * SHORT) / 2, 9);
    expect(spread(0.5)).toBeCloseTo(1e-3 / Math.SQRT2, 9);
    expect(spread(0.6)).toBeCloseTo(1e-3 / (Math.SQRT2 * Math.PI * 0.6 * TURN_HZ), 9);
  });

  it('may swing 2.4 times as the longer tones do, with what these are unsure by', () => {
    const long = tone(0, 1000, 0, {
      lengthS: 9,
      of: (t) => 1e-3 * Math.cos(2 * Math.PI * TURN_HZ * t) + 1e-4 * ((t * 7) % 1),
    });
    const other = tone(1, 1000, 0, { lengthS: 9 });
    const { re, im, variance } = fitRotation(long.reading.segments[0].trace, TURN_HZ)!;
    expect(wowHeard([other, long, tone(2, 1000, 0)], TURN_HZ)).toBeCloseTo(
      2.4 * (Math.hypot(re, im) + 2 * Math.sqrt(variance)),
      12,
    );
    expect(wowHeard([tone(2, 1000, 0)], TURN_HZ)).toBe(1e-3);
    expect(wowHeard([], TURN_HZ)).toBe(1e-3);
  });

  it('a longer one has the mean of whole turns', () => {
    const [segment] = tone(0, 1000, 0, { lengthS: 9, of: (t) => 1e-4 * ((t * 7) % 1) + 1e-5 * t }).reading.segments;
    const fit = fitRotation(segment.trace, TURN_HZ)!;
    expect(meanFrequency(segment, TURN_HZ, () => 1)).toEqual({
      value: 1000 * (1 + fit.meanCorrection),
      variance: 1000 ** 2 * fit.meanVariance,
      degreesOfFreedom: fit.meanFreedom,
    });
  });
});

describe('speed of a tone', () => {
  const nominal = { hz: 1000, source: 'assumed' as const };

  it('is its mean over the nominal, less one', () => {
    const one = tone(0, 1000, 0.02);
    const { value, variance } = speedOfTone(one, nominal, madeSide({ tones: [one] }));
    expect(value).toBeCloseTo(0.02, 12);
    // the platter turns 1.02 times as fast: so many more turns
    expect(Math.sqrt(variance)).toBeCloseTo((1.02 * SHORT) / 1.02, 9);
  });

  it('the platter is taken to turn as fast as the tone tells, from 0.7 to 1.3 times what is stated', () => {
    const spread = (ratio: number) => {
      const one = tone(0, 1000, ratio);
      return Math.sqrt(speedOfTone(one, nominal, madeSide({ tones: [one] })).variance) / (1 + ratio) / SHORT;
    };
    expect(spread(0.29)).toBeCloseTo(1 / 1.29, 9);
    expect(spread(0.5)).toBeCloseTo(1 / 1.3, 9);
    expect(spread(-0.29)).toBeCloseTo(1 / 0.71, 9);
    expect(spread(-0.4)).toBeCloseTo(1 / 0.7, 9);
    const one = tone(0, 1000, 0);
    expect(speedOfTone(one, nominal, madeSide({ tones: [one], rpm: 45 })).variance).toBeCloseTo(
      (SHORT / 1.35) ** 2,
      12,
    );
  });
});

describe('which tones tell the speed', () => {
  it('none where no nominal is known', () => {
    expect(figures([tone(0, 700, 0)])).toEqual({
      findings: [],
      problems: [withheld('speed-error', statement('no-known-tone'))],
      speed: null,
    });
    expect(figures([]).speed).toBeNull();
  });

  it('one alone: its speed with the ± of its own, and what its nominal is from', () => {
    const one = tone(3, 3150, 0.004);
    const { findings, problems, speed } = figures([one]);
    expect(problems).toEqual([]);
    expect(speed).toEqual({
      value: expect.closeTo(0.004, 12),
      variance: expect.closeTo(SHORT ** 2, 12),
      degreesOfFreedom: 50,
    });
    expect(findings).toEqual([
      {
        quantity: 'speed-error',
        value: expect.closeTo(0.4, 9),
        unit: '%',
        asHeard: expect.closeTo(0.4, 9),
        uncertainty: expect.closeTo(100 * coverageFactor(50) * SHORT, 4),
        bands: [3],
        notes: [statement('speed-assumed', { names: '3150 Hz' })],
      },
    ]);
    expect(figures([one], [one], { nominalSpeedToneHz: 3150 }).findings[0].notes).toEqual([
      statement('speed-as-stated', { names: '3150 Hz' }),
    ]);
    const cut = { ...one, cut: madeCut({ frequencyHz: 3160 }) };
    expect(figures([cut]).findings[0].notes).toEqual([statement('speed-of-record-file', { names: '3160 Hz' })]);
  });

  it('tones that agree within what they allow join in, and are named with the seconds of all', () => {
    const speed = [tone(5, 3150, 0.001), tone(4, 3000, 0.0012, { segments: [{ usedS: 4 }] })];
    const more = tone(2, 1000, 0.0011);
    const trace = { rateHz: 20, startS: 0, meanHz: 3000 * 1.0012, deviation: new Float64Array(20), groupS: 0.05 };
    speed[1] = {
      ...speed[1],
      reading: { ...speed[1].reading, segments: [{ ...speed[1].reading.segments[0], trace }] },
    };
    const { findings } = figures([more, ...speed, tone(1, 700, 0)], speed);
    expect(findings[0].bands).toEqual([2, 4, 5]);
    expect(findings[0].notes).toEqual([
      statement('speed-assumed', { names: '3150 Hz and 3000 Hz' }),
      statement('other-tones-used', { seconds: 20 }),
    ]);
    // 8, 4 and 8 s
    expect(findings[0].value).toBeCloseTo((8 * 0.1 + 4 * 0.12 + 8 * 0.11) / 20, 9);
  });

  it('a companion lasts three seconds', () => {
    const speed = tone(0, 3150, 0);
    const bands = (usedS: number) => figures([speed, { ...tone(1, 1000, 0), usedS }], [speed]).findings[0].bands;
    expect(bands(3)).toEqual([0, 1]);
    expect(bands(2.99)).toEqual([0]);
  });

  it('a tone twice five in ten thousand off stays out, and one less far where both are sure', () => {
    const long = (index: number, ratio: number) =>
      tone(index, index === 0 ? 3150 : 1000, ratio, { lengthS: 36, of: (t) => 1e-6 * Math.sin(47 * t * t) });
    const bands = (a: ToneBand, b: ToneBand) => figures([a, b], [a]).findings[0].bands;
    expect(bands(long(0, 0), long(1, 4.9e-4))).toEqual([0, 1]);
    expect(bands(long(0, 0), long(1, -4.9e-4))).toEqual([0, 1]);
    expect(bands(long(0, 0), long(1, 5.3e-4))).toEqual([0]);
    // short ones allow for twice as much, and no more
    expect(bands(tone(0, 3150, 0), tone(1, 1000, 9.9e-4))).toEqual([0, 1]);
    expect(bands(tone(0, 3150, 0), tone(1, 1000, 1.01e-3))).toEqual([0]);
    // in between it grows with what both are unsure by: of 4 s each is off by a quarter of what one second is
    const four = (index: number, hz: number, ratio: number) => tone(index, hz, ratio, { lengthS: 2.6 });
    const allowed = 5e-4 * Math.min(2, 1 + 3 * Math.sqrt(2) * (SHORT / 2.6 / 5e-4));
    expect(bands(four(0, 3150, 0), four(1, 1000, 0.99 * allowed))).toEqual([0, 1]);
  });

  it('of speed tones that disagree the one with most of the side counts, of two alike the one nearer to none', () => {
    const heard = (...of: [number, number, number][]) => {
      const tones = of.map(([hz, ratio, usedS], i) => ({ ...tone(i, hz, ratio), usedS }));
      const speed = tones.filter(({ meanHz }) => meanHz > 2900);
      const [{ bands, value }] = figures(tones, speed).findings;
      return { bands, value: value as number };
    };
    expect(heard([3150, 0.01, 5], [3150, 0, 6]).bands).toEqual([1]);
    expect(heard([3150, 0.01, 6], [3150, 0, 5]).bands).toEqual([0]);
    expect(heard([3150, 0.01, 5], [3150, -0.005, 5]).bands).toEqual([1]);
    expect(heard([3150, -0.005, 5], [3150, 0.01, 5]).bands).toEqual([0]);
    expect(heard([3150, 0.01, 5], [3150, 0, 6], [1000, 0.01, 9]).bands).toEqual([0, 2]);
    expect(heard([3150, 0.01, 5], [3150, 0, 6], [1000, 0.01, 9]).value).toBeCloseTo(1, 9);
  });

  it('a speed tone whose nominal somebody stated stays in, whatever it tells', () => {
    const tones = [tone(0, 3150, 0), { ...tone(1, 3150, 0.01), cut: madeCut({ frequencyHz: 3150 }) }];
    expect(figures(tones).findings[0].bands).toEqual([0, 1]);
  });
});

describe('several tones together', () => {
  it('weigh by their length, and their variances by the squares of that', () => {
    // no scatter: one formal variance of 50 + 50 degrees, and one of scatter that is nothing
    const tones = [tone(0, 3150, 0.001), { ...tone(1, 3000, 0.001), usedS: 24 }];
    const { speed } = figures(tones);
    const formal = (0.25 ** 2 + 0.75 ** 2) * SHORT ** 2;
    expect(speed!.value).toBeCloseTo(0.001, 12);
    expect(speed!.variance / ((100 * formal) / 101)).toBeCloseTo(1, 2);
    expect(speed!.degreesOfFreedom).toBe(101);
  });

  it('the scatter counts beside what each allows, and rules where it is larger', () => {
    const scattered = (apart: number) => {
      const tones = [-1, 0, 1].map((at, i) => ({
        ...tone(i, 3150, at * apart),
        cut: madeCut({ frequencyHz: 3150 }),
      }));
      return figures(tones).speed!;
    };
    const formal = SHORT ** 2 / 3;
    const scatter = (apart: number) => (3 / 2) * ((2 * apart ** 2) / 9);
    const small = scattered(3e-4);
    expect(small.variance / ((150 * formal + 2 * scatter(3e-4)) / 152)).toBeCloseTo(1, 2);
    expect(small.degreesOfFreedom).toBe(152);
    const large = scattered(5e-3);
    expect(large.variance / scatter(5e-3)).toBeCloseTo(1, 3);
    expect(large.degreesOfFreedom).toBeCloseTo(2 + 150 * (formal / scatter(5e-3)) ** 2, 2);
    expect(large.value).toBeCloseTo(0, 9);
  });
});

it('of one tone alone a wander slower than it is hidden: told by its longest segment', () => {
  const drift = (t: number) => 2e-5 * t + 1e-5 * Math.sin(t * t);
  const [short, long] = [5, 12].map((lengthS) => tone(0, 3150, 0, { lengthS, of: drift }).reading.segments[0]);
  const one = tone(0, 3150, 0);
  for (const segments of [
    [short, long],
    [long, short],
  ]) {
    const both: ToneBand = { ...one, reading: { ...one.reading, segments } };
    const { speed } = figures([both]);
    const fit = fitRotation(long.trace, TURN_HZ)!;
    const own = speedOfTone(both, { hz: 3150, source: 'assumed' }, madeSide({ tones: [both] }));
    expect(fit.slowVariance).toBeGreaterThan(fit.meanVariance);
    expect(speed!.variance / (own.variance + fit.slowVariance - fit.meanVariance)).toBeCloseTo(1, 9);
  }
});
