import { describe, expect, it } from 'vitest';
import { besselI0, lowpassTaps } from './lowpass.ts';
import { tapsMagnitude } from './taps.fixture.ts';

describe('low pass', () => {
  it('keeps its promise in the stop band, and within 12 dB of it in the pass band of a short filter, as firwin of SciPy does', () => {
    for (const [sampleRateHz, passHz, stopHz, attenuationDb] of [
      [12_000, 230, 1770, 80],
      [2000, 220, 400, 70],
      [1837.5, 220, 400, 60],
    ]) {
      const taps = lowpassTaps({ sampleRateHz, passHz, stopHz, attenuationDb });
      const ripple = 10 ** (-attenuationDb / 20);
      for (let f = 0; f <= passHz; f += passHz / 20) {
        expect(Math.abs(tapsMagnitude(taps, f, sampleRateHz) - 1)).toBeLessThan(4 * ripple);
      }
      for (let f = stopHz; f <= sampleRateHz / 2; f += 7) {
        expect(tapsMagnitude(taps, f, sampleRateHz)).toBeLessThan(1.3 * ripple);
      }
      expect(taps.length % 2).toBe(1);
      expect(taps.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 13);
    }
  });

  it('has the Bessel function right: I0(1) and I0(5) to ten digits', () => {
    expect(besselI0(0)).toBe(1);
    expect(besselI0(1)).toBeCloseTo(1.2660658778, 9);
    expect(besselI0(5)).toBeCloseTo(27.2398718236, 9);
  });

  it('refuses a band that does not exist', () => {
    expect(() => lowpassTaps({ sampleRateHz: 1000, passHz: 300, stopHz: 200, attenuationDb: 60 })).toThrow('must rise');
    expect(() => lowpassTaps({ sampleRateHz: 1000, passHz: Number.NaN, stopHz: 200, attenuationDb: 60 })).toThrow(
      RangeError,
    );
    expect(() => lowpassTaps({ sampleRateHz: 1000, passHz: 100, stopHz: 200, attenuationDb: 5 })).toThrow('21 to 150');
  });
});
