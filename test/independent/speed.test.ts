/**
 * Wow, flutter lines, drift and the plot around the platter of tones whose phase is written down in closed form: no practice deck, no
 * groove. A sine of 4 Hz, where the weighting is 1, has 2σ = a sin(0.95 π/2), rms a/√2 and, by the meter's definition, quasi-peak a.
 */
import { expect, it } from 'vitest';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { asRecording } from './asRecording.ts';
import { draws } from './draw.ts';

const RATE = 44_100;
const TAU = 2 * Math.PI;
const TURN_HZ = 100 / 3 / 60;

interface Line {
  readonly hz: number;
  readonly peak: number;
  readonly at: number;
}

/** Tones of 3150 Hz at the given times, each with its own mean speed, all with the same lines of flutter. */
function side(tones: readonly { atS: number; lastsS: number; speed: number }[], lines: readonly Line[], noise: number) {
  const draw = draws(7);
  const frames = Math.round((tones[tones.length - 1].atS + tones[tones.length - 1].lastsS + 1) * RATE);
  const out = new Float64Array(frames);
  for (const { atS, lastsS, speed } of tones) {
    for (let n = Math.round(atS * RATE); n < Math.round((atS + lastsS) * RATE); n++) {
      const t = n / RATE;
      const swing = lines.reduce((sum, { hz, peak, at }) => sum + (peak / (TAU * hz)) * Math.sin(TAU * hz * t + at), 0);
      out[n] = 0.2 * Math.sin(TAU * 3150 * ((1 + speed) * t + swing));
    }
  }
  const with_ = (gain: number): Float64Array => out.map((v) => gain * v + noise * (draw(-1, 1) + draw(-1, 1)));
  return asRecording({ sampleRateHz: RATE, left: with_(1), right: with_(0.97) });
}

it('2σ, rms and quasi-peak of one sine stand to each other as its shape says', { timeout: 60_000 }, async () => {
  const peak = 1e-3;
  const { document } = await examineRecording(side([{ atS: 1, lastsS: 20, speed: 0 }], [{ hz: 4, peak, at: 1 }], 1e-4));
  const of = (quantity: string) => document.findings.find((f) => f.quantity === quantity)!;
  const percent = (quantity: string) => of(quantity).value as number;
  expect(percent('wow-flutter-weighted')).toBeCloseTo(100 * peak * Math.sin(0.475 * Math.PI), 3);
  expect(percent('wow-flutter-weighted-rms')).toBeCloseTo((100 * peak) / Math.SQRT2, 3);
  expect(Math.abs(percent('wow-flutter-weighted-quasi-peak') / (100 * peak) - 1)).toBeLessThan(0.03);
  const line = of('flutter-line');
  expect(line.atHz).toBeCloseTo(4, 2);
  expect(line.value).toBeCloseTo(100 * peak, 3);
});

it('lines carry the names of what turns, drift its slope, and the plot lies round the platter', {
  timeout: 60_000,
}, async () => {
  const lines = [
    { hz: TURN_HZ, peak: 6e-4, at: 0 },
    { hz: 250 / 60, peak: 3e-4, at: 1 },
    { hz: 11.3, peak: 2e-4, at: 2 },
    { hz: 50, peak: 1e-4, at: 3 },
  ];
  const tones = [
    { atS: 1, lastsS: 16.2, speed: 2e-3 },
    { atS: 60, lastsS: 9, speed: 1.7e-3 },
    { atS: 121, lastsS: 16.2, speed: 1.4e-3 },
  ];
  const { document } = await examineRecording(side(tones, lines, 1e-4), {
    bench: { drive: { motorRpm: 250 }, strobeUp: { percent: 0.35, uncertainty: 0.02 }, strobe: { percent: 0.17 } },
  });
  const named = document.findings
    .filter(({ quantity }) => quantity === 'flutter-line')
    .map(({ atHz, value, notes }) => ({ atHz: atHz!, value: value as number, code: notes![1].code }));
  expect(named.map(({ code }) => code)).toEqual([
    'flutter-of-platter',
    'flutter-of-motor',
    'flutter-of-nothing-known',
    'flutter-of-mains',
  ]);
  named.forEach(({ atHz, value }, i) => {
    expect(Math.abs(atHz - lines[i].hz)).toBeLessThan(0.02);
    expect(Math.abs(value / (100 * lines[i].peak) - 1)).toBeLessThan(0.03);
  });
  const drift = document.findings.find(({ quantity }) => quantity === 'speed-drift')!;
  // −0.06 % from 9.1 to 129.1 s
  expect(drift.value).toBeCloseTo(-0.03, 3);
  expect(Math.abs((drift.value as number) + 0.03)).toBeLessThan(drift.uncertainty!);
  const drag = document.findings.find(({ quantity }) => quantity === 'stylus-drag')!;
  expect(drag).toMatchObject({ value: expect.closeTo(0.18, 9), uncertainty: expect.closeTo(Math.hypot(0.02, 0.1), 9) });
  const around = document.curves.find(({ quantity, band }) => quantity === 'speed-against-turn' && band === 0)!;
  expect(around.x.length).toBeLessThanOrEqual(864);
  // once per turn by the plot: the fundamental of what lies at each angle
  const turns = Math.floor((around.x.at(-1)! - around.x[0]) / 360);
  const whole = around.x.filter((deg) => deg < around.x[0] + 360 * turns);
  const part = (f: (a: number) => number) =>
    (2 / whole.length) * whole.reduce((sum, deg, i) => sum + around.y[i] * f((deg * Math.PI) / 180), 0);
  expect(Math.hypot(part(Math.cos), part(Math.sin))).toBeCloseTo(0.06, 2);
});
