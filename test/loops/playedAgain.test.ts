/** A side whose first bands are played three times in one recording, against three recordings of one play each. */
import { expect, it } from 'vitest';
import type { JudgedFinding } from '../../src/core/advise/document.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const tone = (motion: string, frequencyHz: number, radiusMm: number, durationS: number) => ({
  signal: 'tone',
  motion,
  frequencyHz,
  peakVelocityCmS: 5,
  radiusMm,
  durationS,
});
const once = [tone('left', 1000, 138, 2.6), tone('right', 1000, 137, 2.6), tone('lateral', 1000, 136, 2.6)];
const last = tone('lateral', 3150, 120, 4.5);
const sheetOf = (bands: unknown[]) => ({ schema: 1, name: 'Thrice', rpm: 33.333, referenceVelocityCmS: 5, bands });
const file = sheetOf([...once, last]);
const deck = {
  platter: { speedErrorPercent: 0.2, wow: [{ harmonic: 1, percent: 0.06, phaseDeg: 30 }], driftPercent: 0.02 },
  record: { surfaceNoiseDb: -50, clicksPerMinute: 12, offCentreMm: 0.15 },
  arm: { geometry: {} },
  cartridge: { tiltDeg: 0.8, leftIntoRight: { db: -32, phaseDeg: 40 }, gainDb: { left: 0.4, right: 0 } },
  bearing: { rumbleLateralDb: -55, rumbleVerticalDb: -55 },
  preamp: { noiseDb: -78 },
  side: { beforeDropS: 0.3, leadInS: 0.5, gapS: 0.7, leadOutS: 0.4, afterLiftS: 0 },
};
const read = async (bands: unknown[], seed: number, sheet: unknown = file) => {
  const { recording } = virtualCapture(deck, sheetOf(bands), 44_100, seed);
  return (await examineRecording(recording, { sheet: sheet as never })).document;
};
const find = (findings: readonly JudgedFinding[], quantity: string) =>
  findings.find((finding) => finding.quantity === quantity);

it('each play gets its place, and figures the scatter from play to play', { timeout: 300_000 }, async () => {
  const { bands, findings, problems } = await read([...once, ...once, ...once, last], 3);
  expect(bands.map(({ sheetBand }) => sheetBand)).toEqual([0, 1, 2, 0, 1, 2, 0, 1, 2, 3]);
  expect(problems.map(({ code }) => code)).not.toContain('sheet-band-extra');
  const single = await Promise.all([11, 12, 13].map(async (seed) => (await read([...once, last], seed)).findings));
  for (const quantity of ['azimuth-error', 'channel-balance']) {
    const repeats = find(findings, quantity)?.repeats;
    expect(repeats?.count, quantity).toBe(3);
    const values = single.map((one) => find(one, quantity)!.value as number);
    const mean = values.reduce((a, b) => a + b, 0) / 3;
    const scatter = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 2);
    // two scatters of three: within the 0.1 % points of Fisher's F(2, 2) in size, and means within both of them
    const ratio = repeats!.scatter / scatter;
    expect(ratio > 1 / 32 && ratio < 32, `${quantity}: ${repeats!.scatter} against ${scatter}`).toBe(true);
    expect(Math.abs(repeats!.mean - mean), quantity).toBeLessThan(6 * Math.hypot(repeats!.scatter, scatter) + 1e-4);
  }
  // harmonics band by band: each of the three tells of all
  const harmonics = findings.filter((f) => f.quantity === 'second-harmonic' && bands[f.bands[0]].sheetBand === 2);
  expect(new Set(harmonics.map((f) => f.repeats?.count))).toEqual(new Set([3]));
  expect(find(findings, 'wow-flutter-weighted')?.repeats).toBeUndefined();
});

it('a side that is played once has none, and a kind of band that the file has twice is not taken for a repeat', {
  timeout: 300_000,
}, async () => {
  const { findings } = await read([...once, last], 4);
  expect(findings.filter(({ repeats }) => repeats !== undefined)).toEqual([]);
  const twice = sheetOf([...once, last, tone('lateral', 3150, 70, 4.5)]);
  const { bands } = await read([...once, last, last, last], 5, twice);
  expect(bands.filter(({ sheetBand }) => sheetBand === 3).length).toBeLessThanOrEqual(1);
});
