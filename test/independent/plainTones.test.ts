/**
 * Vertical angle and tracking error from the second harmonic of plain tones, against captures by exact path, rolling ball and bent
 * generators: made without these formulas. Coarse by nature; asked of it: inside its own uncertainty, bends of 0.5 % and a 16 µm tip told apart.
 */
import { expect, it } from 'vitest';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { asRecording, recordFile } from './asRecording.ts';
import { capture } from './capture.ts';
import { draws, phasor } from './draw.ts';
import { type CutBand, type Faults, noFaults, pathErrorDeg } from './fault.ts';

const bands: readonly CutBand[] = [
  { motion: 'lateral', hz: [1000], cmS: [7], radiusMm: 138, durationS: 2.2 },
  { motion: 'left', hz: [1000], cmS: [5], radiusMm: 136, durationS: 2 },
  { motion: 'right', hz: [1000], cmS: [5], radiusMm: 134, durationS: 2 },
  { motion: 'vertical', hz: [1000], cmS: [5], radiusMm: 132, durationS: 2.2 },
  { motion: 'vertical', hz: [1000], cmS: [5], radiusMm: 70, durationS: 2.2 },
  { motion: 'lateral', hz: [1000], cmS: [7], radiusMm: 66, durationS: 2.2 },
];

function drawn(seed: number): Faults {
  const draw = draws(seed);
  return {
    ...noFaults,
    seed,
    riaa: seed % 2 === 0,
    speedErrorPercent: draw(-0.3, 0.3),
    wow: { percent: 0.1, phaseDeg: draw(0, 360) },
    twistErrorDeg: draw(-2, 2),
    playAngleDeg: draw(16, 28),
    tiltDeg: draw(-1.5, 1.5),
    tipUm: 16,
    bendsWithVelocity: { left: draw(-0.005, 0.005), right: draw(-0.005, 0.005) },
    bendsWithDisplacement: { left: draw(-0.003, 0.003), right: draw(-0.003, 0.003) },
    leftIntoRight: phasor(0.02, draw(0, 360)),
    rightIntoLeft: phasor(0.02, draw(0, 360)),
    noiseDb: -50,
  };
}

it('tells both angles inside their uncertainty, and far nearer with a clean cut', { timeout: 300_000 }, async () => {
  const off: { vertical: number[]; lateral: number[] } = { vertical: [], lateral: [] };
  for (let seed = 1; seed <= 3; seed++) {
    const faults = drawn(seed);
    const { arm } = faults;
    const { document } = await examineRecording(asRecording(capture(bands, faults)), {
      sheet: recordFile(bands, faults, {
        verticalAngleDeg: 20,
        verticalAngleKind: 'effective',
        levelUncertaintyDb: 0.2,
      }),
      arm: { spindleToPivot: arm.spindleToPivot, effectiveLength: arm.effectiveLength, offsetDeg: arm.offset },
      flat: !faults.riaa,
    });
    const find = (quantity: string) => document.findings.find((f) => f.quantity === quantity);
    const vertical = find('vertical-tracking-error')!;
    const lateral = find('tracking-error-cross-check')!;
    const radiusMm = lateral.notes!.find(({ code }) => code === 'at-radius')!.values.radiusMm as number;
    const ofVertical = (vertical.value as number) - (faults.playAngleDeg - 20);
    const ofLateral = (lateral.value as number) - pathErrorDeg(faults, radiusMm);
    expect(Math.abs(ofVertical), `seed ${seed}`).toBeLessThan(vertical.uncertainty!);
    expect(Math.abs(ofLateral), `seed ${seed}`).toBeLessThan(lateral.uncertainty!);
    expect(lateral.bands).toEqual([0, 5]);
    off.vertical.push(ofVertical);
    off.lateral.push(ofLateral);
  }
  console.log(JSON.stringify(off, (_, v) => (typeof v === 'number' ? Number(v.toFixed(2)) : v)));
  for (const error of [...off.vertical, ...off.lateral]) expect(Math.abs(error)).toBeLessThan(0.4);
});

it('both channels turned over change nothing, and one lateral band alone tells no tracking error', {
  timeout: 120_000,
}, async () => {
  const faults = { ...noFaults, playAngleDeg: 24, tipUm: 16, noiseDb: -60, sign: -1 as const };
  const some = bands.filter(({ radiusMm }) => radiusMm !== 66);
  const { document } = await examineRecording(asRecording(capture(some, faults)), { sheet: recordFile(some, faults) });
  const vertical = document.findings.find(({ quantity }) => quantity === 'vertical-tracking-error')!;
  expect(document.findings.find(({ quantity }) => quantity === 'absolute-polarity')?.value).toBe('inverted');
  expect(vertical.value as number).toBeCloseTo(4, 0);
  expect(vertical.notes!.map(({ code }) => code)).toContain('vertical-by-harmonic');
  expect(document.findings.some(({ quantity }) => quantity === 'tracking-error-cross-check')).toBe(false);
});
