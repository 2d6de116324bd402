import { describe, expect, it } from 'vitest';
import { ComplexFft } from './fft.ts';
import { coherentGain, noiseBandwidthBins } from './windows.fixture.ts';
import { type WindowName, windowSamples } from './windows.ts';

/** Magnitude of the window's transform at fractions of a bin, dB re its maximum. */
function transformDb(name: WindowName): Float64Array {
  const n = 64;
  const size = 64 * 64;
  const re = new Float64Array(size);
  re.set(windowSamples(name, n));
  const im = new Float64Array(size);
  new ComplexFft(size).forward(re, im);
  return re.slice(0, size / 2).map((v, k) => 20 * Math.log10(Math.hypot(v, im[k]) / Math.hypot(re[0], im[0]) + 1e-30));
}
/** Highest lobe from `fromBin` bins on. */
const sideLobe = (name: WindowName, fromBin: number): number => Math.max(...transformDb(name).slice(fromBin * 64));

// Harris, On the use of windows for harmonic analysis, 1978, table 1: side lobes and noise bandwidth; the digits are from memory
describe('windows by the properties that Harris tabulates', () => {
  it.each([
    // name, first zero (bins), highest side lobe dB, equivalent noise bandwidth bins
    ['rectangular', 1, -13.26, 1],
    ['hann-periodic', 2, -31.47, 1.5],
    ['blackman-harris-periodic', 4, -92, 2.0044],
  ] as const)('%s: side lobes and noise bandwidth', (name, zero, lobeDb, enbw) => {
    expect(Math.abs(sideLobe(name, zero) - lobeDb)).toBeLessThan(0.3);
    expect(noiseBandwidthBins(windowSamples(name, 1024))).toBeCloseTo(enbw, 3);
  });

  it('flat top: half a bin off reads within 0.011 dB, side lobes under −88 dB', () => {
    expect(Math.abs(transformDb('flat-top-periodic')[32])).toBeLessThan(0.011);
    expect(sideLobe('flat-top-periodic', 5)).toBeLessThan(-88);
  });

  it('hann at half overlap adds up to one', () => {
    const w = windowSamples('hann-periodic', 64);
    for (let n = 0; n < 32; n++) expect(w[n] + w[n + 32]).toBeCloseTo(1, 14);
    expect(coherentGain(w)).toBeCloseTo(0.5, 14);
  });

  it('refuses a length of zero', () => {
    expect(() => windowSamples('hann-periodic', 0)).toThrow('length 0 must be');
  });
});
