/** Sums over both spectra of a quiet stretch, bin by bin, against the same written plainly. */
import { describe, expect, it } from 'vitest';
import { mainsFamily } from '../signal/mainsFamily.ts';
import { median } from '../signal/robust.ts';
import type { StereoSpectrum } from '../signal/spectra.ts';
import { playbackGain } from './playbackEqualisation.ts';
import type { QuietPart } from './quietEstimator.ts';
import { type Gain, thirdOctaves, undoing, weightedPower } from './quietSpectra.ts';

const [FINE_HZ, FINE_BINS, COARSE_HZ, COARSE_BINS] = [0.68, 2049, 26.9, 1025];
const chance = (i: number): number => {
  const x = Math.sin(i * 12.9898) * 43_758.5453;
  return x - Math.floor(x);
};
interface Made {
  /** Hz of the mains, whose first harmonics stand out; none: noise alone */
  readonly mains?: number;
  readonly segments?: number;
  readonly coarse?: number;
}
function made({ mains, segments = 9, coarse = 40 }: Made = {}): QuietPart {
  const density = (seed: number, binHz: number, bins: number) =>
    Float64Array.from({ length: bins }, (_, k) => {
      const hz = k * binHz;
      const floor = (1e-9 * (0.5 + chance(k + 1000 * seed))) / (1 + hz / 300);
      const order = mains === undefined ? 0 : Math.round(hz / mains);
      const off = mains === undefined ? 9 : Math.abs(hz - order * mains) / binHz;
      return floor + (order >= 1 && order <= 8 && off < 2 ? (1e-6 * (2 - off)) / order : 0);
    });
  const left = density(1, FINE_HZ, FINE_BINS);
  const low: StereoSpectrum = {
    sampleRateHz: 2800,
    size: 4096,
    binHz: FINE_HZ,
    segments,
    leftDensity: left,
    rightDensity: mains === undefined ? density(2, FINE_HZ, FINE_BINS) : left.map((v) => 0.7 * v),
    crossDensityRe: left.map((v) => 0.8 * v),
    crossDensityIm: left.map(() => 0),
    lineBandwidthHz: 1.5 * FINE_HZ,
  };
  const wide = {
    binHz: COARSE_HZ,
    segments: coarse,
    left: density(3, COARSE_HZ, COARSE_BINS),
    right: density(4, COARSE_HZ, COARSE_BINS),
  };
  return { low, wide };
}
/** Share of the coarse spectrum: half a cosine from 450 to 950 Hz. */
const coarseShare = (hz: number): number =>
  hz <= 450 ? 0 : hz >= 950 ? 1 : (1 - Math.cos((Math.PI * (hz - 450)) / 500)) / 2;

function bins({ low, wide }: QuietPart, channel: 'left' | 'right', fromHz: number, toHz: number) {
  const fine = channel === 'left' ? low.leftDensity : low.rightDensity;
  const family = mainsFamily(low);
  const lines = (family?.lines ?? []).map(({ order }) => Math.round((order * family!.hz) / low.binHz));
  const top = Math.min(toHz, 0.9 * wide.binHz * wide.left.length);
  const floorAt = (bin: number): number | null => {
    const at = lines.filter((line) => Math.abs(line - bin) <= 2).at(-1);
    if (at === undefined) return null;
    const beside = [];
    for (let d = 4; d <= 12; d++) for (const k of [at - d, at + d]) if (k >= 1 && k < fine.length) beside.push(fine[k]);
    return median(beside);
  };
  const all: { hz: number; p: number; part: number; width: number; n: number; floor: number | null }[] = [];
  for (let k = 1; k < fine.length; k++) {
    const hz = k * low.binHz;
    if (hz >= fromHz && hz <= Math.min(toHz, 950))
      all.push({
        hz,
        p: fine[k],
        part: 1 - coarseShare(hz),
        width: low.binHz,
        n: Math.max(1, 0.92 * low.segments),
        floor: floorAt(k),
      });
  }
  for (let k = 1; k * wide.binHz <= top; k++) {
    const hz = k * wide.binHz;
    if (hz >= Math.max(450, fromHz))
      all.push({
        hz,
        p: wide[channel][k],
        part: coarseShare(hz),
        width: wide.binHz,
        n: Math.max(1, 0.92 * wide.segments),
        floor: null,
      });
  }
  return all;
}

function reference(part: QuietPart, channel: 'left' | 'right', fromHz: number, toHz: number, gain: Gain) {
  let [power, variance] = [0, 0];
  for (const { hz, p, part: share, width, n, floor } of bins(part, channel, fromHz, toHz)) {
    const weight = gain(hz) ** 2 * width;
    const own = p * weight;
    power += share * own;
    const under = floor === null ? 0 : Math.min(own, floor * weight);
    const square = floor === null ? (own * own * n) / (n + 1) : under * under + 2 * (own - under) * under;
    variance += (share * 1.944 * square) / n;
  }
  return { power, spread: Math.hypot(Math.sqrt(variance), 0.003 * power) };
}

describe('a weighted power', () => {
  const gains: Record<string, Gain> = { even: () => 1, rising: (hz) => hz / 500, undone: undoing(true) };

  it.each([
    [20, 20_000],
    [100, 400],
    [300, 700],
    [600, 5000],
    [2000, 90_000],
    [0, 100],
  ])('from %i to %i Hz, of noise and of mains lines over it', (fromHz, toHz) => {
    for (const part of [made(), made({ mains: 50 }), made({ mains: 60, segments: 1, coarse: 1 })])
      for (const channel of ['left', 'right'] as const)
        for (const gain of Object.values(gains)) {
          const told = weightedPower(part, channel, fromHz, toHz, gain);
          const plain = reference(part, channel, fromHz, toHz, gain);
          expect(told.power / plain.power).toBeCloseTo(1, 9);
          expect(told.spread / plain.spread).toBeCloseTo(1, 9);
        }
  });

  it('the lines are there to be heard', () => {
    expect(mainsFamily(made({ mains: 50 }).low)?.lines.length).toBeGreaterThan(3);
    expect(mainsFamily(made().low)?.lines ?? []).toEqual([]);
  });

  it('what lies at the joint counts once in all', () => {
    for (const hz of [440, 450, 500, 700, 940, 950, 960]) {
      const share = coarseShare(hz);
      expect(share + (1 - share)).toBe(1);
    }
    const even: QuietPart = {
      low: { ...made().low, leftDensity: new Float64Array(FINE_BINS).fill(1e-9) },
      wide: { ...made().wide, left: new Float64Array(COARSE_BINS).fill(1e-9) },
    };
    expect(weightedPower(even, 'left', 100, 5000, () => 1).power / (1e-9 * 4900)).toBeCloseTo(1, 2);
  });
});

describe('third octaves', () => {
  it('from 10 Hz up, each scaled to its true width, over the reference', () => {
    for (const channel of ['left', 'right'] as const) {
      const part = made({ mains: 50 });
      const gain: Gain = (hz) => 1 + hz / 1000;
      const { x, y } = thirdOctaves(part, channel, 1e-3, gain);
      const centres = Array.from({ length: 34 }, (_, i) => 10 ** ((i + 10) / 10));
      const wanted = centres.flatMap((hz) => {
        const [from, to] = [hz / 10 ** 0.05, hz * 10 ** 0.05];
        if (to > 0.9 * COARSE_HZ * COARSE_BINS) return [];
        const inside = bins(part, channel, from, to);
        const width = inside.reduce((s, b) => s + b.part * b.width, 0);
        const power = inside.reduce((s, b) => s + b.part * b.p * b.width * gain(b.hz) ** 2, 0);
        return width > 0 && power > 0 ? [{ hz, db: 10 * Math.log10((power * (to - from)) / width / 1e-3) }] : [];
      });
      expect(x).toEqual(wanted.map(({ hz }) => expect.closeTo(hz, 9)));
      expect(y).toEqual(wanted.map(({ db }) => expect.closeTo(db, 9)));
      expect(x[0]).toBeCloseTo(10, 9);
      expect(x.at(-1)).toBeCloseTo(19_953, 0);
    }
  });

  it('end where the spectrum does, and leave out what holds nothing', () => {
    const part = made();
    const short = { ...part, wide: { ...part.wide, left: part.wide.left.slice(0, 400) } };
    // 0.9 of 10,760 Hz
    expect(thirdOctaves(short, 'left', 1, () => 1).x.at(-1)).toBeCloseTo(7943, 0);
    const silent = { ...part, low: { ...part.low, leftDensity: new Float64Array(FINE_BINS) } };
    expect(thirdOctaves(silent, 'left', 1, () => 1).x[0]).toBeGreaterThan(450);
    // bins as wide as the lowest bands: none lies in them
    const coarse = { ...part, low: { ...part.low, binHz: 7, leftDensity: part.low.leftDensity.slice(0, 200) } };
    expect(thirdOctaves(coarse, 'left', 1, () => 1).x[0]).toBeGreaterThan(10.5);
  });
});

it('undone is what a capture without equalisation lacks', () => {
  expect(undoing(true)(100)).toBe(playbackGain(100));
  expect(undoing(false)(100)).toBe(1);
});
