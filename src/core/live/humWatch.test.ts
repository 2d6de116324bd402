import { describe, expect, it } from 'vitest';
import { aWeightingGain } from '../signal/aWeighting.ts';
import { HumWatch } from './humWatch.ts';

/** seconds of hum of a peak at some lines, with noise that is the same in every run */
function heard(rate: number, seconds: number, peaks: Readonly<Record<number, number>>, noise = 1e-5) {
  const watch = new HumWatch(rate);
  const readings = [];
  let state = 1;
  const roll = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 31 - 1;
  };
  const block = 1000;
  const [left, right] = [new Float64Array(block), new Float64Array(block)];
  for (let from = 0; from < seconds * rate; from += block) {
    for (let i = 0; i < block; i++) {
      const t = (from + i) / rate;
      const hum = Object.entries(peaks).reduce(
        (sum, [hz, peak]) => sum + peak * Math.sin(2 * Math.PI * Number(hz) * t),
        0,
      );
      left[i] = hum + noise * roll();
      right[i] = noise * roll();
    }
    watch.push({ left, right, frames: block });
    const { reading } = watch;
    if (reading !== null && reading.index !== readings.at(-1)?.index) readings.push(reading);
  }
  return readings;
}

it('a second with a band in it, and the one before it, tell nothing: the band was named late', () => {
  const watch = new HumWatch(48_000);
  const second = (hz: number, isNamed: boolean): number | null => {
    const wave = Float64Array.from({ length: 48_000 }, (_, n) => 0.1 * Math.sin((2 * Math.PI * hz * n) / 48_000));
    if (isNamed) watch.hide();
    watch.push({ left: wave, right: wave, frames: 48_000 });
    return watch.reading?.index ?? null;
  };
  // 1 kHz is the twentieth of 50 Hz: it began in the third second and was named in the fourth
  const told = [second(50, false), second(50, false), second(1000, false), second(1000, true), second(50, false)];
  expect(told).toEqual([null, 1, 2, null, null]);
  expect([second(50, false), second(50, false)]).toEqual([5, 6]);
});

describe('hum while it is listened to', () => {
  it.each([44_100, 48_000, 96_000])(
    'a reading a second, the power of all lines under a full-scale sine, at %i Hz',
    (rate) => {
      const readings = heard(rate, 4.2, { 50: 1e-3, 150: 1e-3 });
      expect(readings.map(({ index }) => index)).toEqual([1, 2, 3]);
      // two lines of −60 dBFS
      for (const { db, mainsHz, rises } of readings) {
        expect(Math.abs(db + 56.99)).toBeLessThan(0.15);
        expect([mainsHz, rises]).toEqual([50, true]);
      }
      const sixty = heard(rate, 2.1, { 60: 1e-3 });
      expect(sixty[0].mainsHz).toBe(60);
      expect(Math.abs(sixty[0].db + 60)).toBeLessThan(0.15);
    },
  );

  it('without lines it says what none passes, and its ± grows with the noise', () => {
    const [silent] = heard(48_000, 2.1, {});
    expect(silent.rises).toBe(false);
    expect(silent.db).toBeLessThan(-90);
    const [clean] = heard(48_000, 2.1, { 50: 1e-3 });
    const [noisy] = heard(48_000, 2.1, { 50: 1e-3 }, 3e-3);
    expect(noisy.spreadDb).toBeGreaterThan(3 * clean.spreadDb);
    expect(Math.abs(noisy.db + 60)).toBeLessThan(4 * noisy.spreadDb + 0.1);
  });

  it.each([44_100, 96_000])('the noise beside it, A-weighted, at %i Hz', (rate) => {
    // white, of each channel a third of its peak squared, cut at the band's ends
    const peak = 1e-3;
    let integral = 0;
    const toHz = Math.min(20_000, 0.45 * rate);
    for (let hz = 20; hz < toHz; hz++) integral += aWeightingGain(hz + 0.5) ** 2;
    const expected = 10 * Math.log10(2 * 2 * (peak ** 2 / 3) * (integral / (rate / 2)));
    const readings = heard(rate, 12.1, {}, peak);
    expect(readings.length).toBe(11);
    const off = readings.map(({ noiseDb }) => noiseDb - expected);
    const { noiseSpreadDb } = readings[0];
    expect(Math.abs(off.reduce((sum, one) => sum + one, 0) / off.length)).toBeLessThan(0.05);
    // the ± is that of single seconds
    const rms = Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / off.length);
    expect(rms / noiseSpreadDb).toBeGreaterThan(0.5);
    expect(rms / noiseSpreadDb).toBeLessThan(1.7);
    // IEC 61672-1 has 19.1 dB off at 100 Hz
    const [line] = heard(rate, 2.1, { 100: 1e-2 });
    expect(Math.abs(line.noiseDb - (-40 - 19.1))).toBeLessThan(0.1);
  });
});
