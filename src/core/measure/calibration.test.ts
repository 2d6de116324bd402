import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { readCalibration } from './calibration.ts';

const RATE = 48_000;
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
