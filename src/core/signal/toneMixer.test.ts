import { describe, expect, it } from 'vitest';
import { ToneMixer } from './toneMixer.ts';

const rates = [44_100, 48_000, 88_200, 96_000, 176_400, 192_000];

describe('ToneMixer', () => {
  it('gives amplitude, phase and frequency of a tone at every rate, times included', () => {
    for (const fs of rates) {
      for (const f of [315, 1000, 3150, 10_000]) {
        const mixer = new ToneMixer(fs, f);
        const frames = Math.round(0.5 * fs);
        const start = 12_345;
        const heard = f * 1.0011;
        const left = new Float64Array(frames);
        const right = new Float64Array(frames);
        for (let n = 0; n < frames; n++) {
          const phase = (2 * Math.PI * heard * (start + n)) / fs;
          left[n] = 0.5 * Math.cos(phase + 0.3);
          right[n] = 0.02 * Math.cos(phase - 1.2);
        }
        // odd block lengths must not matter
        for (let at = 0; at < frames; ) {
          const to = Math.min(frames, at + 1 + ((at * 7919) % 9001));
          mixer.push(left, right, at, to, start + at);
          at = to;
        }
        const z = mixer.take();
        expect(z.length).toBeGreaterThan(0.4 * z.rateHz);
        for (let n = 0; n < z.length; n += 37) {
          const t = z.startS + n / z.rateHz;
          const expected = 2 * Math.PI * (heard - f) * t;
          const turned = (re: number, im: number, phase: number) => [
            re * Math.cos(phase) + im * Math.sin(phase),
            im * Math.cos(phase) - re * Math.sin(phase),
          ];
          const l = turned(z.leftRe[n], z.leftIm[n], expected + 0.3);
          const r = turned(z.rightRe[n], z.rightIm[n], expected - 1.2);
          expect(Math.abs(l[0] - 0.5)).toBeLessThan(5e-5);
          expect(Math.abs(l[1])).toBeLessThan(5e-5);
          expect(Math.abs(r[0] - 0.02)).toBeLessThan(2e-6);
          expect(Math.abs(r[1])).toBeLessThan(2e-6);
        }
      }
    }
  });

  it('keeps what lies 400 Hz and more away out by 60 dB, aliases included, and is flat to 220 Hz', () => {
    const fs = 48_000;
    const frames = 24_000;
    const level = (offset: number): number => {
      const mixer = new ToneMixer(fs, 3150);
      const x = Float64Array.from({ length: frames }, (_, n) => Math.cos((2 * Math.PI * (3150 + offset) * n) / fs));
      mixer.push(x, x, 0, frames, 0);
      const z = mixer.take();
      let peak = 0;
      for (let n = 0; n < z.length; n++) peak = Math.max(peak, Math.hypot(z.leftRe[n], z.leftIm[n]));
      return peak;
    };
    for (const offset of [-220, -100, 50, 200, 220]) expect(Math.abs(level(offset) - 1)).toBeLessThan(1.5e-3);
    for (const offset of [-3000, -1000, -405, 405, 700, 1000, 2000, 3150, 9000]) {
      expect(level(offset)).toBeLessThan(1e-3);
    }
  });

  it('hands out its baseband in pieces that join', () => {
    const fs = 48_000;
    const x = Float64Array.from({ length: 48_000 }, (_, n) => Math.cos((2 * Math.PI * 1003 * n) / fs));
    const whole = new ToneMixer(fs, 1000);
    whole.push(x, x, 0, x.length, 0);
    const all = whole.take();
    const parts = new ToneMixer(fs, 1000);
    parts.push(x, x, 0, 20_000, 0);
    const a = parts.take();
    parts.push(x, x, 20_000, x.length, 20_000);
    const b = parts.take();
    expect(a.length + b.length).toBe(all.length);
    expect(b.startS).toBeCloseTo(all.startS + a.length / all.rateHz, 12);
    expect(b.leftRe[10]).toBeCloseTo(all.leftRe[a.length + 10], 12);
  });

  it('refuses holes and impossible tones', () => {
    const mixer = new ToneMixer(48_000, 1000);
    const x = new Float64Array(100);
    mixer.push(x, x, 0, 100, 0);
    expect(() => mixer.push(x, x, 0, 100, 101)).toThrow('must follow');
    expect(() => new ToneMixer(48_000, 24_000)).toThrow('mixHz');
    expect(() => new ToneMixer(Number.NaN, 1000)).toThrow('sampleRateHz');
  });
});
