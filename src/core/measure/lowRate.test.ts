import { describe, expect, it } from 'vitest';
import { lowpassTaps } from '../signal/lowpass.ts';
import { LowRate, type LowRateSignal } from './lowRate.ts';

const RATE = 4000;
const bottom = { passHz: 60, rateHz: 190, attenuationDb: 60, mostS: 600 };

function kept(frames: number, cuts: readonly number[], of = bottom): LowRateSignal {
  const left = Float64Array.from({ length: frames }, (_, n) => Math.cos((2 * Math.PI * 23 * n) / RATE + 0.4));
  const right = Float64Array.from({ length: frames }, (_, n) => 0.5 * Math.cos((2 * Math.PI * 41 * n) / RATE));
  const low = new LowRate(RATE, of);
  let from = 0;
  for (const size of [...cuts, frames]) {
    const to = Math.min(frames, from + size);
    low.push({ left: left.subarray(from, to), right: right.subarray(from, to), frames: to - from });
    from = to;
  }
  const signal = low.signal();
  low.end();
  return signal;
}

describe('the bottom of a recording', () => {
  it('is kept at the rate that divides the recording’s and lies next above, in its own time', () => {
    const { rateHz, delayS, left, right } = kept(8000, []);
    // 4000 over 21
    expect(rateHz).toBeCloseTo(4000 / 21, 12);
    const taps = lowpassTaps({ sampleRateHz: RATE, passHz: 60, stopHz: 4000 / 21 - 60, attenuationDb: 60 });
    expect(delayS).toBeCloseTo((taps.length - 1) / 2 / RATE, 12);
    expect(left).toHaveLength(Math.floor((8000 - taps.length) / 21) + 1);
    expect(right).toHaveLength(left.length);
    for (let n = 0; n < left.length; n++) {
      const t = delayS + n / rateHz;
      expect(Math.abs(left[n] - Math.cos(2 * Math.PI * 23 * t + 0.4))).toBeLessThan(2e-3);
      expect(Math.abs(right[n] - 0.5 * Math.cos(2 * Math.PI * 41 * t))).toBeLessThan(1e-3);
    }
  });

  it('does not depend on where the blocks are cut', () => {
    const whole = kept(6000, []);
    for (const cuts of [[1, 1, 700, 13], [3000], [10, 5000, 20], new Array(60).fill(100)]) {
      expect(kept(6000, cuts)).toEqual(whole);
    }
  });

  it('takes no more once what is wanted is there', () => {
    const most = { ...bottom, mostS: 0.5 };
    const { left, rateHz } = kept(8000, new Array(8).fill(1000), most);
    const whole = kept(8000, []);
    expect(left.length).toBeGreaterThanOrEqual(0.5 * rateHz);
    expect(left.length).toBeLessThan(0.5 * rateHz + 60);
    expect(left).toEqual(whole.left.slice(0, left.length));
    expect(kept(4000, [4000], { ...bottom, mostS: 0 }).left).toHaveLength(0);
  });

  it('a rate just under half of the recording’s keeps every other sample', () => {
    expect(kept(1000, [], { passHz: 900, rateHz: 1999, attenuationDb: 60, mostS: 600 }).rateHz).toBe(RATE / 2);
  });

  it('stops what would fold down', () => {
    const low = new LowRate(RATE, bottom);
    const of = Float64Array.from({ length: 4000 }, (_, n) => Math.cos((2 * Math.PI * 170 * n) / RATE));
    low.push({ left: of, right: of, frames: 4000 });
    expect(Math.max(...low.signal().left.map(Math.abs))).toBeLessThan(2e-3);
    low.end();
  });
});
