import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { readCalibration } from './calibration.ts';

const RATE = 16_000;
const recorded = (left: (t: number) => number, right: (t: number) => number, seconds = 3) => {
  const frames = seconds * RATE;
  const of = (f: (t: number) => number): Float64Array => Float64Array.from({ length: frames }, (_, n) => f(n / RATE));
  const [l, r] = [of(left), of(right)];
  return {
    format: { sampleRateHz: RATE, frames } as never,
    async *blocks() {
      for (let from = 0; from < frames; from += 7001) {
        const to = Math.min(frames, from + 7001);
        yield { startFrame: from, frames: to - from, left: l.subarray(from, to), right: r.subarray(from, to) };
      }
    },
  };
};
const sine =
  (peak: number, hz = 1000, from = 0.35) =>
  (t: number): number =>
    t < from ? 0 : peak * Math.sin(2 * Math.PI * hz * t);

it('full scale of either channel, silence before the tone, an offset and noise beside it', async () => {
  const draw = gaussian(4);
  const of = await readCalibration(
    recorded(
      (t) => sine(0.5)(t) + 0.01 + 1e-4 * draw(),
      (t) => sine(0.25)(t) + 1e-4 * draw(),
    ),
    1,
  );
  // 1 V rms at a peak of half of full scale: 2 V
  expect(of.found && of.left).toBeCloseTo(2, 3);
  expect(of.found && of.right).toBeCloseTo(4, 3);
});

it('a channel that was not fed has none', async () => {
  const of = await readCalibration(recorded(sine(0.5), sine(0.001)), 0.005);
  expect(of).toMatchObject({ found: true, right: null });
});

it('refuses silence, clipping, a wavering level and what is no sine', async () => {
  const why = async (left: (t: number) => number) => {
    const of = await readCalibration(
      recorded(left, () => 0),
      1,
    );
    return of.found ? null : of.why.code;
  };
  expect(await why(() => 0)).toBe('calibration-silent');
  expect(await why((t) => Math.max(-1, Math.min(1, 1.3 * Math.sin(6283 * t))))).toBe('calibration-clipped');
  expect(await why((t) => (0.3 + 0.1 * t) * Math.sin(6283 * t))).toBe('calibration-unsteady');
  expect(await why((t) => 0.5 * Math.sign(Math.sin(6283 * t)))).toBe('calibration-unsteady');
  await expect(readCalibration(recorded(sine(0.5), sine(0.5)), Number.NaN)).rejects.toThrow(RangeError);
});

/** Tenths of a second written one by one: a sine of so much peak, by the thousandth of a second. */
const SLOW = 1000;
const parts = (left: readonly number[], right: readonly number[] = left, shape = 1) => {
  const of = (peaks: readonly number[]): Float64Array =>
    Float64Array.from({ length: 100 * peaks.length }, (_, n) => {
      const v = Math.sin((2 * Math.PI * (n + 0.5)) / 2 / 10 + Math.PI / 4);
      return peaks[Math.floor(n / 100)] * Math.sign(v) * Math.abs(v) ** shape;
    });
  const [l, r] = [of(left), of(right)];
  const frames = Math.max(l.length, r.length);
  return {
    format: { sampleRateHz: SLOW, frames } as never,
    async *blocks() {
      for (let from = 0; from < frames; from += 170) {
        const to = Math.min(frames, from + 170);
        yield { startFrame: from, frames: to - from, left: l.subarray(from, to), right: r.subarray(from, to) };
      }
    },
  };
};
const times = (count: number, peak: number): number[] => new Array(count).fill(peak);
const verdict = async (...of: Parameters<typeof parts>) => {
  const read = await readCalibration(parts(...of), 1);
  return read.found ? [read.left, read.right].map((v) => v !== null) : read.why.code;
};

it('a tone must last a second, and be louder than nothing', async () => {
  expect(await verdict(times(10, 0.5))).toEqual([true, true]);
  expect(await verdict(times(9, 0.5))).toBe('calibration-silent');
  // what plays at less than half of the loudest is before or after the tone
  expect(await verdict([...times(9, 0.5), ...times(20, 0.24)])).toBe('calibration-silent');
  expect(await verdict(times(10, 1.6e-6))).toEqual([true, true]);
  expect(await verdict(times(10, 1.3e-6))).toBe('calibration-silent');
});

it('a channel 26 dB under the other was not fed, either of them', async () => {
  expect(await verdict(times(10, 0.5), times(10, 0.0251))).toEqual([true, true]);
  expect(await verdict(times(10, 0.5), times(10, 0.0249))).toEqual([true, false]);
  expect(await verdict(times(10, 0.0249), times(10, 0.5))).toEqual([false, true]);
});

it('four fifths of it must hold within 0.1 dB up and down; the usual level counts', async () => {
  const off = (by: number, count: number) => [...times(20 - count, 0.5), ...times(count, 0.5 * by)];
  for (const by of [1.013, 1 / 1.013]) {
    expect(await verdict(off(by, 3))).toEqual([true, true]);
    expect(await verdict(off(by, 4))).toBe('calibration-unsteady');
  }
  for (const by of [1.01, 1 / 1.01]) expect(await verdict(off(by, 8))).toEqual([true, true]);
  const read = await readCalibration(parts(off(1.5, 3)), 1);
  const plain = await readCalibration(parts(times(20, 0.5)), 1);
  expect(read.found && read.left).toBeCloseTo(plain.found ? (plain.left ?? 0) : 0, 9);
});

it('its peak lies within 0.5 dB of √2 over its rms: neither flattened nor peaked', async () => {
  // a sine to the power p has a mean square of Γ(p + ½)/(√π Γ(p + 1)): 0.4456 and 0.561 at the bounds
  expect(await verdict(times(10, 0.5), times(10, 0.5), 1.31)).toEqual([true, true]);
  expect(await verdict(times(10, 0.5), times(10, 0.5), 1.37)).toBe('calibration-unsteady');
  expect(await verdict(times(10, 0.5), times(10, 0.5), 0.76)).toEqual([true, true]);
  expect(await verdict(times(10, 0.5), times(10, 0.5), 0.72)).toBe('calibration-unsteady');
});

it('a peak at full scale in any tenth that counts is clipped, one in what does not count is not', async () => {
  expect(await verdict([...times(11, 1.0005), ...times(1, 0.9)])).toBe('calibration-clipped');
  expect(await verdict([...times(11, 0.999)])).toEqual([true, true]);
  expect(await verdict([...times(11, 0.98), 1.1])).toEqual([true, true]);
  expect(await verdict([...times(11, 0.5), 1])).not.toBe('calibration-clipped');
});

it('volts above 0 and below 1000', async () => {
  const tone = () => parts(times(10, 0.5));
  for (const volts of [0, -1, 1000, Number.POSITIVE_INFINITY])
    await expect(readCalibration(tone(), volts)).rejects.toThrow(`volts ${volts} must be above 0 and below 1000`);
  for (const volts of [1e-6, 999]) expect(await readCalibration(tone(), volts)).toMatchObject({ found: true });
});
