import { describe, expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { ToneMixer } from '../signal/toneMixer.ts';
import { HarmonicEstimator } from './harmonics.ts';
import { playbackGain } from './playbackEqualisation.ts';

/** A tone with harmonics and wow in the right channel alone, a leak of it in the left. */
function heard(fs: number, hz: number, ratios: readonly number[], noise: number, seed: number) {
  const draw = gaussian(seed);
  const frames = 2 * fs;
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  for (let n = 0; n < frames; n++) {
    const t = n / fs;
    const phase = 2 * Math.PI * hz * (t + 5e-4 * Math.sin(2 * Math.PI * 0.6 * t));
    let v = Math.cos(phase);
    ratios.forEach((ratio, i) => {
      v += ratio * Math.cos((i + 2) * phase + 0.7 * i);
    });
    right[n] = 0.2 * v + noise * draw();
    left[n] = 0.005 * v + noise * draw();
  }
  const estimator = new HarmonicEstimator(fs, hz, 'right');
  const tone = new ToneMixer(fs, hz);
  estimator.push({ left, right, frames, startFrame: 0 });
  tone.push(left, right, 0, frames, 0);
  return estimator.result(tone);
}

describe('harmonics', () => {
  it('reads each order of the driven channel, wow and all, with an uncertainty that holds', () => {
    const ratios = [0.01, 0.004, 0.001, 0.0005];
    let inside = 0;
    let all = 0;
    for (const [fs, hz] of [
      [44_100, 315],
      [48_000, 1000],
      [96_000, 3150],
    ]) {
      for (let seed = 0; seed < 2; seed++) {
        const [channel, ...others] = heard(fs, hz, ratios, 0.002, 40 + seed);
        expect(others).toEqual([]);
        expect(channel.channel).toBe('right');
        expect(channel.orders.map((o) => o.order)).toEqual([2, 3, 4, 5]);
        for (const { order, ratio, spread } of channel.orders) {
          expect(Math.abs(ratio - ratios[order - 2])).toBeLessThan(4 * spread + 2e-6);
          expect(spread).toBeLessThan(2e-4);
          all += 1;
          if (Math.abs(ratio - ratios[order - 2]) <= 2 * spread) inside += 1;
        }
      }
    }
    console.log(`harmonics: inside k = 2 ${inside} of ${all}`);
    expect(inside).toBeGreaterThan(0.85 * all);
  });

  it('stops at what the capture reaches, and gives nothing without a tone', () => {
    const [channel] = heard(44_100, 5000, [0.01, 0.01], 1e-4, 1);
    expect(channel.orders.map((o) => o.order)).toEqual([2, 3]);
    const silent = new HarmonicEstimator(48_000, 1000, 'both');
    const tone = new ToneMixer(48_000, 1000);
    expect(silent.result(tone)).toEqual([]);
    const nothing = new Float64Array(48_000);
    silent.push({ left: nothing, right: nothing, frames: 48_000, startFrame: 0 });
    tone.push(nothing, nothing, 0, 48_000, 0);
    expect(silent.result(tone)).toEqual([]);
    expect(new HarmonicEstimator(8000, 2000, 'both').result(new ToneMixer(8000, 2000))).toEqual([]);
    expect(() => new HarmonicEstimator(48_000, 100, 'both')).toThrow('frequencyHz 100');
  });

  it('undoes the playback equalisation of the check values', () => {
    for (const [hz, db] of [
      [20, 19.2741],
      [100, 13.0885],
      [2000, -2.5885],
      [6300, -9.9803],
      [10_000, -13.7343],
      [20_000, -19.6203],
    ]) {
      expect(20 * Math.log10(playbackGain(hz))).toBeCloseTo(db, 3);
    }
    expect(() => playbackGain(Number.NaN)).toThrow(RangeError);
  });
});
