/**
 * A whole side by the second generator through the whole of `measure` and `advise`: every sign and figure that the practice deck also
 * judges, once more from the physics alone.
 */
import { expect, it } from 'vitest';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { asRecording, recordFile } from './asRecording.ts';
import { capture } from './capture.ts';
import { draws, phasor } from './draw.ts';
import { type CutBand, type Faults, noFaults, pathErrorDeg } from './fault.ts';

const DEG = Math.PI / 180;

const bands: readonly CutBand[] = [
  { motion: 'left', hz: [1000], cmS: [5], radiusMm: 142, durationS: 3.2 },
  { motion: 'right', hz: [1000], cmS: [5], radiusMm: 140, durationS: 3.2 },
  { motion: 'lateral', hz: [3150], cmS: [5], radiusMm: 132, durationS: 5.6 },
  { motion: 'lateral', hz: [400, 4000], cmS: [4.8, 1.2], radiusMm: 128, durationS: 2.6 },
  { motion: 'vertical', hz: [400, 4000], cmS: [3.2, 0.8], radiusMm: 110, durationS: 2.6 },
  { motion: 'lateral', hz: [3150], cmS: [5], radiusMm: 72, durationS: 5.6 },
  { motion: 'lateral', hz: [400, 4000], cmS: [4.8, 1.2], radiusMm: 64, durationS: 2.6 },
];

function drawn(seed: number): Faults {
  const draw = draws(seed);
  return {
    ...noFaults,
    seed,
    speedErrorPercent: draw(0.1, 0.5) * (seed % 2 === 0 ? 1 : -1),
    wow: { percent: draw(0.02, 0.1), phaseDeg: draw(0, 360) },
    hole: { mm: draw(0.15, 0.4), deg: draw(0, 360) },
    arm: { ...noFaults.arm, effectiveLength: noFaults.arm.effectiveLength + draw(0.8, 2) * (seed % 2 === 0 ? 1 : -1) },
    twistErrorDeg: draw(-1, 1),
    playAngleDeg: draw(17, 25),
    tiltDeg: draw(0.5, 2) * (seed % 3 === 0 ? -1 : 1),
    tipUm: draw(12, 18),
    bendsWithVelocity: { left: draw(-0.01, 0.01), right: draw(-0.01, 0.01) },
    bendsWithDisplacement: { left: draw(-0.01, 0.01), right: draw(-0.01, 0.01) },
    leftIntoRight: phasor(0.01, draw(0, 360)),
    rightIntoLeft: phasor(0.01, draw(0, 360)),
    rightGain: phasor(10 ** (draw(-1, 1) / 20), draw(-2, 2)),
    sign: seed % 2 === 0 ? 1 : -1,
    noiseDb: -50,
  };
}

it.each([3, 4])('agrees with the truth in figure, sign and move: seed %i', { timeout: 300_000 }, async (seed) => {
  const faults = drawn(seed);
  const sheet = recordFile(bands, faults, { verticalAngleDeg: 20, verticalAngleKind: 'effective' });
  const arm = { spindleToPivot: 222, effectiveLength: 239.296, offsetDeg: 22.9855 };
  const { document } = await examineRecording(asRecording(capture(bands, faults)), { sheet, arm });
  expect(document.bands.map(({ signal, motion, sheetBand }) => ({ signal, motion, sheetBand }))).toEqual(
    bands.map(({ motion, hz }, sheetBand) => ({ signal: hz.length === 1 ? 'tone' : 'two-tone', motion, sheetBand })),
  );
  const figure = (quantity: string, band?: number) =>
    document.findings.find((f) => f.quantity === quantity && (band === undefined || f.bands.includes(band)))!;
  const value = (quantity: string, band?: number): number => figure(quantity, band).value as number;

  const t = Math.tan(faults.tiltDeg * DEG);
  const { leftIntoRight: a, rightIntoLeft: b } = faults;
  expect(value('azimuth-error')).toBeCloseTo(Math.atan((b.re + t - a.re + t) / 2) / DEG, 1);
  expect(value('separation-left-to-right')).toBeCloseTo(-20 * Math.log10(Math.hypot(a.re - t, a.im)), 0);
  expect(value('separation-right-to-left')).toBeCloseTo(-20 * Math.log10(Math.hypot(b.re + t, b.im)), 0);
  expect(figure('polarity').value).toBe('in-phase');
  expect(figure('channel-order').value).toBe('normal');
  expect(Math.abs(value('speed-error') - faults.speedErrorPercent)).toBeLessThan(0.01);
  const { re, im } = faults.rightGain;
  const both = 20 * Math.log10(Math.hypot(1 + b.re + t, b.im) / Math.hypot(1 + a.re - t, a.im) / Math.hypot(re, im));
  expect(Math.abs(value('channel-balance') - both)).toBeLessThan(0.05);
  expect(Math.abs(value('eccentricity') - faults.hole.mm)).toBeLessThan(0.12 * faults.hole.mm + 0.02);

  expect(figure('absolute-polarity').value).toBe(faults.sign > 0 ? 'normal' : 'inverted');
  expect(Math.abs(value('effective-tip-radius') - faults.tipUm)).toBeLessThan(1.5);
  for (const band of [3, 6]) {
    const { value: heard, uncertainty, repeatability } = figure('tracking-error', band);
    expect(Math.abs((heard as number) - pathErrorDeg(faults, bands[band].radiusMm)), `band ${band}`).toBeLessThan(0.1);
    expect(uncertainty!).toBeGreaterThan(0.5);
    expect(repeatability!).toBeLessThan(0.05);
  }
  expect(Math.abs(value('vertical-tracking-error') - (faults.playAngleDeg - 20))).toBeLessThan(0.3);

  const { uncertainty: doubt } = figure('vertical-tracking-error');
  const height = document.advice.find(({ action }) => action === 'set-arm-height' || action === 'leave-height')!;
  const steep = faults.playAngleDeg - 20;
  if (Math.abs(steep) > doubt! + 0.3) {
    expect(height.direction).toBe(steep > 0 ? 'lower-at-the-pivot' : 'raise-at-the-pivot');
    // never more than 1.5° by height: at most 6.6 mm on this arm
    expect(height.amount!).toBeLessThan(6.8);
  }
  if (Math.abs(steep) < doubt! - 0.3) expect(height.action).toBe('leave-height');

  const overhang = faults.arm.effectiveLength - 222;
  expect(Math.abs(value('overhang-heard') - overhang)).toBeLessThan(0.2);
  const slide = document.advice.find(({ action }) => action === 'slide')!;
  const tooFar = faults.arm.effectiveLength > arm.effectiveLength;
  expect(slide.direction).toBe(tooFar ? 'back' : 'forward');
  expect(slide.why).toContain(tooFar ? 'too far forward' : 'too far back');
  // moved as told and played again in thought: what is left is within what it claims
  const after = faults.arm.effectiveLength + (tooFar ? -1 : 1) * slide.amount! * Math.cos(faults.arm.offset * DEG);
  expect(Math.abs(after - arm.effectiveLength)).toBeLessThan(0.3);
});
