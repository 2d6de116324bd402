import { describe, expect, it } from 'vitest';
import type { Complex } from '../units/complex.ts';
import type { LowSweepPoint, LowSweepReading } from './lowSweepEstimator.ts';
import { placeOf, sweptResonance } from './lowSweepFit.ts';
import { lawAt, type SweepCut, type SweepPlace } from './lowSweepPlace.ts';
import { sweptTransfer } from './sweptArm.ts';

const F0 = 9.5;
const Q = 3.2;
const polar = (size: number, angle: number): Complex => ({ re: size * Math.cos(angle), im: size * Math.sin(angle) });
const mul = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const linear: SweepCut = { fromHz: 4, toHz: 24, law: 'linear', durationS: 30 };
const log: SweepCut = { fromHz: 25, toHz: 4, law: 'log', durationS: 30 };

/** dB of a tone so many cycles beside the middle of a Hann window: ∫ cos² cos over it */
function besideDb(cycles: number): number {
  let sum = 0;
  for (let i = 0; i < 400; i++) {
    const t = (i + 0.5) / 400 - 0.5;
    sum += (1 + Math.cos(2 * Math.PI * t)) * Math.cos(2 * Math.PI * cycles * t);
  }
  return 20 * Math.log10(Math.abs(sum / 400));
}

interface Heard {
  /** as the law was first placed, and as it plays */
  readonly place?: SweepPlace | null;
  readonly played?: SweepPlace;
  readonly left?: Complex;
  readonly right?: Complex;
  readonly noise?: number;
  readonly offDb?: (hz: number) => number;
  /** the arm answers as it does to a sweep; else as to steady tones, which is quicker worked out */
  readonly swept?: boolean;
}
/** The arm’s own answer along a law, against the phase of the place where the law is thought to lie. */
function reading(cut: SweepCut, heard: Heard = {}): LowSweepReading {
  const place = heard.place === undefined ? { startS: 1, lengthS: 30 } : heard.place;
  const thought = place ?? { startS: 1, lengthS: 30 };
  const played = heard.played ?? thought;
  const points: LowSweepPoint[] = [];
  for (let s = 1; s < 29; s += 0.7) {
    const law = lawAt(cut, thought, thought.startS + s);
    const true_ = lawAt(cut, played, thought.startS + s);
    const windowS = 1;
    const arm = sweptTransfer({ hz: true_.hz, hzPerS: heard.swept === true ? true_.hzPerS : 0, windowS }, F0, Q);
    const level = 10 ** (((heard.offDb?.(true_.hz) ?? 0) + besideDb((true_.hz - law.hz) * windowS)) / 20);
    const z = mul(arm, polar(level, 2 * Math.PI * (true_.cycles - law.cycles)));
    const left = mul(z, heard.left ?? polar(0.1, 0.3));
    const right = mul(z, heard.right ?? polar(0.1, 0.3));
    points.push({
      s,
      hz: law.hz,
      hzPerS: heard.swept === true ? law.hzPerS : 0,
      windowS,
      left,
      right,
      noise: heard.noise ?? 1e-9,
    });
  }
  return { sheetBand: 2, cut, place, points };
}
const flat = (): number => 0;
const told = (...of: Parameters<typeof sweptResonance>) => {
  const { fit } = sweptResonance(...of);
  if ('why' in fit) throw new Error(fit.why);
  return fit;
};
describe('levels along a sweep', () => {
  const points = (
    heard: Heard,
    direction: 'lateral' | 'vertical',
    whole: boolean,
    off: (hz: number) => number = flat,
  ) => sweptResonance(reading(linear, { place: null, noise: 2e-5, ...heard }), direction, whole, off);

  it('of both channels together where they move in one direction alone, whatever their phases', () => {
    const heard = { left: polar(0.1, 0.3), right: polar(0.05, 2) };
    const of = points(heard, 'lateral', true);
    const source = reading(linear, { place: null, noise: 2e-5, ...heard }).points.filter(
      ({ left: l, right: r, noise }) => l.re ** 2 + l.im ** 2 + r.re ** 2 + r.im ** 2 > 3 * noise,
    );
    expect(of.points).toHaveLength(source.length);
    expect(of.seconds).toEqual(source.map(({ s }) => s));
    source.forEach(({ left: l, right: r, noise, ...point }, i) => {
      const whole = l.re ** 2 + l.im ** 2 + r.re ** 2 + r.im ** 2;
      const power = Math.max(whole - noise, 0.1 * whole);
      expect(of.points[i]).toEqual({
        hz: point.hz,
        hzPerS: point.hzPerS,
        windowS: 1,
        rise: expect.closeTo(0, 12),
        db: expect.closeTo(10 * Math.log10(power), 9),
        spread: expect.closeTo(((10 / Math.LN10) * Math.sqrt(2 * power * noise + noise ** 2)) / power, 9),
      });
    });
  });

  it.each([
    ['lateral', 1],
    ['vertical', -1],
  ] as const)('%s: of what is in step alone, half of the noise with it', (direction, sign) => {
    const heard = { left: polar(0.1, 0.3), right: polar(0.06, 0.9) };
    const of = points(heard, direction, false);
    const noise = 1e-5;
    const source = reading(linear, { place: null, ...heard }).points.flatMap(({ left: l, right: r }) => {
      const sum = ((l.re + sign * r.re) ** 2 + (l.im + sign * r.im) ** 2) / 2;
      return sum > 3 * noise ? [10 * Math.log10(Math.max(sum - noise, 0.1 * sum))] : [];
    });
    expect(of.points).toHaveLength(source.length);
    of.points.forEach(({ db }, i) => {
      expect(db).toBeCloseTo(source[i], 9);
    });
  });

  it('what cut and chain make of them is taken off, and how it rises as the sweep goes on is told', () => {
    const off = (hz: number): number => 6 * Math.log2(hz);
    const [plain, less] = [points({ swept: true }, 'lateral', true), points({ swept: true }, 'lateral', true, off)];
    less.points.forEach((point, i) => {
      expect(point.db).toBeCloseTo(plain.points[i].db - off(point.hz), 9);
      // d ln G/dt of 6 dB an octave
      const perHz = (6 / Math.LN2 / point.hz) * (Math.LN10 / 20);
      expect(point.rise).toBeCloseTo(perHz * point.hzPerS, 3);
    });
    // power that noise nearly makes alone counts for a tenth at least
    const drowned = points({ noise: 0.003 }, 'lateral', true);
    expect(drowned.points.length).toBeLessThan(plain.points.length);
  });

  it('silence in one channel leaves the other', () => {
    const of = points({ right: { re: 0, im: 0 }, noise: 1e-8 }, 'lateral', true);
    expect(of.points.length).toBeGreaterThan(35);
  });
});

describe('f₀ and Q of one direction', () => {
  it.each([
    ['linear', linear],
    ['log', log],
  ] as const)('%s, where the law lies as it was thought', (_, cut) => {
    const fit = told(reading(cut, { place: null, swept: cut === linear }), 'lateral', true, flat);
    expect(fit.hz).toBeCloseTo(F0, 2);
    expect(fit.q / Q).toBeCloseTo(1, 2);
  });

  it.each([
    ['linear, begun later', linear, { startS: 1.15, lengthS: 30 }],
    ['linear, played faster', linear, { startS: 0.9, lengthS: 29.7 }],
    ['log, begun earlier', log, { startS: 0.9, lengthS: 30 }],
    ['log, played slower', log, { startS: 1.1, lengthS: 30.2 }],
  ] as const)('%s than thought: the phase tells the frequency as played, and the place', (_, cut, played) => {
    const heard = reading(cut, { played });
    const of = sweptResonance(heard, 'lateral', true, flat);
    if ('why' in of.fit) throw new Error(of.fit.why);
    expect(of.fit.hz / F0).toBeCloseTo(1, 2);
    expect(of.fit.q / Q).toBeCloseTo(1, 2);
    const source = heard.points;
    of.points.forEach(({ hz, db }, i) => {
      const true_ = lawAt(cut, played, 1 + of.seconds[i]).hz;
      expect(Math.abs(hz - true_), `${of.seconds[i]} s`).toBeLessThan(0.02);
      const { left: l, right: r, hz: law } = source[i];
      const power = l.re ** 2 + l.im ** 2 + r.re ** 2 + r.im ** 2 - 1e-9;
      expect(db).toBeCloseTo(10 * Math.log10(power) - besideDb(hz - law), 4);
    });
    const place = placeOf(heard, of);
    expect(Math.abs((place?.startS ?? 99) - played.startS)).toBeLessThan(0.02);
    expect(Math.abs((place?.lengthS ?? 99) - played.lengthS)).toBeLessThan(0.03);
  });

  it('the channels may be in any phase to one another where they move in one direction alone', () => {
    const played = { startS: 1.15, lengthS: 30 };
    for (const right of [polar(0.1, 2), polar(0.05, -2.5), polar(0.12, 3.1)]) {
      const fit = told(reading(linear, { played, right }), 'lateral', true, flat);
      expect(fit.hz / F0).toBeCloseTo(1, 3);
    }
    const vertical = told(reading(linear, { played, right: polar(-0.1, 0.3) }), 'vertical', false, flat);
    expect(vertical.hz / F0).toBeCloseTo(1, 3);
  });

  it('an equalisation of the chain is taken off at the frequencies as played', () => {
    const offDb = (hz: number): number => -3 * Math.log2(hz);
    const fit = told(reading(linear, { offDb, played: { startS: 1.1, lengthS: 30 } }), 'lateral', true, offDb);
    expect(fit.hz / F0).toBeCloseTo(1, 2);
    expect(fit.q / Q).toBeCloseTo(1, 1);
  });

  it('what drowns says why', () => {
    expect(sweptResonance(reading(linear, { noise: 10 }), 'lateral', true, flat)).toEqual({
      fit: { why: 'resonance-no-fit' },
      points: [],
      seconds: [],
    });
  });
});

describe('start and length of a sweep that would have these frequencies', () => {
  const levels = (hz: (s: number) => number, count = 20) => {
    const seconds = Array.from({ length: count }, (_, i) => 2 + i);
    return {
      points: seconds.map((s) => ({ hz: hz(s) })),
      seconds,
      fit: { why: 'resonance-no-fit' },
    } as unknown as Parameters<typeof placeOf>[1];
  };
  const of = (cut: SweepCut, hz: (s: number) => number, count?: number) =>
    placeOf({ sheetBand: 0, cut, place: { startS: 1, lengthS: 30 }, points: [] }, levels(hz, count));

  it('by the law’s own straight line: frequency, or its logarithm', () => {
    // begins 0.6 s after, lasts 28 s
    const place = of(linear, (s) => 4 + (20 * (s - 0.6)) / 28);
    expect(place?.startS).toBeCloseTo(1.6, 9);
    expect(place?.lengthS).toBeCloseTo(28, 9);
    const falling = of(log, (s) => 25 * (4 / 25) ** ((s + 0.4) / 31));
    expect(falling?.startS).toBeCloseTo(0.6, 9);
    expect(falling?.lengthS).toBeCloseTo(31, 9);
  });

  it('the place as it was where that is 15 % off, or too few points tell', () => {
    const held = { startS: 1, lengthS: 30 };
    const lasting = (lengthS: number) => of(linear, (s) => 4 + (20 * s) / lengthS);
    expect(lasting(30 / 1.149)?.lengthS).toBeCloseTo(30 / 1.149, 6);
    expect(lasting(30 / 1.151)).toEqual(held);
    expect(lasting(30 / 0.851)?.lengthS).toBeCloseTo(30 / 0.851, 6);
    expect(lasting(30 / 0.849)).toEqual(held);
    expect(of(linear, () => 9)).toEqual(held);
    expect(of(linear, (s) => 4 + (20 * s) / 28, 3)).toEqual(held);
    expect(of(linear, (s) => 4 + (20 * s) / 28, 4)?.lengthS).toBeCloseTo(28, 6);
    expect(
      placeOf(
        { sheetBand: 0, cut: linear, place: null, points: [] },
        levels((s) => s),
      ),
    ).toBeNull();
  });
});
