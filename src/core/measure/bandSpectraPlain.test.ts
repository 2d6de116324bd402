import { describe, expect, it } from 'vitest';
import type { Band } from '../record/band.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { WelchSpectrum } from '../signal/spectra.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { spectrumKind } from './bandSpectra.ts';
import type { Curve } from './finding.ts';
import { bandOf } from './toneBands.fixture.ts';

const asked = (band: Partial<Band> | null, lengthS: number, sampleRateHz: number, withSpectra = true) =>
  spectrumKind.settings(
    {
      signal: 'tone',
      startS: 2,
      endS: 2 + lengthS,
      band: band === null ? null : bandOf({ motion: 'left', ...band }),
    } as Passage,
    { sampleRateHz, withSpectra } as SideKnown,
  );

describe('which bands are looked at', () => {
  it('all but the sixty-first and later, where spectra are wanted', () => {
    expect(asked({ index: 59 }, 4, 48_000)).not.toBeNull();
    expect(asked({ index: 60 }, 4, 48_000)).toBeNull();
    expect(asked({}, 4, 48_000, false)).toBeNull();
    expect(asked(null, 4, 48_000)).toBeNull();
  });

  it('with as many points as stretch and rate allow, a power of two: fewer than 1024 say nothing', () => {
    const points = (lengthS: number, rate: number) => asked({}, lengthS, rate)?.points ?? null;
    // 48 000/2.5 = 19 200 and its half
    expect(points(4, 48_000)).toBe(16_384);
    expect(points(16_384.5 / 48_000, 48_000)).toBe(16_384);
    expect(points(16_383 / 48_000, 48_000)).toBe(8192);
    expect(points(1024.5 / 48_000, 48_000)).toBe(1024);
    expect(points(1023 / 48_000, 48_000)).toBeNull();
    expect(points(4, 2560)).toBe(1024);
    expect(points(4, 2559)).toBeNull();
    // four seconds count at most
    expect(asked({}, 100, 48_000)).toEqual(asked({}, 4, 48_000));
  });

  it('a one-sided tone has a close view of some 1.5 s beside it, nothing else has', () => {
    expect(asked({ index: 3, frequencyHz: 315 }, 4, 48_000)).toEqual({
      band: 3,
      points: 16_384,
      closePoints: 65_536,
      tone: { frequencyHz: 315, driven: 'left' },
    });
    expect(asked({ motion: 'right' }, 0.5, 48_000)).toMatchObject({ closePoints: 16_384, tone: { driven: 'right' } });
    for (const band of [{ motion: 'lateral' }, { frequencyHz: null }, { signal: 'sweep' }] as const)
      expect(asked(band, 4, 48_000)).toMatchObject({ closePoints: null, tone: null });
  });
});

const RATE = 8000;
const draw = gaussian(3);
/** five seconds; the last must not count */
const left = Float64Array.from({ length: 5 * RATE }, (_, n) => {
  const t = n / RATE;
  return (t > 4 ? 5 : 1) * (0.3 * Math.cos(2 * Math.PI * 1003 * t) + 1e-4 * draw());
});
const right = left.map((v, n) => (n / RATE > 4 ? 0 : -0.02 * v + 1e-5 * draw()));

function curves(settings: Parameters<typeof spectrumKind.begin>[1], frames = 5 * RATE, block = 3000): Curve[] {
  const estimator = spectrumKind.begin(RATE, settings);
  for (let from = 0; from < frames; from += block) {
    const to = Math.min(frames, from + block);
    estimator.push({
      startFrame: from,
      frames: to - from,
      left: left.subarray(from, to),
      right: right.subarray(from, to),
    });
  }
  const result = estimator.result();
  estimator.end();
  return result;
}
const welch = (points: number) => {
  const spectrum = new WelchSpectrum(RATE, points, 'blackman-harris-periodic');
  spectrum.push(left, right, 4 * RATE);
  return spectrum.spectrum();
};
const dB = (power: number): number => Math.max(-160, 10 * Math.log10(power));

describe('spectra of a band', () => {
  it('the strongest line of each 1/24 octave from 8 Hz up, re a full-scale sine', () => {
    const { binHz, leftDensity, rightDensity, lineBandwidthHz } = welch(2048);
    const of = curves({ band: 7, points: 2048, closePoints: null, tone: null });
    expect(of.map(({ quantity, channel, band, xUnit, yUnit }) => [quantity, channel, band, xUnit, yUnit])).toEqual([
      ['spectrum', 'left', 7, 'Hz', 'dB'],
      ['spectrum', 'right', 7, 'Hz', 'dB'],
    ]);
    [leftDensity, rightDensity].forEach((density, i) => {
      const [x, y]: number[][] = [[], []];
      for (let from = Math.ceil(8 / binHz); from < density.length; ) {
        const to = Math.max(from + 1, Math.min(density.length, Math.floor(from * 2 ** (1 / 24))));
        const part = Array.from(density.slice(from, to));
        const most = Math.max(...part);
        x.push((from + part.indexOf(most)) * binHz);
        y.push(dB(most * lineBandwidthHz * 2));
        from = to;
      }
      expect(of[i].x).toEqual(x);
      of[i].y.forEach((v, k) => {
        expect(v).toBeCloseTo(y[k], 9);
      });
    });
    expect(Math.max(...of[0].y)).toBeCloseTo(20 * Math.log10(0.3), 0);
  });

  it.each([
    ['left', 1003, 943, 1063],
    ['right', 1003, 943, 1063],
    ['left', 30, 0, 90],
    ['left', 3980, 3920, 4000],
  ] as const)(
    'close to a tone in the %s at %i Hz: 60 Hz to either side, re the driven channel’s line',
    (driven, hz, fromHz, toHz) => {
      const { binHz, leftDensity, rightDensity } = welch(8192);
      const from = Math.max(1, Math.floor(fromHz / binHz));
      const to = Math.min(4096, Math.ceil(toHz / binHz));
      const close = curves({ band: 2, points: 2048, closePoints: 8192, tone: { frequencyHz: hz, driven } }).slice(2);
      const most = Math.max(...(driven === 'left' ? leftDensity : rightDensity).slice(from, to + 1));
      expect(close.map(({ quantity, channel, band, xUnit, yUnit }) => [quantity, channel, band, xUnit, yUnit])).toEqual(
        [
          ['crosstalk-spectrum', 'left', 2, 'Hz', 'dB'],
          ['crosstalk-spectrum', 'right', 2, 'Hz', 'dB'],
        ],
      );
      [leftDensity, rightDensity].forEach((density, i) => {
        expect(close[i].x).toHaveLength(to - from + 1);
        close[i].x.forEach((x, k) => {
          expect(x).toBeCloseTo((from + k) * binHz, 9);
          expect(close[i].y[k]).toBeCloseTo(dB(density[from + k] / most), 9);
        });
      });
    },
  );

  it('too little for one transform, or no tone in the driven channel, says so much less', () => {
    const settings = { band: 0, points: 2048, closePoints: 8192, tone: { frequencyHz: 1003, driven: 'left' } } as const;
    expect(curves(settings, 2047)).toEqual([]);
    expect(curves(settings, 8191)).toHaveLength(2);
    expect(curves(settings, 8192)).toHaveLength(4);
    const still = spectrumKind.begin(RATE, settings);
    still.push({ startFrame: 0, frames: 8192, left: new Float64Array(8192), right: new Float64Array(8192) });
    expect(still.result()).toHaveLength(2);
    expect(new Set(still.result()[0].y)).toEqual(new Set([-160]));
  });
});
