import { describe, expect, it } from 'vitest';
import { QuietEstimator } from './quietEstimator.ts';
import { weightedPower } from './quietSpectra.ts';

/** A sine over a floor 60 dB under it, heard with the tip up: its power as the two spectra together sum it, over what it is. */
function heard(sampleRateHz: number, lineHz: number): { ratio: number; spread: number } {
  const frames = Math.round(2.5 * sampleRateHz);
  let seed = 1;
  const hiss = (): number => {
    seed = (seed * 1_103_515_245 + 12_345) % 2 ** 31;
    return (seed / 2 ** 31 - 0.5) * 2e-4;
  };
  const channel = (): Float64Array =>
    Float64Array.from(
      { length: frames },
      (_, n) => 0.01 * Math.sin((2 * Math.PI * lineHz * n) / sampleRateHz + 0.4) + hiss(),
    );
  const estimator = new QuietEstimator(sampleRateHz, 'tip-up');
  estimator.push({ startFrame: 0, frames, left: channel(), right: channel() });
  const reading = estimator.result();
  estimator.end();
  if (reading === null) throw new Error('a stretch this long is read');
  const { power, spread } = weightedPower(reading.parts[0], 'left', 20, 20_000, () => 1);
  return { ratio: power / 0.5e-4, spread: spread / power };
}

describe('the fine and the coarse spectrum together', () => {
  // the joint was sharp once: of the seventh multiple of 60 Hz at 48 kHz a tenth was lost
  it.each([44_100, 48_000])('count a line once, wherever it lies, at %i Hz', (rate) => {
    for (const hz of [59.98, 350.1, 400.1, 419.8, 480, 500.2, 540, 600.1, 700.3, 780, 840.1, 899.7, 960, 1500]) {
      expect(heard(rate, hz).ratio, `${hz} Hz`).toBeCloseTo(1, 1.7);
    }
  });

  it('take no mains line for chance', () => {
    // as noise in five bins and a few spectra it would be worth a half
    expect(heard(48_000, 99.98).spread).toBeLessThan(0.01);
  });
});
