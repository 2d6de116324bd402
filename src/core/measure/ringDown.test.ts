import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { ringDown } from './ringDown.ts';

const rateHz = 500;
const DROP_S = 1;

/** The arm ringing down from the drop on, through a first-order high pass that the impact has upset, over noise. */
function dropped(hz: number, q: number, upset: number, noise: number, seed = 1): Float64Array {
  const draw = gaussian(seed);
  const w = 2 * Math.PI * hz;
  const turn = w * Math.sqrt(1 - 1 / (4 * q * q));
  return Float64Array.from({ length: 3 * rateHz }, (_, n) => {
    const t = n / rateHz - DROP_S;
    const rings = t < 0 ? 0 : Math.exp((-w * t) / (2 * q)) * Math.cos(turn * t) + upset * Math.exp(-t / 7950e-6);
    return rings + noise * draw();
  });
}

it('a damped arm is read through the preamp’s high pass, which the impact leaves ringing out', () => {
  for (const [hz, q] of [
    [9, 1.4],
    [7, 2.5],
    [12, 4],
  ]) {
    const read = ringDown({ rateHz }, dropped(hz, q, 3, 1e-4));
    expect(Math.abs((read?.hz ?? 0) / hz - 1), `${hz} Hz`).toBeLessThan(0.002);
    expect(Math.abs((read?.q ?? 0) / q - 1), `${hz} Hz`).toBeLessThan(0.005);
  }
});

it('a damped arm is read through the chain’s low corner, whose tail is as long as the ringing', () => {
  const [hz, q] = [9.8, 1.4];
  for (const cornerHz of [0.5, 1, 2, 4])
    for (const tail of [-0.5, 0.5]) {
      // what dies away in the corner is part of what the corner lets through
      const values = dropped(hz, q, 0, 1e-4).map((v, n) => {
        const t = n / rateHz - DROP_S;
        return v + (t < 0 ? 0 : tail * Math.exp(-2 * Math.PI * cornerHz * t));
      });
      const read = ringDown({ rateHz }, values);
      expect(Math.abs((read?.hz ?? 0) / hz - 1), `${cornerHz} Hz, ${tail}`).toBeLessThan(0.005);
      expect(Math.abs((read?.q ?? 0) / q - 1), `${cornerHz} Hz, ${tail}`).toBeLessThan(0.05);
    }
});

it('states the scatter that noise leaves', () => {
  const [hz, q] = [9, 3];
  const reads = Array.from({ length: 16 }, (_, i) => ringDown({ rateHz }, dropped(hz, q, 0, 0.015, 100 + i))).filter(
    (read) => read !== null,
  );
  expect(reads.length).toBeGreaterThan(13);
  const rms = Math.sqrt(reads.reduce((sum, read) => sum + (read.hz / hz - 1) ** 2, 0) / reads.length);
  const stated = Math.sqrt(reads.reduce((sum, read) => sum + read.hzSpread ** 2, 0) / reads.length);
  expect(stated / rms).toBeGreaterThan(0.8);
  expect(stated / rms).toBeLessThan(1.6);
});
