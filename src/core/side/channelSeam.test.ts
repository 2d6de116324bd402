import { describe, expect, it } from 'vitest';
import { wavFrames, wavHeader } from '../../../test/faults/sideBytes.ts';
import { bytesOf } from '../capture/bytesOf.ts';
import { seamBetween } from './channelSeam.ts';
import { examineSide } from './examineSide.ts';

const RATE = 48_000;
const TONES = [
  { from: 0.5, to: 5.5, left: 1, right: 0.03 },
  { from: 6.5, to: 11.5, left: -0.02, right: 1 },
  { from: 12.5, to: 16.5, left: 0.7, right: 0.7 },
] as const;

/** 1 kHz left, right and lateral, 24 bits. */
function side(): Uint8Array {
  const frames = 17 * RATE;
  let seed = 5;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed / 2 ** 32 - 0.5) * 1e-3;
  };
  const samples = new Float64Array(2 * frames);
  for (let n = 0; n < frames; n++) {
    const t = n / RATE;
    const tone = TONES.find(({ from, to }) => t >= from && t < to);
    const wave = 0.4 * Math.sin(2 * Math.PI * 1000.3 * t);
    samples[2 * n] = (tone?.left ?? 0) * wave + hiss();
    samples[2 * n + 1] = (tone?.right ?? 0) * wave + hiss();
  }
  return wavFrames(wavHeader(RATE, frames), samples);
}

const without = (bytes: Uint8Array, at: number, count: number): Uint8Array =>
  Uint8Array.from([...bytes.subarray(0, at), ...bytes.subarray(at + count)]);
const byteAt = (s: number): number => 44 + 6 * Math.round(s * RATE);
describe('bytes that are missing in mid-file', () => {
  const whole = side();

  it.each([3, 9, -3])('%i of them in a one-sided tone: named, and measured up to there only', async (count) => {
    const at = byteAt(8.7);
    const damaged =
      count > 0
        ? without(whole, at, count)
        : Uint8Array.from([...whole.subarray(0, at), 0, 0, 0, ...whole.subarray(at)]);
    const { document } = await examineSide(bytesOf(damaged, 'side.wav'));
    const found = document.problems.find((p) => p.code === 'channels-shift');
    expect(found?.startS).toBeCloseTo(8.7, 2);
    const after = document.bands.filter((band) => band.startS > 8.6).map((band) => band.index);
    expect(after.length).toBeGreaterThan(0);
    expect(document.findings.flatMap((f) => f.bands).filter((band) => after.includes(band))).toEqual([]);
    // left and the first two seconds of right stand before it, and still tell the separation
    const separation = document.findings.find((f) => f.quantity === 'separation-left-to-right');
    expect(separation?.value).toBeCloseTo(-20 * Math.log10(0.03), 0);
  });

  it('a whole side has none', async () => {
    const { document } = await examineSide(bytesOf(whole, 'side.wav'));
    expect(document.problems.map((p) => p.code)).not.toContain('channels-shift');
    expect(document.findings.length).toBeGreaterThan(5);
  });
});

it('two tones with a pause of 20 ms, or out of step, are two bands', () => {
  const cycles = 1000 / RATE;
  const n = 9600;
  const series = (from: number, to: number, phase: number) =>
    Float64Array.from({ length: n }, (_, i) => (i >= from && i < to ? Math.sin(2 * Math.PI * cycles * i + phase) : 0));
  expect(seamBetween(series(0, 4000, 0), series(4000, n, 0), cycles, 192)).toBeGreaterThan(3950);
  expect(seamBetween(series(0, 4000, 0), series(4000, n, 1.2), cycles, 192)).toBeNull();
  expect(seamBetween(series(0, 4000, 0), series(4960, n, 0), cycles, 192)).toBeNull();
});
