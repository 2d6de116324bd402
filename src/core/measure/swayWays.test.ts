/** The resonance as a tone's wavering and the groove's noise tell it, from spectra written down by hand. */
import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { expectedDb } from './chainLevel.ts';
import { madePassage, madeSide, madeTone } from './handMade.fixture.ts';
import { bodyItself, fitHump, tipAgainstBody, tipAlong } from './humpFit.ts';
import type { QuietReading } from './quietEstimator.ts';
import type { WayFigure } from './resonanceWays.ts';
import type { SideReadings } from './sideReadings.ts';
import { goesWith, type SwaySpectra } from './swaySpectra.ts';
import { byNoise, bySpeed } from './swayWays.ts';
import type { SegmentFlutter } from './toneEstimator.ts';

const BIN_HZ = 0.2;
const HZ = Float64Array.from({ length: 215 }, (_, i) => 2 + i * BIN_HZ);
const of = (at: (hz: number) => number): Float64Array => Float64Array.from(HZ, at);
type Kernel = typeof bodyItself;

/** A tone that wavers with one motion, whose own power is even: `share` of the whole wavering goes with it. */
function swayOf(kernel: Kernel, f0: number, share = 0.9, averages = 400, motion: 'lateral' | 'vertical' = 'lateral') {
  const driven = of((hz) => 1e-9 * (hz / f0) ** -1 * kernel(hz, f0, 3));
  // |deviation · conj(channel)|² · 2 over the channel's power is the part that goes with it; one bin is taken for as much as its neighbours
  const along = { re: of(() => 0), im: driven.map((p) => Math.sqrt(p / 2)) };
  const none = { re: of(() => 0), im: of(() => 0) };
  const even = of(() => 1);
  const spectra: SwaySpectra = {
    hz: HZ,
    binHz: BIN_HZ,
    averages,
    speed: driven.map((p) => p / share),
    inPhase: even,
    antiphase: even,
    withInPhase: motion === 'lateral' ? along : none,
    withAntiphase: motion === 'lateral' ? none : along,
    between: none,
  };
  return spectra;
}
const tone = (index: number, sway: SwaySpectra | null, lines: number[] = []) =>
  madeTone({
    band: { index },
    segments: [
      { flutter: { sway, lines: lines.map((hz) => ({ hz, peak: 1, spread: 0 })) } as unknown as SegmentFlutter },
    ],
  });
const side = (...tones: ReturnType<typeof tone>[]) => madeSide({ tones });

const expected = (value: number, spread: number, percent: number): WayFigure => ({
  value,
  own: 2 * spread * value,
  doubts: [{ of: assumedInTests.excitation.of, size: (value * percent) / 100 }],
});

describe('what goes with a motion', () => {
  const pair = (re: number, im: number) => ({ re: of(() => re), im: of(() => im) });
  const spectra: SwaySpectra = {
    hz: HZ.slice(0, 1),
    binHz: BIN_HZ,
    averages: 20,
    speed: of(() => 3),
    inPhase: of(() => 2),
    antiphase: of(() => 5),
    withInPhase: pair(0.7, -0.4),
    withAntiphase: pair(-0.3, 0.9),
    between: pair(0.6, 0.8),
  };

  it.each([
    ['inPhase', 2, 5, [0.7, -0.4], [-0.3, 0.9], [0.6, -0.8]],
    ['antiphase', 5, 2, [-0.3, 0.9], [0.7, -0.4], [0.6, 0.8]],
  ] as const)(
    '%s: what the other explains is taken out of both first, chance taken off',
    (motion, own, other, w, o, b) => {
      // d − o · b/other with b = other · conj(own)
      const d = [w[0] - (o[0] * b[0] - o[1] * b[1]) / other, w[1] - (o[0] * b[1] + o[1] * b[0]) / other];
      const left = own - 1 / other;
      const share = (2 * (d[0] ** 2 + d[1] ** 2)) / left / 3;
      const sure = (share - 1 / 20) / (1 - 1 / 20);
      expect(goesWith(spectra, motion)).toMatchObject({
        hz: [2],
        binHz: BIN_HZ,
        averages: 20,
        power: [expect.closeTo(3 * sure, 12)],
        coherence: [expect.closeTo(sure, 12)],
      });
      expect(goesWith(spectra, motion).whole[0]).toBe(3);
    },
  );

  it('is no more than all of it, and may fall below nothing by chance', () => {
    const loud = goesWith({ ...spectra, withInPhase: pair(9, 9) }, 'inPhase');
    expect(loud).toMatchObject({ power: [3], coherence: [1] });
    const alone = { ...spectra, between: pair(0, 0), withInPhase: pair(0, 0) };
    expect(goesWith(alone, 'inPhase')).toMatchObject({ power: [expect.closeTo(-3 / 19, 12)], coherence: [0] });
    // one motion that is wholly the other leaves nothing
    const same = { ...spectra, between: pair(Math.sqrt(10), 0) };
    expect(goesWith(same, 'inPhase').coherence).toEqual([0]);
    expect(goesWith({ ...spectra, between: pair(4, 0) }, 'inPhase').coherence).toEqual([0]);
  });
});

describe('by a tone’s wavering', () => {
  it.each([
    ['lateral', bodyItself],
    ['vertical', tipAlong],
  ] as const)('%s: f₀ and Q of the hump, with what drives it in doubt, and both curves', (direction, kernel) => {
    const sway = swayOf(kernel, 10, 0.9, 400, direction);
    const along = goesWith(sway, direction === 'lateral' ? 'inPhase' : 'antiphase');
    const usual = along.whole.map((_, i) => {
      const near = along.whole.slice(Math.max(0, i - 3), i + 4);
      return near.reduce((a, b) => a + b, 0) / near.length;
    });
    const points = along.hz.map((hz, i) => ({
      hz,
      power: along.power[i],
      spread: (m: number) => Math.sqrt((2 * Math.min(m, usual[i]) * usual[i] + usual[i] ** 2 / 400) / 400),
    }));
    const hump = fitHump(points, BIN_HZ, kernel)!;
    expect(hump.hz).toBeCloseTo(10, 0);
    const { way, curves } = bySpeed(side(tone(4, sway)), direction, false)!;
    expect(way).toEqual({
      way: 'speed',
      direction,
      hz: expected(hump.hz, hump.hzSpread, 5),
      q: expected(hump.q, hump.qSpread, 25),
      bands: [4],
      notes: [statement('resonance-by-speed', { band: 5 })],
    });
    const common = {
      quantity: `resonance-speed-${direction}`,
      x: hump.points.map(({ hz }) => hz),
      xUnit: 'Hz',
      yUnit: 'dB',
    };
    const db = (power: number) => 10 * Math.log10(Math.max(1e-4, power / hump.level));
    expect(curves).toEqual([
      { ...common, name: 'heard', y: hump.points.map(({ power }) => db(power)) },
      { ...common, name: 'fitted', y: hump.points.map(({ fitted }) => db(fitted)) },
    ]);
  });

  it('with a channel upside down the other motion tells it', () => {
    const sway = swayOf(bodyItself, 10, 0.9, 400, 'vertical');
    expect(bySpeed(side(tone(0, sway)), 'lateral', true)?.way.hz.value).toBeCloseTo(10, 0);
    expect(bySpeed(side(tone(0, sway)), 'lateral', false)).toBeNull();
  });

  it('the longest tone that tells it counts', () => {
    const value = (...tones: ReturnType<typeof tone>[]) => bySpeed(side(...tones), 'lateral', false)?.way.bands;
    const [short, long] = [swayOf(bodyItself, 9, 0.9, 300), swayOf(bodyItself, 11, 0.9, 400)];
    expect(value(tone(0, short), tone(1, long), tone(2, null))).toEqual([1]);
    expect(value(tone(0, long), tone(1, short))).toEqual([0]);
    expect(value(tone(0, null))).toBeUndefined();
    expect(value(madeTone({ segments: [] }))).toBeUndefined();
    expect(value(madeTone())).toBeUndefined();
  });

  it('a third of the wavering about the resonance must go with the motion', () => {
    const at = (share: number) => bySpeed(side(tone(0, swayOf(bodyItself, 10, share, 4000))), 'lateral', false);
    expect(at(0.32)).not.toBeNull();
    expect(at(0.28)).toBeNull();
  });

  it('lines of flutter say nothing: bins within two and a half of one are left out', () => {
    const sway = swayOf(bodyItself, 10);
    const loud = (offBins: number, lines: number[]) => {
      const at = 12 + offBins * BIN_HZ;
      const power = sway.withInPhase.im.map((v, i) => (Math.abs(HZ[i] - at) < 0.01 ? 40 * v : v));
      const speed = sway.speed.map((v, i) => (Math.abs(HZ[i] - at) < 0.01 ? 1600 * v : v));
      const spoiled = { ...sway, speed, withInPhase: { ...sway.withInPhase, im: power } };
      return bySpeed(side(tone(0, spoiled, lines)), 'lateral', false)?.curves[0].x.some(
        (hz) => Math.abs(hz - at) < 0.01,
      );
    };
    expect(loud(2, [12])).toBe(false);
    expect(loud(-2, [12])).toBe(false);
    expect(loud(3, [12])).not.toBe(false);
  });
});

describe('by the groove’s noise', () => {
  const chain = { flat: true, preamp: null, record: null };
  const density = (f0: number) =>
    Float64Array.from({ length: 250 }, (_, k) =>
      k === 0 ? 0 : 1e-8 * (k * BIN_HZ) ** -1 * tipAgainstBody(k * BIN_HZ, f0, 3),
    );
  function quiet(
    inPhase: Float64Array,
    antiphase: Float64Array,
    segments = 400,
    state: QuietReading['state'] = 'groove',
  ) {
    // left and right of a sum and a difference that go for themselves
    const each = inPhase.map((p, k) => (p + antiphase[k]) / 4);
    const low = {
      leftDensity: each,
      rightDensity: each,
      crossDensityRe: inPhase.map((p, k) => (p - antiphase[k]) / 4),
      binHz: BIN_HZ,
      segments,
    };
    return { quiet: { state, seconds: 9, parts: [{ low }], clicks: 0 } as unknown as QuietReading };
  }
  const humpOf = (power: Float64Array, segments: number) =>
    fitHump(
      Array.from(power, (p, k) => ({
        hz: k * BIN_HZ,
        power: p,
        spread: (m: number) => m / Math.sqrt(0.95 * segments),
      })),
      BIN_HZ,
      tipAgainstBody,
    )!;
  const noise = (
    passages: SideReadings['passages'],
    direction: 'lateral' | 'vertical',
    inverted = false,
    known = chain,
  ) => byNoise(madeSide({ passages }), direction, inverted, known);
  const [nine, twelve] = [density(9), density(12)];

  it('lateral is in phase, vertical in antiphase, unless a channel is upside down; twice as much in doubt', () => {
    const passages = [madePassage({ index: 7, signal: 'silent-groove' }, quiet(nine, twelve))];
    const told = (direction: 'lateral' | 'vertical', power: Float64Array) => {
      const hump = humpOf(power, 400);
      return {
        way: 'noise',
        direction,
        hz: expected(hump.hz, hump.hzSpread, 10),
        q: expected(hump.q, hump.qSpread, 40),
        bands: [7],
        notes: [],
      };
    };
    const close = (way: ReturnType<typeof noise>) => {
      const round = (figure: WayFigure) =>
        [figure.value, figure.own, figure.doubts[0].size].map((v) => v.toPrecision(5));
      return way === null ? null : { ...way, hz: round(way.hz), q: round(way.q) };
    };
    expect(close(noise(passages, 'lateral'))).toEqual(close(told('lateral', nine) as never));
    expect(close(noise(passages, 'vertical'))).toEqual(close(told('vertical', twelve) as never));
    expect(close(noise(passages, 'lateral', true))).toEqual(close(told('lateral', twelve) as never));
  });

  it('the longest stretch of groove tells it; what lies between bands has none', () => {
    const [short, long] = [quiet(nine, twelve, 100), quiet(twelve, nine, 400)];
    const hz = (...of: { quiet: QuietReading }[]) =>
      noise(
        of.map((one) => madePassage(null, one)),
        'lateral',
      )?.hz.value ?? 0;
    expect(hz(short, long)).toBeCloseTo(12, 0);
    expect(hz(long, short)).toBeCloseTo(12, 0);
    expect(hz(short)).toBeCloseTo(9, 0);
    expect(noise([madePassage(null, short)], 'lateral')?.bands).toEqual([]);
    expect(hz(quiet(nine, twelve, 400, 'tip-up'))).toBe(0);
    expect(hz()).toBe(0);
    expect(byNoise(madeSide(), 'lateral', false, chain)).toBeNull();
    expect(noise([madePassage(null, {})], 'lateral')).toBeNull();
  });

  it('with no hump there is no way', () => {
    const even = Float64Array.from({ length: 250 }, () => 1e-9);
    expect(noise([madePassage(null, quiet(even, even))], 'lateral')).toBeNull();
  });

  it('what the chain makes of the low end is taken off', () => {
    const known = { ...chain, flat: false };
    const heard = nine.map(
      (p, k) => p * (k === 0 ? 0 : 10 ** (expectedDb('constant-velocity', known, null, k * BIN_HZ) / 10)),
    );
    const told = noise([madePassage(null, quiet(heard, heard))], 'lateral', false, known);
    expect(told?.hz.value).toBeCloseTo(humpOf(nine, 400).hz, 6);
  });
});
