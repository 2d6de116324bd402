import { expect, it } from 'vitest';
import { ArmWatch } from './armWatch.ts';

const RATE = 8000;
const FLOOR = 1e-5;
const GROOVE = 1e-3;

/** Seconds of noise of one amplitude in both channels, with an offset that must not count. */
function hear(watch: ArmWatch, amplitude: number, seconds: number, hum = 0): void {
  const n = Math.round(seconds * RATE);
  let seed = 1;
  const noise = Float64Array.from({ length: n }, (_, i) => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return 0.02 + amplitude * (seed / 2 ** 31 - 1) + hum * Math.sin((2 * Math.PI * 50 * i) / RATE);
  });
  for (let at = 0; at < n; at += 333) {
    const block = noise.subarray(at, at + 333);
    watch.push({ left: block, right: block, frames: block.length });
  }
}

it('a lowered arm is told by 6 dB over the quietest heard, within half a second, and a lifted one after 1.2 s', () => {
  const watch = new ArmWatch(RATE);
  hear(watch, FLOOR, 2);
  expect(watch.isDown).toBe(false);
  hear(watch, FLOOR * 1.6, 1);
  expect(watch.isDown, '4 dB').toBe(false);
  hear(watch, GROOVE, 0.5);
  expect(watch.isDown).toBe(true);
  hear(watch, FLOOR, 1);
  expect(watch.isDown, 'a second of quiet').toBe(true);
  hear(watch, FLOOR, 0.5);
  expect(watch.isDown).toBe(false);
});

it('a band tells that the tip is down where nobody heard it set down; the groove before it is what a lifted arm lies under', () => {
  const watch = new ArmWatch(RATE);
  hear(watch, GROOVE, 2);
  expect(watch.isDown, 'begun in the groove').toBe(false);
  hear(watch, 0.3, 1);
  watch.bandBegan(1);
  expect(watch.isDown).toBe(true);
  // the silence between two bands is groove, not a lifted arm
  hear(watch, GROOVE, 3);
  expect(watch.isDown).toBe(true);
  hear(watch, GROOVE / 4, 1.5);
  expect(watch.isDown).toBe(false);
});

it('exact zeros of a device that has not begun are no floor, and an ended pass begins anew', () => {
  const watch = new ArmWatch(RATE);
  const zeros = new Float64Array(2 * RATE);
  watch.push({ left: zeros, right: zeros, frames: zeros.length });
  hear(watch, FLOOR, 1.5);
  expect(watch.isDown).toBe(false);
  watch.bandBegan(0.2);
  watch.passEnded();
  expect(watch.isDown).toBe(false);
});

it('hum that covers the groove hides neither the tip set down nor the arm lifted', () => {
  const watch = new ArmWatch(RATE);
  const hum = 0.01;
  hear(watch, FLOOR, 2, hum);
  hear(watch, GROOVE, 2, hum);
  expect(watch.isDown).toBe(true);
  hear(watch, 0.3, 1, hum);
  watch.bandBegan(1);
  hear(watch, GROOVE, 3, hum);
  expect(watch.isDown, 'groove between two bands').toBe(true);
  hear(watch, FLOOR, 1.5, hum);
  expect(watch.isDown).toBe(false);
});

it('a band that played before listening began is no floor: the tip stays down while it plays on', () => {
  const watch = new ArmWatch(RATE);
  hear(watch, 0.3, 1.4);
  watch.bandBegan(1.4);
  hear(watch, 0.3, 3);
  expect(watch.isDown).toBe(true);
  expect(watch.isLifted).toBe(false);
  hear(watch, GROOVE, 2);
  watch.bandBegan(0);
  hear(watch, FLOOR, 1.5);
  expect(watch.isLifted).toBe(true);
});

it('an input that was gone for a moment, zeros and all, is not held for a lifted arm when it comes back', () => {
  const watch = new ArmWatch(RATE);
  hear(watch, GROOVE, 0.8);
  hear(watch, 0.3, 0.5);
  watch.bandBegan(0.4);
  const zeros = new Float64Array(1.5 * RATE);
  watch.push({ left: zeros, right: zeros, frames: zeros.length });
  expect(watch.isLifted).toBe(true);
  hear(watch, 0.3, 0.5);
  expect(watch.isLifted).toBe(false);
});
