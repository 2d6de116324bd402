import { afterEach, expect, it, vi } from 'vitest';
import { atOnce } from '../signal/steps.ts';
import { ToneMixer } from '../signal/toneMixer.ts';
import { ToneEstimator } from './toneEstimator.ts';

const RATE = 8000;
const HZ = 1000;

afterEach(() => vi.restoreAllMocks());

/** A tone with wow in noise, the same in every test. */
function tone(lengthS: number): Float64Array {
  let seed = 9;
  return Float64Array.from({ length: lengthS * RATE }, (_, n) => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    const t = n / RATE;
    const turned = 2 * Math.PI * HZ * t + Math.sin(2 * Math.PI * 0.555 * t);
    return 0.3 * Math.sin(turned) + (seed / 2 ** 32 - 0.5) * 1e-3;
  });
}

function estimator(): ToneEstimator {
  return new ToneEstimator(RATE, { frequencyHz: HZ, driven: 'left', withFlutter: true, withHarmonics: false });
}

function feed(into: ToneEstimator, sound: Float64Array, frames: number, each: (atS: number) => void = () => undefined) {
  for (let at = 0; at < sound.length; at += frames) {
    const left = sound.subarray(at, at + frames);
    into.push({ left, right: left.map((v) => v / 50), frames: left.length, startFrame: at });
    each((at + left.length) / RATE);
  }
}

it('a segment that is full is read in steps, one a push, and comes out the same wherever the blocks were cut', () => {
  const sound = tone(126);
  const [whole, cut] = [estimator(), estimator()];
  feed(whole, sound, sound.length);
  feed(cut, sound, 341);
  const [read, atOnceRead] = [cut.result().segments, whole.result().segments];
  expect(read).toHaveLength(2);
  for (const [i, { startS, endS, ratio, flutter }] of read.entries()) {
    expect([startS, endS]).toEqual([atOnceRead[i].startS, atOnceRead[i].endS]);
    // where blocks are cut, the mixer rounds its phase anew
    expect(ratio.re / atOnceRead[i].ratio.re).toBeCloseTo(1, 9);
    expect(flutter!.weighted.peak2Sigma / atOnceRead[i].flutter!.weighted.peak2Sigma).toBeCloseTo(1, 6);
  }
});

it('a push after two minutes takes one step of a score and more, none of which reads the segment anew', () => {
  const listening = estimator();
  const peeks = vi.spyOn(ToneMixer.prototype, 'peek');
  const mixersRead: unknown[] = [];
  feed(listening, tone(122), 341, (atS) => {
    mixersRead.push(...peeks.mock.contexts);
    peeks.mockClear();
    if (atS < 119) expect(mixersRead).toEqual([]);
  });
  // the tone's own mixer, and that of what wavers with the arm: each once
  expect(mixersRead.length).toBeGreaterThan(0);
  expect(new Set(mixersRead).size).toBe(mixersRead.length);
});

it('the end of a band of two minutes is read in twenty steps or more, all at once to the same', () => {
  const sound = tone(60);
  const [one, other] = [estimator(), estimator()];
  feed(one, sound, 4096);
  feed(other, sound, 4096);
  const steps = other.inSteps();
  let count = 0;
  let read = steps.next();
  for (; read.done !== true; count++) read = steps.next();
  expect(count).toBeGreaterThanOrEqual(15);
  expect(read.value).toEqual(atOnce(one.inSteps()));
});

it('what is told while it plays looks at no more of a long band than of a short one', () => {
  const listening = estimator();
  const peeks = vi.spyOn(ToneMixer.prototype, 'peek');
  const looked: number[] = [];
  let next = 2;
  feed(listening, tone(100), 800, (atS) => {
    if (atS < next) return;
    next += 0.5;
    peeks.mockClear();
    listening.running();
    const rateHz = RATE / 12;
    looked.push(peeks.mock.calls.reduce((sum, [from = 0, to = 0]) => sum + (to - from), 0) / rateHz);
  });
  const early = Math.max(...looked.slice(0, 20));
  expect(early).toBeGreaterThan(2);
  expect(Math.max(...looked.slice(-20))).toBeLessThanOrEqual(early);
});
