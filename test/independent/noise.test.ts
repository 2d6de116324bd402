/**
 * Hum, rumble and noise of a side made from first-order noises whose spectra are known in closed form: no practice deck, no groove. The integrals
 * are summed here on a fine grid, with the weightings written out once more.
 */
import { expect, it } from 'vitest';
import type { RecordSheet } from '../../src/core/record/sheet.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { asRecording } from './asRecording.ts';
import { draws } from './draw.ts';

const RATE = 44_100;
const TAU = 2 * Math.PI;
/** peak of a tone of 5 cm/s on one wall */
const REFERENCE = 0.1;

/** e[n] + a·x[n−1]: its one-sided density in closed form. */
interface FirstOrder {
  readonly sigma: number;
  readonly a: number;
}
const densityOf = ({ sigma, a }: FirstOrder, hz: number): number =>
  (2 * sigma * sigma) / RATE / (1 - 2 * a * Math.cos((TAU * hz) / RATE) + a * a);

interface Line {
  readonly hz: number;
  readonly peak: number;
}

function side(seed: number) {
  const draw = draws(seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - draw(0, 1))) * Math.cos(TAU * draw(0, 1));
  const mains = draw(0, 1) < 0.5 ? 50 : 60;
  const f0 = mains * (1 + draw(-0.002, 0.002));
  const level = 10 ** (draw(-56, -46) / 20) * REFERENCE;
  const make = (share: number) => ({
    // bearing: corner of 15 Hz; surface: nearly white
    bearing: { sigma: 3e-5 * share, a: Math.exp((-TAU * 15) / RATE) },
    surface: { sigma: 4e-4 * share, a: 0.3 },
    hum: [1, 2, 3, 5].map((k): Line => ({ hz: k * f0, peak: (level * share * draw(0.3, 1)) / k })),
  });
  const left = make(1);
  const right = make(draw(0.5, 2));
  const hiss = 1e-5;
  const silentS = 12;
  const plan = [
    { kind: 'air', s: 3 },
    { kind: 'groove', s: 1 },
    { kind: 'left', s: 2.5 },
    { kind: 'groove', s: 1 },
    { kind: 'right', s: 2.5 },
    { kind: 'groove', s: silentS },
  ] as const;
  const frames = Math.round(plan.reduce((sum, { s }) => sum + s, 0) * RATE);
  const channel = (name: 'left' | 'right', parts: typeof left): Float64Array => {
    const out = new Float64Array(frames);
    let low = 0;
    let high = 0;
    let n = 0;
    for (const { kind, s } of plan) {
      for (const end = n + Math.round(s * RATE); n < Math.min(end, frames); n++) {
        const t = n / RATE;
        low = parts.bearing.a * low + parts.bearing.sigma * normal();
        high = parts.surface.a * high + parts.surface.sigma * normal();
        let v = hiss * normal();
        for (const { hz, peak } of parts.hum) v += peak * Math.cos(TAU * hz * t + hz);
        if (kind !== 'air') v += low + high;
        if (kind === 'left' || kind === 'right') v += (kind === name ? 1 : 0.02) * REFERENCE * Math.sin(TAU * 1000 * t);
        out[n] = v;
      }
    }
    return out;
  };
  return {
    left,
    right,
    mains,
    take: { sampleRateHz: RATE, left: channel('left', left), right: channel('right', right), bands: [] },
  };
}

function aWeight(hz: number): number {
  const r = (f: number): number =>
    (12194.217148 ** 2 * f ** 4) /
    ((f * f + 20.598997058 ** 2) *
      Math.sqrt((f * f + 107.652648643 ** 2) * (f * f + 737.862230736 ** 2)) *
      (f * f + 12194.217148 ** 2));
  return r(hz) / r(1000);
}
const unweighted = (hz: number): number => (hz < 10 ? hz / 10 : hz > 315 ? (315 / hz) ** 2 : 1);
const weighted = (hz: number): number => Math.min((hz / 315) ** 2, (315 / hz) ** 2);

/** dB under the reference. */
function under(
  parts: ReturnType<typeof side>['left'],
  weight: (hz: number) => number,
  from: number,
  to: number,
): number {
  let power = parts.hum.reduce((sum, { hz, peak }) => sum + (peak * weight(hz)) ** 2 / 2, 0);
  const step = 0.5;
  for (let hz = from + step / 2; hz < to; hz += step) {
    power += (densityOf(parts.bearing, hz) + densityOf(parts.surface, hz)) * weight(hz) ** 2 * step;
  }
  return 10 * Math.log10(REFERENCE ** 2 / 2 / power);
}

const sheet: RecordSheet = {
  schema: 1,
  name: 'Silence',
  rpm: 100 / 3,
  referenceVelocityCmS: 5,
  bands: [
    { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, durationS: 2.5 },
    { signal: 'tone', motion: 'right', frequencyHz: 1000, peakVelocityCmS: 5, durationS: 2.5 },
    { signal: 'silent-groove', motion: 'none', durationS: 12 },
  ],
};

it.each([1, 2, 3])('side %i: hum, rumble and noise in each channel', { timeout: 120_000 }, async (seed) => {
  const made = side(seed);
  const { document } = await examineRecording(asRecording(made.take), { sheet });
  for (const channel of ['left', 'right'] as const) {
    const parts = made[channel];
    const check = (quantity: string, truth: number, within: number): void => {
      const found = document.findings.find((f) => f.quantity === quantity && f.channel === channel);
      expect(typeof found?.value, `${quantity} ${channel}`).toBe('number');
      const error = (found?.value as number) - truth;
      expect(Math.abs(error), `${quantity} ${channel} ${found?.value}, true ${truth}`).toBeLessThan(within);
      // stated: the record's velocity and the equaliser beside chance
      expect(found!.uncertainty!).toBeGreaterThan(found!.repeatability!);
    };
    const humDb = 10 * Math.log10(REFERENCE ** 2 / parts.hum.reduce((sum, { peak }) => sum + peak ** 2, 0));
    check('hum-tip-up', humDb, 0.1);
    check('hum', humDb, 0.5);
    check('rumble-unweighted', under(parts, unweighted, 2, 2000), 1);
    check('rumble-weighted', under(parts, weighted, 2, 2000), 0.3);
    check('noise-a-weighted', under(parts, aWeight, 20, 0.45 * RATE), 0.15);
    const note = document.findings.find((f) => f.quantity === 'hum-tip-up' && f.channel === channel)?.note;
    expect(note).toMatch(new RegExp(`Mains of ${made.mains === 50 ? '(49|50)' : '(59|60)'}\\.`));
  }
  expect(document.findings.some((f) => f.quantity === 'hum-motor-off')).toBe(false);
});

it('without a record file there is no reference: withheld, with the reason', { timeout: 60_000 }, async () => {
  const { document } = await examineRecording(asRecording(side(5).take));
  expect(document.findings.some((f) => f.quantity.startsWith('rumble'))).toBe(false);
  const why = document.problems.find((p) => p.quantity === 'rumble-weighted');
  expect(why).toMatchObject({ code: 'withheld' });
  expect(why?.message).toMatch(/record file with velocities/);
});
