import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type DeckFile, readDeck } from './deck.ts';
import { readSheet } from './sheet.ts';
import { layOut, radiusAt } from './side.ts';
import { grooveClock, type SpeedModel, speedModel, timesOf } from './speed.ts';

const SEED = 20240611;

function modelOf(deck: DeckFile, radii = [57.5], durationS = 4): SpeedModel {
  const sheet = readSheet({
    rpm: 33.333,
    bands: radii.map((radiusMm) => ({ signal: 'silent-groove' as const, durationS, radiusMm })),
  });
  const whole = readDeck({ side: { beforeDropS: 0, leadInS: 0, leadOutS: 0, gapS: 1, afterLiftS: 0 }, ...deck });
  return speedModel(whole, layOut(sheet, whole.side), 7);
}

function clockOf(model: SpeedModel, rate: number, count: number, fromS = 0) {
  const tau = new Float64Array(count);
  const speed = new Float64Array(count);
  grooveClock(model, rate, fromS).fill(tau, speed, count);
  return { tau, speed };
}

const everything: DeckFile = {
  platter: {
    speedErrorPercent: 0.7,
    wow: [
      { harmonic: 1, percent: 0.2, phaseDeg: 30 },
      { harmonic: 3, percent: 0.1, phaseDeg: -80 },
    ],
    flutter: [
      { hz: 6.3, percent: 0.1 },
      { hz: 190, percent: 0.05, phaseDeg: 45 },
    ],
    driftPercent: 0.03,
    startAngleDeg: 70,
  },
  record: { offCentreMm: 0.5, offCentreAngleDeg: 100 },
};

/** The tip where the arm's arc crosses the groove's circle, found by halving the arc; its bearing from the groove's centre. */
function bearingByHalving(model: SpeedModel, recordAngle: number, r: number): number {
  const { arm, offCentre, offCentreAngle } = model.path;
  const a = offCentreAngle - recordAngle;
  const centre = { x: offCentre * Math.cos(a), y: offCentre * Math.sin(a) };
  const place = (g: number) =>
    arm === null ? { x: g, y: 0 } : { x: arm.d - arm.length * Math.cos(g), y: -arm.length * Math.sin(g) };
  let [inner, outer] = arm === null ? [10, 300] : [0.06, 1.4];
  for (let i = 0; i < 80; i++) {
    const middle = (inner + outer) / 2;
    const p = place(middle);
    if (Math.hypot(p.x - centre.x, p.y - centre.y) < r) inner = middle;
    else outer = middle;
  }
  const p = place(inner);
  return Math.atan2(p.y - centre.y, p.x - centre.x);
}

/** Groove time straight from its meaning: the platter's angle by fine summation, and where the tip lies on the groove. */
function reference(model: SpeedModel, toS: number): number {
  const exact = model.turning / model.mean;
  const platter = (t: number) =>
    model.mean * (1 + model.lines.reduce((sum, l) => sum + l.amplitude * Math.cos(l.omega * t + l.phase), 0));
  const steps = Math.round(toS * 40000);
  const h = toS / steps;
  let turned = 0; // Simpson's rule
  for (let i = 0; i < steps; i++)
    turned += ((exact * h) / 6) * (platter(i * h) + 4 * platter((i + 0.5) * h) + platter((i + 1) * h));
  const start = bearingByHalving(model, model.startAngle, radiusAt(model.side, 0).mm);
  let tau = toS;
  for (let i = 0; i < 60; i++) {
    const r = radiusAt(model.side, tau).mm;
    tau = (turned + bearingByHalving(model, model.startAngle + turned, r) - start) / exact;
  }
  return tau;
}

const nineInch = { geometry: { spindleToPivotMm: 222, effectiveLengthMm: 239.296, offsetDeg: 22.986 } };

test.each([
  ['tangential', {}],
  ['pivoted', { arm: nineInch }],
  ['pivoted, the groove on its way inwards', { arm: nineInch, record: { ...everything.record, groovePitchMm: 0.3 } }],
] as const)(
  'the clock is the platter and the place of the tip on the groove, over a gap between two radii: %s',
  (_, more) => {
    const model = modelOf({ ...everything, ...more }, [110, 57.5], 1.2);
    const rate = 48000;
    const { tau, speed } = clockOf(model, rate, Math.round(2.9 * rate) + 1);
    for (const at of [0.5, 1.7, 2.9]) {
      expect(Math.abs(tau[Math.round(at * rate)] - reference(model, at))).toBeLessThan(2e-11);
      const step = 1e-4;
      const slope = (reference(model, at + step) - reference(model, at - step)) / (2 * step);
      expect(Math.abs(speed[Math.round(at * rate)] - slope)).toBeLessThan(2e-6);
    }
  },
);

test('the sample rate and the place where the capture starts do not change the clock', () => {
  const model = modelOf(everything);
  const slow = clockOf(model, 44100, 44100);
  const fast = clockOf(model, 176400, 176400);
  const late = clockOf(model, 44100, 22050, 0.5);
  for (let i = 0; i < 44100; i += 147) expect(Math.abs(slow.tau[i] - fast.tau[4 * i])).toBeLessThan(1e-15 * 10);
  for (let i = 0; i < 22050; i += 147) expect(Math.abs(late.tau[i] - slow.tau[i + 22050])).toBeLessThan(1e-14);
});

test('the rate is the derivative of the groove time at every sample, with no step where pieces meet', () => {
  const model = modelOf(everything);
  const rate = 48000;
  const { tau, speed } = clockOf(model, rate, 20000);
  for (let i = 1; i < 19999; i++) {
    const slope = ((tau[i + 1] - tau[i - 1]) * rate) / 2;
    expect(Math.abs(slope - speed[i])).toBeLessThan(2e-7);
  }
});

test('an off-centre hole changes the speed by e/r, once a turn (computed values of docs/virtual-deck.md)', () => {
  for (const [radius, percent] of [
    [57.5, 0.3478],
    [146.05, 0.1369],
  ]) {
    const model = modelOf({ record: { offCentreMm: 0.2, offCentreAngleDeg: 90 } }, [radius]);
    const { speed } = clockOf(model, 1000, 3600);
    const deviation = Array.from(speed.subarray(0, 1800), (value) => 100 * (value - 1));
    expect(Math.max(...deviation)).toBeCloseTo(percent, 4);
    expect(Math.min(...deviation)).toBeCloseTo(-percent, 4);
    // Most speed where the platter stands at the hole's angle: a quarter turn after the start, 0.45 s.
    expect(deviation.indexOf(Math.max(...deviation)) / 1000).toBeCloseTo(0.45, 2);
    // One turn later everything is the same.
    expect(speed[1800 + 123]).toBeCloseTo(speed[123], 9);
  }
});

// abstract of "Devices for eliminating wow in the reproduction of commercial disk records"; the radius, 2 inches, is taken to fit its 1 %
test('a hole 0.01 inch off centre gives 1 % peak to peak at the inner grooves', () => {
  const { speed } = clockOf(modelOf({ record: { offCentreMm: 0.254 } }, [50.8]), 1000, 1800);
  expect(100 * (Math.max(...speed) - Math.min(...speed))).toBeCloseTo(1, 4);
});

test('the platter turns on through the side: the hole keeps its phase from band to band', () => {
  const model = modelOf(
    { record: { offCentreMm: 0.3, offCentreAngleDeg: 20 }, platter: { startAngleDeg: 55 } },
    [140, 100, 60],
  );
  const { speed } = clockOf(model, 1000, 14000);
  // Bands at 0–4, 5–9 and 10–14 s, a turn is 1.8 s.
  for (const [from, radius] of [
    [500, 140],
    [5500, 100],
    [10500, 60],
  ]) {
    for (let i = from; i < from + 1800; i += 100) {
      const angle = (2 * Math.PI * (i / 1000)) / 1.8 + (35 * Math.PI) / 180;
      expect(speed[i] - 1).toBeCloseTo((0.3 / radius) * Math.cos(angle), 4);
    }
  }
});

test('wow keeps its phase against the platter angle, flutter against time', () => {
  const wow = modelOf({ platter: { wow: [{ harmonic: 2, percent: 1, phaseDeg: 0 }], startAngleDeg: 45 } });
  // The platter stands at 45° at the start, twice that is 90°: cos 90° = 0 and falling.
  const { speed } = clockOf(wow, 1000, 100);
  expect(speed[0]).toBeCloseTo(1, 9);
  expect(speed[50]).toBeLessThan(1);
  const flutter = modelOf({ platter: { flutter: [{ hz: 5, percent: 1, phaseDeg: 180 }], startAngleDeg: 45 } });
  expect(clockOf(flutter, 1000, 2).speed[0]).toBeCloseTo(0.99, 9);
});

test('drift has the rms asked for and no mean', () => {
  const model = modelOf({ platter: { driftPercent: 0.1 } }, [100], 600);
  const { speed } = clockOf(model, 50, 30000);
  const mean = speed.reduce((sum, v) => sum + v, 0) / speed.length;
  const rms = Math.sqrt(speed.reduce((sum, v) => sum + (v - mean) ** 2, 0) / speed.length);
  // Neighbouring lines beat more slowly than 600 s, so the rms of so short a stretch is not quite that of the whole.
  expect(100 * rms).toBeGreaterThan(0.085);
  expect(100 * rms).toBeLessThan(0.115);
  expect(Math.abs(mean - 1)).toBeLessThan(1e-4);
});

test(`when a groove time is heard is the clock's inverse (seed ${SEED})`, () => {
  const model = modelOf(everything, [140, 60], 3);
  const rate = 200000;
  const { tau } = clockOf(model, rate, 7 * rate);
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 6.9, noNaN: true }), { minLength: 1, maxLength: 5 }), (wanted) => {
      const sorted = wanted.sort((a, b) => a - b);
      timesOf(model, sorted).forEach((t, i) => {
        const at = t * rate;
        const k = Math.floor(at);
        const heard = tau[k] + (tau[k + 1] - tau[k]) * (at - k);
        expect(Math.abs(heard - sorted[i])).toBeLessThan(5e-7);
      });
    }),
    { seed: SEED, numRuns: 20 },
  );
});
