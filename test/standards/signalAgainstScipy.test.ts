/**
 * Our signal mathematics against SciPy's. See checks/scipy/README.md. One table: what is compared, by which of our
 * functions, in which unit, how far apart they may be. Entries without a comparison, and comparisons without an entry, fail.
 */

import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { riaaPlaybackDb } from '../../src/core/electrics/riaa.ts';
import { smoothWeightingDb } from '../../src/core/measure/flutterWeighting.ts';
import { readSegment } from '../../src/core/measure/toneSegment.ts';
import { aWeightingGain } from '../../src/core/signal/aWeighting.ts';
import { coherentRatio } from '../../src/core/signal/coherentRatio.ts';
import { ComplexFft } from '../../src/core/signal/fft.ts';
import { LANES, LaneDecimator } from '../../src/core/signal/laneDecimator.ts';
import { besselI0, kaiserSymmetric, lowpassTaps } from '../../src/core/signal/lowpass.ts';
import { coverageFactor, median, quantile } from '../../src/core/signal/robust.ts';
import { solveSymmetric } from '../../src/core/signal/solveSymmetric.ts';
import { type StereoSpectrum, WelchSpectrum } from '../../src/core/signal/spectra.ts';
import { tapsMagnitude } from '../../src/core/signal/taps.fixture.ts';
import { ToneMixer } from '../../src/core/signal/toneMixer.ts';
import { coherentGain, noiseBandwidthBins } from '../../src/core/signal/windows.fixture.ts';
import { type WindowName, windowSamples } from '../../src/core/signal/windows.ts';
import { ratioToDb } from '../../src/core/units/units.ts';
import { apart, type Comparison, compareAll, folder, hammingTaps, type Recorded, recorded, uniform } from './scipy.ts';

const comparisons: Record<string, Comparison> = {};

// — windows —
const windows: readonly (readonly [string, WindowName])[] = [
  ['hann', 'hann-periodic'],
  ['blackmanharris', 'blackman-harris-periodic'],
  ['flattop', 'flat-top-periodic'],
];
for (const [theirs, name] of windows) {
  comparisons[`window ${theirs} 24`] = { ours: () => windowSamples(name, 24), unit: '1', within: 1e-15 };
  comparisons[`window ${theirs} gain and noise bandwidth`] = {
    ours: () => [coherentGain(windowSamples(name, 4096)), noiseBandwidthBins(windowSamples(name, 4096))],
    unit: '1, bins',
    within: 1e-12,
  };
}
comparisons['window kaiser 31'] = { ours: () => kaiserSymmetric(31, 7.3), unit: '1', within: 1e-14 };
comparisons['log of bessel i0'] = {
  ours: () => [0.01, 0.5, 1, 3.75, 7.3, 15, 30, 50].map((x) => Math.log(besselI0(x))),
  unit: 'natural logarithm',
  within: 1e-13,
};

// — low passes —
for (const [rate, low, high, down] of [
  [12_000, 260, 600, 80],
  [2_000, 220, 400, 70],
  [96_000, 20_000, 24_000, 96],
  [1_000, 50, 90, 40],
] as const) {
  const taps = (): Float64Array => lowpassTaps({ sampleRateHz: rate, passHz: low, stopHz: high, attenuationDb: down });
  comparisons[`firwin ${rate} ${low} ${high} ${down}`] = { ours: taps, unit: '1', within: 1e-14 };
  comparisons[`firwin response ${rate} ${low} ${high} ${down}`] = {
    ours: () => {
      const h = taps();
      return Array.from({ length: 33 }, (_, k) => tapsMagnitude(h, (k * rate) / 64, rate));
    },
    unit: '1',
    within: 1e-12,
  };
}

// — decimation —
comparisons['fir by 3'] = {
  ours: () => {
    const taps = hammingTaps();
    const x = uniform(400, 5);
    const lanes = new Float64Array(LANES * 400);
    for (let n = 0; n < 400; n++) lanes[LANES * n + 2] = x[n]!;
    const decimator = new LaneDecimator(taps, 3);
    const out = new Float64Array(LANES * 140);
    let frames = 0;
    // in pieces, so that what is held between pushes is tested too
    for (const [from, to] of [
      [0, 7],
      [7, 200],
      [200, 400],
    ] as const) {
      const piece = new Float64Array(LANES * 140);
      const written = decimator.push(lanes.slice(LANES * from, LANES * to), to - from, piece);
      out.set(piece.subarray(0, LANES * written), LANES * frames);
      frames += written;
    }
    return Array.from({ length: frames }, (_, n) => out[LANES * n + 2]!);
  },
  unit: 'full scale',
  within: 1e-14,
};

// — transforms and spectra —
for (const size of [8, 64, 512, 2048]) {
  comparisons[`fft ${size}`] = {
    ours: () => {
      const z = uniform(2 * size, size);
      const [re, im] = [z.slice(0, size), z.slice(size)];
      new ComplexFft(size).forward(re, im);
      return Array.from({ length: 2 * Math.min(64, size) }, (_, k) => (k % 2 === 0 ? re : im)[k >> 1]!);
    },
    unit: '1',
    within: 1e-13 * Math.sqrt(size),
  };
}
for (const [theirs, name] of [
  ['hann', 'hann-periodic'],
  ['blackman-harris', 'blackman-harris-periodic'],
  ['flat-top', 'flat-top-periodic'],
] as const) {
  const spectrum = (): StereoSpectrum => {
    const left = uniform(4000, 11);
    const right = uniform(4000, 12).map((v, n) => 0.5 * v + 0.3 * left[n]!);
    const welch = new WelchSpectrum(48_000, 256, name);
    welch.push(left, right, 1_111);
    welch.push(left.slice(1_111), right.slice(1_111));
    return welch.spectrum();
  };
  comparisons[`welch ${theirs} left`] = { ours: () => spectrum().leftDensity, unit: '1/Hz', within: 1e-17 };
  comparisons[`welch ${theirs} right`] = { ours: () => spectrum().rightDensity, unit: '1/Hz', within: 1e-17 };
  comparisons[`welch ${theirs} cross`] = {
    ours: () => {
      const { crossDensityRe, crossDensityIm } = spectrum();
      return Array.from({ length: 258 }, (_, k) => (k % 2 === 0 ? crossDensityRe : crossDensityIm)[k >> 1]!);
    },
    unit: '1/Hz',
    within: 1e-17,
  };
  comparisons[`welch ${theirs} line`] = {
    ours: () => {
      const tone = Float64Array.from({ length: 4000 }, (_, n) => 0.7 * Math.sin((2 * Math.PI * 3000 * n) / 48_000));
      const welch = new WelchSpectrum(48_000, 256, name);
      welch.push(tone, tone);
      const { leftDensity, lineBandwidthHz } = welch.spectrum();
      return [leftDensity[16]! * lineBandwidthHz];
    },
    unit: 'rms²',
    within: 1e-12,
  };
}

// — lock-in —
const lockIn = (): { re: number; im: number; amplitude: number; phase: number } => {
  const [rate, hz] = [48_000, 1000.3];
  const frames = 4 * rate;
  const noise = uniform(frames, 21);
  const leak = { size: 0.4 * 0.021, phase: 0.7 + (127 * Math.PI) / 180 };
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  for (let n = 0; n < frames; n++) {
    const t = n / rate;
    const hum = 0.05 * Math.sin(2 * Math.PI * 50 * t + 0.3) + 0.02 * Math.cos(2 * Math.PI * 2500 * t);
    left[n] = 0.4 * Math.cos(2 * Math.PI * hz * t + 0.7) + hum;
    right[n] = leak.size * Math.cos(2 * Math.PI * hz * t + leak.phase) + 0.8 * hum + 1e-4 * noise[n]!;
  }
  const mixer = new ToneMixer(rate, hz);
  mixer.push(left, right, 0, frames, 0);
  const z = mixer.take();
  const mean = (values: Float64Array): number => values.reduce((a, b) => a + b) / values.length;
  const [re, im] = [mean(z.leftRe), mean(z.leftIm)];
  const good = new Uint8Array(z.length).fill(1);
  const ratio = coherentRatio(
    { re: z.rightRe, im: z.rightIm },
    { re: z.leftRe, im: z.leftIm },
    good,
    0,
    z.length,
    z.rateHz,
    z.mixHz,
  );
  return { re: ratio.re, im: ratio.im, amplitude: Math.hypot(re, im), phase: Math.atan2(im, re) };
};
comparisons['lock-in amplitude and phase'] = {
  ours: () => [lockIn().amplitude, lockIn().phase],
  unit: 'full scale, rad',
  within: 2e-5,
};
comparisons['lock-in leak'] = { ours: () => [lockIn().re, lockIn().im], unit: 'ratio, −33.6 dB', within: 1e-6 };

// — demodulation —
const PARTS = [
  [0.5556, 0.0011, 0.2],
  [4, 0.0007, 1.1],
  [9.7, 0.0005, -0.4],
  [31, 0.0004, 2],
] as const;
const demodulated = (): { meanHz: number; sizes: number[]; phases: number[] } => {
  const [rate, carrier] = [44_100, 3150];
  const frames = 4 * rate;
  const x = Float64Array.from({ length: frames }, (_, n) => {
    const t = n / rate;
    let phase = 2 * Math.PI * carrier * 1.0004 * t;
    for (const [hz, size, shift] of PARTS) phase += ((carrier * size) / hz) * Math.sin(2 * Math.PI * hz * t + shift);
    return 0.3 * Math.cos(phase);
  });
  const mixer = new ToneMixer(rate, carrier);
  mixer.push(x, x, 0, frames, 0);
  const segment = readSegment(mixer.take(), 'left');
  if (!segment.found) throw new Error('the tone was not read');
  const { speed } = segment;
  const columns = [
    () => 1,
    ...PARTS.flatMap(([hz]) => [
      (t: number) => Math.cos(2 * Math.PI * hz * t),
      (t: number) => Math.sin(2 * Math.PI * hz * t),
    ]),
  ];
  const matrix = columns.map(() => new Float64Array(columns.length));
  const right = new Float64Array(columns.length);
  for (let n = 0; n < speed.deviation.length; n++) {
    const row = columns.map((column) => column(speed.startS + n / speed.rateHz));
    row.forEach((a, i) => {
      right[i]! += a * speed.deviation[n]!;
      for (let j = 0; j < row.length; j++) matrix[i]![j]! += a * row[j]!;
    });
  }
  const { solution } = solveSymmetric(matrix, right)!;
  return {
    meanHz: speed.meanHz * (1 + solution[0]!),
    sizes: PARTS.map(([hz], k) => {
      // the trace is a first difference of the phase
      const u = (Math.PI * hz) / speed.rateHz;
      return (Math.hypot(solution[1 + 2 * k]!, solution[2 + 2 * k]!) * u) / Math.sin(u) / (1 + solution[0]!);
    }),
    phases: PARTS.map((_, k) => Math.atan2(-solution[2 + 2 * k]!, solution[1 + 2 * k]!)),
  };
};
comparisons['hilbert mean frequency'] = { ours: () => [demodulated().meanHz], unit: 'Hz', within: 1e-4 };
comparisons['hilbert deviations'] = { ours: () => demodulated().sizes, unit: 'share of the frequency', within: 2e-8 };
comparisons['hilbert phases'] = { ours: () => demodulated().phases, unit: 'rad', within: 5e-5 };

// — analogue responses —
const RESPONSE_HZ = [10, 20, 31.5, 50, 100, 315, 1000, 3150, 10_000, 20_000];
comparisons['a-weighting dB'] = {
  ours: () => RESPONSE_HZ.map((hz) => ratioToDb(aWeightingGain(hz))),
  unit: 'dB',
  within: 1e-7,
};
comparisons['riaa dB'] = { ours: () => RESPONSE_HZ.map((hz) => riaaPlaybackDb(hz)), unit: 'dB', within: 1e-9 };
comparisons['riaa with 7950 us dB'] = {
  ours: () => RESPONSE_HZ.map((hz) => riaaPlaybackDb(hz, { iecAmendment: true })),
  unit: 'dB',
  within: 1e-9,
};
comparisons['flutter weighting dB'] = {
  ours: () => [0.25, 0.35, 0.5, 0.7, 0.9, 1.25, 1.8, 3, 5, 8, 15, 30, 50, 80].map(smoothWeightingDb),
  unit: 'dB',
  within: 1e-9,
};

// — statistics and small systems —
comparisons.quantiles = {
  ours: () => {
    const values = uniform(101, 31);
    return [median(values), ...[0, 0.05, 0.333, 0.95, 1].map((q) => quantile(values, q))];
  },
  unit: '1',
  within: 1e-15,
};
comparisons['student t 95.45 %'] = {
  ours: () => [3, 4, 5, 7, 10, 20, 50, 200].map(coverageFactor),
  unit: '1',
  within: 0.016,
};
const system = (): NonNullable<ReturnType<typeof solveSymmetric>> => {
  const m = uniform(36, 41);
  const matrix = Array.from({ length: 6 }, (_, i) =>
    Float64Array.from({ length: 6 }, (_, j) => {
      let sum = i === j ? 0.1 : 0;
      for (let k = 0; k < 6; k++) sum += m[6 * i + k]! * m[6 * j + k]!;
      return sum;
    }),
  );
  return solveSymmetric(matrix, uniform(6, 42))!;
};
comparisons['symmetric system'] = { ours: () => system().solution, unit: '1', within: 1e-12 };
comparisons['symmetric inverse'] = { ours: () => system().inverse.map((row, i) => row[i]!), unit: '1', within: 1e-12 };

compareAll('results', comparisons);

describe('made again', () => {
  const script = fileURLToPath(new URL('record.py', folder));
  const attempt = (python: string) => spawnSync(python, [script], { encoding: 'utf8' });

  it('by the SciPy installed here; npm test installs it', () => {
    const run = [attempt('/usr/bin/python3'), attempt('python3')].find(({ status }) => status === 0);
    if (run === undefined) throw new Error('Python with SciPy is needed; npm test installs it');
    const fresh = JSON.parse(run.stdout) as Recorded;
    for (const part of ['results', 'deck'] as const) {
      expect(Object.keys(fresh[part])).toEqual(Object.keys(recorded[part]));
      for (const [name, values] of Object.entries(fresh[part])) {
        const scale = Math.max(...values.map(Math.abs));
        expect(apart(values, recorded[part][name]!), name).toBeLessThanOrEqual(1e-9 * scale + 1e-15);
      }
    }
  });
});
