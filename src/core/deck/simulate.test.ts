import { expect, test } from 'vitest';
import { magnitude, over } from '../units/complex.ts';
import type { DeckFile } from './deck.ts';
import { demoDeck, demoSheet } from './demo.ts';
import { hear, lineAt, toneBand } from './listen.fixture.ts';
import { random } from './random.ts';
import { riaaPlayback } from './response.ts';
import { readSheet, type SheetFile } from './sheet.ts';
import { simulateSide } from './simulate.ts';
import { steadyTone } from './steadyTone.ts';

const noisy: DeckFile = {
  record: { surfaceNoiseDb: -50, clicksPerMinute: 600, thumpDb: -10, offCentreMm: 0.2 },
  platter: { wow: [{ harmonic: 1, percent: 0.1 }], driftPercent: 0.02 },
  bearing: { rumbleLateralDb: -40, rumbleVerticalDb: -45 },
  preamp: { hum: [{ harmonic: 1, leftDb: -50, rightDb: -52 }], noiseDb: -70 },
  arm: { lateralResonance: { hz: 9, q: 3 }, verticalResonance: { hz: 11, q: 2 }, trackingErrorDeg: 1 },
  converter: { bits: 24 },
  side: { beforeDropS: 0.1, leadInS: 0.2, gapS: 0.1, leadOutS: 0.1, afterLiftS: 0.1, fadeMs: 4 },
};
const twoBands: SheetFile = {
  bands: [toneBand('left', 1000, 5, 0.3), { ...toneBand('right', 1000, 5, 0.3), radiusMm: 95 }],
};

test('the same seed gives the same recording, another seed another', () => {
  const one = hear(noisy, twoBands, 48000, 3);
  const same = hear(noisy, twoBands, 48000, 3);
  const other = hear(noisy, twoBands, 48000, 4);
  expect(same.left).toEqual(one.left);
  expect(same.right).toEqual(one.right);
  expect(other.left).not.toEqual(one.left);
  expect(same.simulation.truth).toEqual(one.simulation.truth);
});

test.each([1, 997, 2048, 5000])('blocks of %i frames give the identical capture', (blockFrames) => {
  const short = { bands: [toneBand('lateral', 1000, 5, 0.15)] };
  const one = hear(noisy, short, 44100, 3);
  const other = hear(noisy, short, 44100, 3, blockFrames);
  expect(other.left).toEqual(one.left);
  expect(other.right).toEqual(one.right);
});

test('one fault more leaves the noise of the others as it was', () => {
  const without = hear({ record: { surfaceNoiseDb: -40 } }, twoBands);
  const withHiss = hear({ record: { surfaceNoiseDb: -40 }, preamp: { noiseDb: -100 } }, twoBands);
  let most = 0;
  without.left.forEach((value, i) => {
    most = Math.max(most, Math.abs(value - withHiss.left[i]));
  });
  expect(most).toBeGreaterThan(0);
  expect(most).toBeLessThan(1e-5);
});

test('a capture that starts and stops in mid-side is that part of the whole', () => {
  const clean: DeckFile = {
    ...noisy,
    record: { offCentreMm: 0.2 },
    bearing: {},
    preamp: {},
    converter: { bits: 'float' },
  };
  const whole = hear(clean, twoBands);
  const part = hear({ ...clean, side: { ...clean.side, captureFromS: 0.4, captureToS: 0.8 } }, twoBands);
  expect(part.left.length).toBe(19200);
  for (let i = 0; i < 19200; i += 37) expect(part.left[i]).toBeCloseTo(whole.left[19200 + i], 5);
  const [first, second] = part.simulation.truth.bands;
  expect(first.startS).toBe(0);
  expect(first.endS).toBeCloseTo(whole.simulation.truth.bands[0].endS - 0.4, 9);
  expect(second.endS).toBeCloseTo(0.4, 6);
});

/** The running filters against the periodic solution, which knows only the analogue laws. */
test.each([1, 2, 3, 4, 5, 6])(
  'every fault at once: harmonics of both channels agree with the periodic solution (draw %i)',
  (draw) => {
    const dice = random(draw, 100);
    const between = (low: number, high: number) => low + (high - low) * dice.uniform();
    const leak = () => ({ db: between(-40, -22), phaseDeg: between(-180, 180) });
    const both = (low: number, high: number) => ({ left: between(low, high), right: between(low, high) });
    const deck: DeckFile = {
      platter: { speedErrorPercent: between(-1, 1) },
      arm: {
        trackingErrorDeg: between(-4, 4),
        verticalAngleDeg: between(15, 28),
        lateralResonance: { hz: between(6, 15), q: between(1, 4) },
        verticalResonance: { hz: between(6, 15), q: between(1, 4) },
      },
      cartridge: {
        tiltDeg: between(-4, 4),
        leftIntoRight: leak(),
        rightIntoLeft: leak(),
        gainDb: both(-2, 2),
        secondHarmonicPercent: both(-1, 1),
        thirdHarmonicPercent: both(-0.5, 0.5),
        topResonance: { left: { hz: between(9000, 30000), q: between(0.7, 3) }, right: null },
      },
      leads: { swapped: draw % 2 === 0, leftInverted: draw % 3 === 0, rightInverted: draw > 4 },
      preamp: {
        equalisation: draw === 4 ? 'flat' : draw === 5 ? 'riaa-7950' : 'riaa',
        gainDb: both(-1, 1),
        rightDelayUs: between(-20, 20),
      },
    };
    const motion = (['left', 'right', 'lateral', 'vertical'] as const)[draw % 4];
    const hz = between(300, 3500);
    const sheet = {
      bands: [toneBand(motion, hz, between(2, 12), 0.7, between(60, 140))],
      cut: { tiltDeg: between(-1, 1) },
    };
    const rate = [44100, 96000, 48000, 192000, 88200, 44100][draw - 1];
    const heard = hear(deck, sheet, rate);
    const read = readSheet(sheet);
    const speed = 1 + heard.simulation.deck.platter.speedErrorPercent / 100;
    const solution = steadyTone(heard.simulation.deck, read, read.bands[0], read.bands[0].radiusMm ?? 0, speed);
    const reference = magnitude(solution.line(1, 0).left) + magnitude(solution.line(1, 0).right);
    for (const order of [1, 2, 3]) {
      const line = solution.line(order, 0);
      for (const channel of ['left', 'right'] as const) {
        // The deck starts the tone at groove time 0, so phases are against the capture's first frame.
        const read = lineAt(heard[channel], rate, order * hz * speed, 0.2, 0.65);
        const miss = Math.hypot(read.re - line[channel].re, read.im - line[channel].im) / reference;
        expect(miss, `order ${order}, ${channel}`).toBeLessThan(5e-5);
      }
    }
  },
);

test('two tones: the combination tones of a tracking error agree with the periodic solution', () => {
  const sheet = {
    bands: [
      {
        signal: 'two-tone' as const,
        motion: 'lateral' as const,
        frequenciesHz: [400, 4000],
        peakVelocityCmS: 10,
        radiusMm: 65,
        durationS: 0.7,
      },
    ],
  };
  const deck: DeckFile = { arm: { trackingErrorDeg: 3 }, cartridge: { thirdHarmonicPercent: { left: 0.4 } } };
  const { left, simulation } = hear(deck, sheet);
  const read = readSheet(sheet);
  const solution = steadyTone(simulation.deck, read, read.bands[0], 65, 1);
  for (const m of [-2, -1, 0, 1, 2]) {
    const line = solution.line(m, 1).left;
    const miss = lineAt(left, 48000, 4000 + 400 * m, 0.1, 0.6);
    expect(Math.hypot(miss.re - line.re, miss.im - line.im)).toBeLessThan(2e-6);
  }
  // Four to one: the lower tone has four fifths of the stated velocity, 8 cm/s laterally.
  const low = magnitude(lineAt(left, 48000, 400, 0.1, 0.6)) / magnitude(riaaPlayback(400));
  expect(low / ((0.1 * (8 / 5)) / Math.SQRT2)).toBeCloseTo(1, 1);
  expect(simulation.truth.bands[0].intermodulationPercent?.left).toBeGreaterThan(2);
});

test.each([44100, 96000])('RIAA through the whole chain at %i Hz is the analogue law within 0.02 dB', (rate) => {
  for (const hz of [20, 100, 500, 2000, 5000, 10000, 15000, 20000]) {
    const { left } = hear({}, { bands: [toneBand('left', hz, 1, 0.5)] }, rate);
    const db = 20 * Math.log10(magnitude(lineAt(left, rate, hz, 0.1, 0.5)) / 0.02 / magnitude(riaaPlayback(hz)));
    expect(Math.abs(db), `${hz} Hz`).toBeLessThan(0.02);
  }
});

test('the arm is a second-order high pass, lateral and vertical apart', () => {
  const deck: DeckFile = {
    preamp: { equalisation: 'flat' },
    arm: { lateralResonance: { hz: 9, q: 3 }, verticalResonance: { hz: 12, q: 2 } },
  };
  const level = (motion: 'lateral' | 'vertical', hz: number) => {
    const { left } = hear(deck, { bands: [toneBand(motion, hz, 5, 3)] }, 32000);
    return (magnitude(lineAt(left, 32000, hz, 1, 3)) * Math.SQRT2) / 0.1;
  };
  // At resonance |H| = Q, an octave and more below it falls by 12 dB an octave.
  expect(level('lateral', 9)).toBeCloseTo(3, 2);
  expect(level('vertical', 12)).toBeCloseTo(2, 2);
  expect(level('lateral', 3)).toBeCloseTo(1 / 9 / Math.hypot(1 - 1 / 9, 1 / 9), 2);
});

test('a sweep cut for RIAA comes out level and at the right time', () => {
  const sheet = {
    bands: [
      { signal: 'sweep' as const, motion: 'left' as const, fromHz: 50, toHz: 16000, peakVelocityCmS: 1, durationS: 4 },
    ],
  };
  const { left, simulation } = hear({}, sheet);
  // At any moment the envelope is 0.02: take rms over short stretches.
  for (const at of [0.5, 1, 2, 3, 3.8]) {
    let power = 0;
    for (let i = 0; i < 4800; i++) power += left[Math.round(at * 48000) + i - 2400] ** 2;
    expect(Math.sqrt((2 * power) / 4800)).toBeCloseTo(0.02, 3);
  }
  // Log law: f(t) = 50·320^(t/4), 1 kHz after 4·ln 20/ln 320 = 2.077 s: count the zero crossings there.
  let crossings = 0;
  const middle = Math.round(((4 * Math.log(20)) / Math.log(320)) * 48000);
  for (let i = middle - 2400; i < middle + 2400; i++) if (left[i] < 0 !== left[i + 1] < 0) crossings++;
  expect(crossings / 2 / 0.1).toBeGreaterThan(985);
  expect(crossings / 2 / 0.1).toBeLessThan(1015);
  const response = simulation.truth.bands[0].response;
  expect(Math.max(...(response?.leftDb ?? [9]).map(Math.abs))).toBeLessThan(1e-9);
});

test('hum has the levels and phases asked for, in the air too', () => {
  const deck: DeckFile = {
    preamp: {
      mainsHz: 60,
      hum: [
        { harmonic: 1, leftDb: -20, rightDb: -26, leftPhaseDeg: 30, rightPhaseDeg: -60 },
        { harmonic: 3, leftDb: -40, rightDb: -40, rightPhaseDeg: 90 },
      ],
    },
    side: { beforeDropS: 1.2 },
  };
  const { left, right, simulation } = hear(deck, { bands: [{ signal: 'silent-groove', durationS: 0.1 }] });
  const at = (samples: Float64Array, hz: number) => lineAt(samples, 48000, hz, 0.1, 1.1);
  expect(magnitude(at(left, 60))).toBeCloseTo(0.01, 6);
  expect(Math.atan2(at(left, 60).im, at(left, 60).re)).toBeCloseTo(Math.PI / 6, 5);
  expect(magnitude(at(right, 60))).toBeCloseTo(0.1 * 10 ** (-26 / 20), 6);
  expect(Math.atan2(at(right, 180).im, at(right, 180).re)).toBeCloseTo(Math.PI / 2, 3);
  expect(simulation.truth.hum.leftDbfs).toBeCloseTo(-40 + 10 * Math.log10(1.01), 6);
});

test('clipping, offset and steps of the converter', () => {
  const { left, right } = hear(
    {
      converter: { bits: 16, clipDbfs: -26.0206, offsetPercent: { right: 1 }, dither: false },
      preamp: { equalisation: 'flat' },
    },
    { bands: [toneBand('left', 1000, 5, 0.2)] },
  );
  expect(Math.max(...left.subarray(500, 9000))).toBeCloseTo(0.05, 4);
  expect(Math.min(...left.subarray(500, 9000))).toBeCloseTo(-0.05, 4);
  expect(right[5000]).toBeCloseTo(0.01, 4);
  for (let i = 0; i < left.length; i += 11) expect(Number.isInteger(left[i] * 32768)).toBe(true);
});

test('triangular dither leaves an error of a quarter of a squared step that does not follow the signal', () => {
  const quiet: SheetFile = { bands: [toneBand('left', 1000, 0.005, 2)] };
  const coarse = hear({ converter: { bits: 16, referenceDbfs: -10 }, preamp: { equalisation: 'flat' } }, quiet);
  const exact = hear({ converter: { bits: 'float', referenceDbfs: -10 }, preamp: { equalisation: 'flat' } }, quiet);
  let power = 0;
  let along = 0;
  let tone = 0;
  coarse.left.forEach((value, i) => {
    const error = (value - exact.left[i]) * 32768;
    power += error * error;
    along += error * exact.left[i];
    tone += exact.left[i] ** 2;
  });
  expect(power / coarse.left.length).toBeCloseTo(0.25, 2);
  expect(Math.abs(along / tone / 32768)).toBeLessThan(2e-3);
});

test('a quiet groove has the noise that the truth states: flat, and by frequency', () => {
  const deck: DeckFile = {
    record: { surfaceNoiseDb: -50, surfaceCorrelation: 0.3 },
    bearing: { rumbleLateralDb: -40, rumbleVerticalDb: -46 },
    cartridge: { tiltDeg: 3, gainDb: { left: 2 } },
    preamp: { noiseDb: -64 },
    arm: { lateralResonance: { hz: 9, q: 2 }, verticalResonance: { hz: 11, q: 2 } },
  };
  const { left, right, simulation } = hear(deck, { bands: [{ signal: 'silent-groove', durationS: 12 }] });
  const { noise } = simulation.truth;
  const PIECE = 0.4;
  for (const [channel, samples] of [
    ['left', left],
    ['right', right],
  ] as const) {
    const stated = channel === 'left' ? noise.leftDbPerHz : noise.rightDbPerHz;
    for (const wanted of [20, 100, 1000, 10000]) {
      const index = noise.hz.findIndex((hz) => hz > 0.99 * wanted);
      // Mean power of many windowed pieces about the frequency; the window's noise bandwidth is 2.0044/PIECE.
      let power = 0;
      let count = 0;
      for (let at = 0.5; at + PIECE < 12; at += PIECE) {
        const spread = wanted < 50 ? [0] : [-8, 0, 8];
        for (const aside of spread) {
          power += magnitude(lineAt(samples, 48000, noise.hz[index] + aside, at, at + PIECE)) ** 2;
          count++;
        }
      }
      const db = 10 * Math.log10(power / count / (2.0044 / PIECE));
      expect(Math.abs(db - stated[index]), `${channel} ${wanted} Hz`).toBeLessThan(wanted < 50 ? 2.4 : 1.4);
    }
  }
});

test('clicks fall where the truth says and nowhere else', () => {
  const { left, right, simulation } = hear(
    { record: { clicksPerMinute: 120, clickDb: 10 }, side: { beforeDropS: 1 } },
    { bands: [{ signal: 'silent-groove', durationS: 8 }] },
  );
  const { clicksAtS } = simulation.truth;
  expect(clicksAtS.length).toBeGreaterThan(6);
  expect(Math.min(...clicksAtS)).toBeGreaterThan(1);
  const near = new Uint8Array(left.length);
  for (const at of clicksAtS)
    near.fill(1, Math.max(0, Math.floor((at - 0.001) * 48000)), Math.ceil((at + 0.05) * 48000));
  let loudest = 0;
  let quietest = 0;
  left.forEach((value, i) => {
    const size = Math.abs(value) + Math.abs(right[i]);
    if (near[i] === 1) loudest = Math.max(loudest, size);
    else quietest = Math.max(quietest, size);
  });
  expect(loudest).toBeGreaterThan(0.02);
  expect(quietest).toBeLessThan(1e-5);
});

test("warp and the hole's swing reach the output through the arm only", () => {
  const record = { offCentreMm: 0.5, warp: [{ harmonic: 4, mm: 0.3 }] };
  const sheet: SheetFile = { bands: [{ signal: 'silent-groove', durationS: 8, radiusMm: 100 }] };
  const flat = { equalisation: 'flat' } as const;
  const arm = { lateralResonance: { hz: 9, q: 2 }, verticalResonance: { hz: 11, q: 2 } };
  const { left, right } = hear({ record, arm, preamp: flat }, sheet, 32000);
  const turn = 1 / 1.8;
  const lateral = (hz: number) => {
    const l = lineAt(left, 32000, hz, 0.7, 7.9);
    const r = lineAt(right, 32000, hz, 0.7, 7.9);
    return [magnitude({ re: l.re + r.re, im: l.im + r.im }), magnitude({ re: l.re - r.re, im: l.im - r.im })];
  };
  // Vertical: 0.3 mm at 4·0.5556 Hz is 0.4189 cm/s; (f/f0)² of it is left, 1/√2 in each wall, 0.02 of full scale a cm/s.
  const x = (4 * turn) / 11;
  const expected = 0.03 * 2 * Math.PI * 4 * turn * (x ** 2 / Math.hypot(1 - x * x, x / 2)) * Math.SQRT2 * 0.02;
  expect(lateral(4 * turn)[1]).toBeCloseTo(expected, 5);
  const silent = hear({ record, preamp: flat }, sheet, 32000);
  expect(silent.left.every((value) => value === 0)).toBe(true);
});

test('a band that the arm can no longer follow, or that the rate cannot hold, is refused by name', () => {
  const loud = { bands: [toneBand('lateral', 1000, 150, 1, 60)] };
  expect(() => simulateSide({ arm: { trackingErrorDeg: 12 } }, loud, { sampleRateHz: 48000, seed: 1 })).toThrow(
    /bands\[0\]\.peakVelocityCmS: 150 given/,
  );
  const short = { geometry: { spindleToPivotMm: 222, effectiveLengthMm: 100, offsetDeg: 0 } };
  expect(() => simulateSide({ arm: short }, demoSheet, { sampleRateHz: 48000, seed: 1 })).toThrow(
    'arm.geometry: an arm of 100 mm with its pivot 222 mm from the spindle cannot reach the radius of',
  );
  expect(() => simulateSide({}, { bands: [toneBand('left', 30000)] }, { sampleRateHz: 48000, seed: 1 })).toThrow(
    'bands[0]: 30000 Hz given, expected less than 24000 Hz',
  );
  expect(() => simulateSide({}, demoSheet, { sampleRateHz: Number.NaN, seed: 1 })).toThrow('sampleRateHz: NaN given');
  expect(() => simulateSide({}, demoSheet, { sampleRateHz: 48000, seed: 1.5 })).toThrow('seed: 1.5 given');
  expect(() => simulateSide({}, demoSheet, { sampleRateHz: 48000, seed: 1 }).blocks(0).next()).toThrow(
    'blockFrames: 0',
  );
});

test('the demo side: a document without NaN or infinity, balance and leaks as the samples have them', () => {
  const simulation = simulateSide(demoDeck, demoSheet, { sampleRateHz: 48000, seed: 1 });
  expect(simulation.frames / 48000).toBeGreaterThan(90);
  expect(simulation.frames / 48000).toBeLessThan(160);
  const walk = (value: unknown, at: string): void => {
    if (typeof value === 'number') expect(Number.isFinite(value), at).toBe(true);
    else if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) walk(inner, `${at}.${key}`);
    }
  };
  walk(simulation.truth, 'truth');
  const quiet: DeckFile = { cartridge: demoDeck.cartridge, preamp: { gainDb: demoDeck.preamp.gainDb } };
  const { left, right } = hear(quiet, { bands: [toneBand('left'), toneBand('right'), toneBand('lateral')] });
  const at = (samples: Float64Array, from: number) => lineAt(samples, 48000, 1000, from + 0.1, from + 0.5);
  const { crosstalk } = simulateSide(quiet, demoSheet, { sampleRateHz: 48000, seed: 1 }).truth;
  const g = magnitude(at(left, 0)) / magnitude(at(right, 0.6));
  const lr = over(at(right, 0), at(left, 0));
  const rl = over(at(left, 0.6), at(right, 0.6));
  expect(lr.re * g).toBeCloseTo(crosstalk.leftIntoRight.re, 5);
  expect(lr.im * g).toBeCloseTo(crosstalk.leftIntoRight.im, 5);
  expect(rl.re / g).toBeCloseTo(crosstalk.rightIntoLeft.re, 5);
  expect(-20 * Math.log10(magnitude(lr) * g)).toBeCloseTo(crosstalk.separationLeftToRightDb, 2);
  expect((Math.atan((rl.re / g - lr.re * g) / 2) * 180) / Math.PI).toBeCloseTo(crosstalk.azimuthErrorDeg, 3);
  expect(crosstalk.azimuthErrorDeg).toBeGreaterThan(0.7);
});
