/** Two-tone bands in one wall each, against captures by exact path and rolling ball: path, vertical angle and tip from the pair. */
import { expect, it } from 'vitest';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { asRecording, recordFile } from './asRecording.ts';
import { capture } from './capture.ts';
import { draws, phasor } from './draw.ts';
import { type CutBand, noFaults, pathErrorDeg } from './fault.ts';

const bands: readonly CutBand[] = [
  { motion: 'left', hz: [1000], cmS: [5], radiusMm: 140, durationS: 2 },
  { motion: 'right', hz: [1000], cmS: [5], radiusMm: 138, durationS: 2 },
  { motion: 'left', hz: [400, 4000], cmS: [4, 1], radiusMm: 101, durationS: 2.3 },
  { motion: 'right', hz: [400, 4000], cmS: [4, 1], radiusMm: 99, durationS: 2.3 },
];

it.each([1, -1] as const)('both angles from one pair, chain turned by %s', { timeout: 120_000 }, async (sign) => {
  const draw = draws(sign + 5);
  const faults = {
    ...noFaults,
    sign,
    twistErrorDeg: 1.4 * sign,
    playAngleDeg: 24,
    tipUm: 16,
    bendsWithVelocity: { left: draw(-0.01, 0.01), right: draw(-0.01, 0.01) },
    bendsWithDisplacement: { left: draw(-0.01, 0.01), right: draw(-0.01, 0.01) },
    leftIntoRight: phasor(0.02, draw(0, 360)),
    rightIntoLeft: phasor(0.02, draw(0, 360)),
    noiseDb: -55,
  };
  const { document } = await examineRecording(asRecording(capture(bands, faults)), {
    sheet: recordFile(bands, faults, { verticalAngleDeg: 20, verticalAngleKind: 'effective' }),
  });
  const value = (quantity: string) => document.findings.find((f) => f.quantity === quantity)?.value;
  expect(value('absolute-polarity')).toBe(sign > 0 ? 'normal' : 'inverted');
  expect(Math.abs((value('tracking-error') as number) - pathErrorDeg(faults, 100))).toBeLessThan(0.2);
  expect(Math.abs((value('vertical-tracking-error') as number) - 4)).toBeLessThan(0.3);
  expect(Math.abs((value('effective-tip-radius') as number) - 16)).toBeLessThan(2);
});
