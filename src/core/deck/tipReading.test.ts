/** What the tip makes of a groove: its path, its roundness, its skew. Values computed from the formulas named beside them. */

import { expect, test } from 'vitest';
import { type Complex, conjugate, magnitude, over, phaseOf, plus, scaled, times } from '../units/complex.ts';
import type { DeckFile } from './deck.ts';
import { grooveSpeedCmS, stillMotion, waveformOfLines } from './groove.ts';
import { hear, lineAt, toneBand } from './listen.fixture.ts';
import { tipReader } from './tipReading.ts';

const flat = { preamp: { equalisation: 'flat' } } as const satisfies DeckFile;
const RATE = 96000;
const rad = (deg: number) => (deg * Math.PI) / 180;
const speedAt = (radiusMm: number) => grooveSpeedCmS(100 / 3, radiusMm);

/** Lateral and vertical lines of a capture in cm/s of the groove. */
function heard(deck: DeckFile, band: object, hz: readonly number[], cut: object = {}) {
  const { left, right } = hear({ ...flat, ...deck }, { bands: [band as never], cut } as never, RATE);
  return hz.map((f) => {
    const [l, r] = [left, right].map((samples) => scaled(lineAt(samples, RATE, f, 0.1, 0.6), 50));
    return { x: scaled(plus(l, r), Math.SQRT1_2), y: scaled(plus(l, scaled(r, -1)), Math.SQRT1_2), l, r };
  });
}

const twoTones = (motion: string, radiusMm = 90) => ({
  signal: 'two-tone',
  motion,
  frequenciesHz: [400, 4000],
  ratio: 4,
  peakVelocityCmS: 8,
  radiusMm,
  durationS: 0.7,
});

/** k, a and b from the sidebands of two tones: three real unknowns, four real numbers. */
function sidebands(lines: readonly Complex[]) {
  const [v1, v2, minus, plus2] = lines;
  const [w1, w2] = [2 * Math.PI * 400, 2 * Math.PI * 4000];
  const p = over(plus2, times(v1, v2));
  const m = over(minus, times(v2, conjugate(v1)));
  const sum = (w2 + w1) ** 2 / (w1 * w2);
  const difference = (w2 - w1) ** 2 / (w1 * w2);
  return {
    k: (2 * (p.re - m.re)) / (sum + difference),
    b: (p.re * difference + m.re * sum) / (sum + difference),
    a: (-p.im * w1 * w2) / (w2 + w1),
    aFromBelow: (m.im * w1 * w2) / (w2 - w1),
  };
}
const at = [400, 4000, 3600, 4400] as const;

test('a lateral two-tone band shows tan ε / V in its sidebands, whatever the generator does', () => {
  for (const deck of [
    { arm: { trackingErrorDeg: 1.5 } },
    { arm: { trackingErrorDeg: 1.5 }, cartridge: { secondHarmonicPercent: { left: 1, right: 1 } } },
    { arm: { trackingErrorDeg: 1.5 }, cartridge: { displacementBendPercent: { left: 0.5, right: 0.5 } } },
  ] satisfies DeckFile[]) {
    const { k } = sidebands(heard(deck, twoTones('lateral'), at).map(({ x }) => x));
    expect((Math.atan(k * speedAt(90)) * 180) / Math.PI).toBeCloseTo(1.5, 1);
  }
});

test('a vertical one shows −(tan α_play − tan α_cut) / V', () => {
  const lines = heard({ arm: { verticalAngleDeg: 24 } }, twoTones('vertical'), at, { verticalAngleDeg: 20 });
  const { k } = sidebands(lines.map(({ y }) => y));
  expect(k * speedAt(90)).toBeCloseTo(-(Math.tan(rad(24)) - Math.tan(rad(20))), 3);
});

test('generators: bent with velocity in phase alike, bent with displacement in quadrature', () => {
  // y = u + 2 h u²/v0: b = 2h/v0 of a wall; a lateral tone has 1/√2 in each wall, and x = √2 times a wall
  const velocity = sidebands(
    heard({ cartridge: { secondHarmonicPercent: { left: 1, right: 1 } } }, twoTones('lateral'), at).map(({ x }) => x),
  );
  expect(velocity.b).toBeCloseTo((2 * 0.01) / 5 / Math.SQRT2, 5);
  expect(Math.abs(velocity.a)).toBeLessThan(0.01);
  const place = sidebands(
    heard({ cartridge: { displacementBendPercent: { left: 1, right: 1 } } }, twoTones('lateral'), at).map(({ x }) => x),
  );
  const beta = 2 * 0.01 * ((2 * Math.PI * 1000) / 5);
  expect(place.a / (beta / 2 / Math.SQRT2)).toBeCloseTo(1, 2);
  expect(place.aFromBelow / (beta / 2 / Math.SQRT2)).toBeCloseTo(1, 2);
  expect(Math.abs(place.b)).toBeLessThan(1e-5);
});

test("a generator's displacement bend is the stated share at 1 kHz, falls as 1/f and lies at −90°", () => {
  for (const hz of [500, 1000, 2000]) {
    const deck = { cartridge: { displacementBendPercent: { left: 1 } } };
    const [first, second] = heard(deck, toneBand('left', hz, 5, 0.7), [hz, 2 * hz]);
    const q = over(second.l, first.l);
    expect(magnitude(q)).toBeCloseTo(0.01 * (1000 / hz), 4);
    expect(phaseOf(q)).toBeCloseTo(-Math.PI / 2, 2);
  }
});

test('a body that tilts by 0.8° at a vertical angle of 22° is heard as a tracking error of −0.32°, 1.5° as −0.61°', () => {
  for (const [tiltDeg, error] of [
    [0.8, -0.32],
    [1.5, -0.61],
  ]) {
    const deck = { arm: { verticalAngleDeg: 22 }, cartridge: { tiltDeg } };
    const { left, right, simulation } = hear({ ...flat, ...deck }, { bands: [twoTones('lateral') as never] }, RATE);
    // the generators' own tilt undone, as a measurement does
    const [c, s] = [Math.cos(rad(tiltDeg)), Math.sin(rad(tiltDeg))];
    const lines = at.map((hz) => {
      const [l, r] = [left, right].map((samples) => scaled(lineAt(samples, RATE, hz, 0.1, 0.6), 50));
      return scaled(plus(scaled(l, c + s), scaled(r, c - s)), Math.SQRT1_2);
    });
    const found = (Math.atan(sidebands(lines).k * speedAt(90)) * 180) / Math.PI;
    expect(found).toBeCloseTo(error, 1);
    expect(simulation.truth.bands[0].pathErrorDeg).toBeCloseTo(error, 1);
    expect(simulation.truth.bands[0].trackingErrorDeg).toBe(0);
  }
});

test("a cutter's clockwise twist adds to the tracking error that is heard, not to the deck's", () => {
  const deck = { arm: { trackingErrorDeg: 0.5 }, record: { cut: { zenithDeg: 1 } } };
  const { k } = sidebands(heard(deck, twoTones('lateral'), at).map(({ x }) => x));
  expect((Math.atan(k * speedAt(90)) * 180) / Math.PI).toBeCloseTo(1.5, 1);
  const { simulation } = hear({ ...flat, ...deck }, { bands: [twoTones('lateral') as never] }, RATE);
  expect(simulation.truth.bands[0].pathErrorDeg).toBeCloseTo(0.5, 9);
  expect(simulation.truth.bands[0].ofRecord.trackingDeg).toBeCloseTo(1, 9);
});

test('a round tip: R v ω / (2√2 V²) of second harmonic at +90° in L − R, 0.67 % at 50 cm/s and 3.1 % at 23 cm/s', () => {
  for (const [speedCmS, percent] of [
    [50, 0.67],
    [23, 3.1],
  ]) {
    const radius = (speedCmS / speedAt(100)) * 100;
    const deck = { cartridge: { tipRadiusUm: 15 } };
    const [first, second] = heard(deck, { ...toneBand('lateral', 1000, 5, 0.7), radiusMm: radius }, [1000, 2000]);
    // each wall moves with 5/√2: R/2 (ẏ/V)² along the normals, + for the inner wall and − for the outer
    const q = over(second.y, times(first.x, over(first.x, { re: magnitude(first.x), im: 0 })));
    expect(100 * magnitude(q)).toBeCloseTo(percent, 1);
    expect(phaseOf(q)).toBeCloseTo(Math.PI / 2, 1);
    expect(magnitude(second.x) / magnitude(second.y)).toBeLessThan(0.02);
  }
});

test('a vertical two-tone band holds +i R (ω2 ± ω1) / (2√2 V²) of a round tip', () => {
  const lines = heard({ cartridge: { tipRadiusUm: 16 } }, twoTones('vertical', 120), at).map(({ y }) => y);
  const [w1, w2] = [2 * Math.PI * 400, 2 * Math.PI * 4000];
  const expected = (16e-4 / (2 * Math.SQRT2 * speedAt(120) ** 2)) * 1;
  const [v1, v2, minus, above] = lines;
  expect(over(above, times(v1, v2)).im / (expected * (w2 + w1))).toBeCloseTo(1, 1);
  expect(over(minus, times(v2, conjugate(v1))).im / (expected * (w2 - w1))).toBeCloseTo(1, 1);
});

test('a ball rolls on a wall as the highest ball over it does, also where it bridges a bend sharper than itself', () => {
  for (const [hz, velocity] of [
    [1000, 6],
    [6000, 8],
    [12000, 12],
  ]) {
    const [V, R] = [40, 18e-4];
    const lines = [{ m: 1, n: 0, hz, velocity }];
    const waveform = waveformOfLines(lines);
    const reading = { lateralShift: 0, verticalShift: 0, speedCmS: V, tipCm: R, rightLagS: 0 };
    const read = tipReader(waveform, { left: { re: 1, im: 0 }, right: { re: 1, im: 0 } }, reading);
    const motion = stillMotion();
    const wall = (w: number, normal: number) => {
      waveform(w, motion);
      return normal * motion.s;
    };
    /** the ball's centre over w, by looking at every point under it */
    const centre = (w: number, normal: number) => {
      let highest = Number.NEGATIVE_INFINITY;
      for (let i = -4000; i <= 4000; i++) {
        const x = (i / 4000) * R;
        highest = Math.max(highest, wall(w + x / V, normal) + Math.sqrt(R * R - x * x) - R);
      }
      return normal * highest;
    };
    const tip = { left: 0, right: 0 };
    for (let i = 0; i < 24; i++) {
      const w = (i + 0.37) / 24 / hz;
      read(w, 1, tip);
      const h = 0.004 / hz;
      // a ball that sits in a notch turns its slope at once: there the two sides disagree and neither is meant
      const slopes = (normal: number) =>
        [0, 1].map((k) => (centre(w + k * h, normal) - centre(w + (k - 1) * h, normal)) / h);
      for (const [found, [before, after]] of [
        [tip.left, slopes(1)],
        [tip.right, slopes(-1)],
      ] as const) {
        if (Math.abs(before - after) > 0.15 * velocity) continue;
        expect(Math.abs(found - (before + after) / 2), `${hz} Hz at ${i}/24`).toBeLessThan(0.02 * velocity);
      }
    }
  }
});

test('a skewed edge makes the right wall late by w tan(ζ − ε) / V', () => {
  const deck = { arm: { trackingErrorDeg: 1 }, cartridge: { stylusSkewDeg: 4, contactWidthUm: 25 } };
  const band = { ...toneBand('lateral', 8000, 1, 0.7), radiusMm: 80 };
  const [line] = heard(deck, band, [8000]);
  const lag = (25e-4 * Math.tan(rad(3))) / speedAt(80);
  expect(phaseOf(over(line.r, line.l))).toBeCloseTo(-2 * Math.PI * 8000 * lag, 4);
});

test('the tip set down beside its groove lets the arm ring at its resonance', () => {
  const deck = {
    arm: {
      lateralResonance: { hz: 9, q: 4 },
      verticalResonance: { hz: 12, q: 3 },
      dropUm: { lateral: 100, vertical: -60 },
    },
    side: { beforeDropS: 0.5 },
  };
  const { left, right } = hear({ ...flat, ...deck }, { bands: [{ signal: 'silent-groove', durationS: 3 }] }, 32000);
  for (const [sign, hz, q] of [
    [1, 9, 4],
    [-1, 12, 3],
  ]) {
    const sum = left.map((v, i) => v + sign * right[i]);
    // free ringing: frequency f0 √(1 − 1/4Q²), falling by e^(−π/Q √…) a period
    const free = hz * Math.sqrt(1 - 1 / (4 * q * q));
    const crossings: number[] = [];
    for (let i = Math.round(0.52 * 32000); i < 1.2 * 32000; i++)
      if (sum[i] < 0 && sum[i + 1] >= 0) crossings.push(i / 32000);
    expect((crossings.length - 1) / (crossings.at(-1)! - crossings[0])).toBeCloseTo(free, 1);
    const peak = (from: number) =>
      Math.max(...sum.subarray(Math.round(from * 32000), Math.round((from + 1 / free) * 32000)));
    expect(peak(0.6 + 1 / free) / peak(0.6)).toBeCloseTo(Math.exp((-Math.PI * hz) / q / free), 2);
  }
});

test('what the record has of its own is heard as its own: leaks, level, balance, speed, second harmonic', () => {
  const cut = {
    leftIntoRight: { db: -30, phaseDeg: 50 },
    levelDb: 0.5,
    balanceDb: 0.4,
    speedErrorPercent: 0.2,
    secondHarmonicPercent: 0.3,
  };
  const hz = 1002;
  const [left] = heard({ record: { cut } }, toneBand('left', 1000, 5, 0.7), [hz]);
  const leak = over(left.r, left.l);
  expect(20 * Math.log10(magnitude(leak))).toBeCloseTo(-30 - 0.4, 3);
  expect((phaseOf(leak) * 180) / Math.PI).toBeCloseTo(50, 3);
  expect(20 * Math.log10(magnitude(left.l) / 5)).toBeCloseTo(0.5 + 0.2, 3);
  const [first, second] = heard({ record: { cut } }, toneBand('right', 1000, 5, 0.7), [hz, 2 * hz]);
  expect(over(second.r, first.r).re).toBeCloseTo(0.003, 5);
  const { simulation } = hear({ ...flat, record: { cut } }, { bands: [toneBand('left', 1000, 5, 0.7)] }, RATE);
  expect(simulation.truth.crosstalk.separationLeftToRightDb).toBe(200);
  expect(simulation.truth.crosstalkAsCaptured.separationLeftToRightDb).toBeCloseTo(30, 3);
  expect(simulation.truth.bands[0].frequencyHz).toBeCloseTo(hz, 6);
  expect(simulation.truth.figures.find((f) => f.quantity === 'speed-error')?.value).toBe(0);
});
