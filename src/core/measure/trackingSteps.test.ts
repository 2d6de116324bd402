/** What is told of steps whose sound is made here by hand, without a deck. */
import { expect, it } from 'vitest';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { burstKind } from './burstEstimator.ts';
import { hearSteps } from './trackingSteps.ts';

const RATE_HZ = 44_100;
const HZ = 301;
const FRAMES = 2.4 * RATE_HZ;
const LEVELS = [5, 8, 12] as const;

interface Made {
  /** velocity of a knock of 8 kHz that starts once a period, over the tone's, at the loudest step */
  readonly knock?: number;
  /** of it in the right channel */
  readonly across?: number;
  /** knocks start at one place of the period, or anywhere; each is like the one before, or of a phase of its own */
  readonly anywhere?: boolean;
  readonly unlike?: boolean;
  /** depth of the noise's modulation by the tone */
  readonly modulated?: number;
  /** the 20th harmonic at the softest step over the tone; it grows as v² */
  readonly twentieth?: number;
}

function step(cmS: number, index: number, made: Made) {
  const { knock = 0, across = 0, modulated = 0, twentieth = 0 } = made;
  const noise = { left: gaussian(10 * index + 1), right: gaussian(10 * index + 2) };
  const chance = gaussian(10 * index + 3);
  const left = new Float64Array(FRAMES);
  const right = new Float64Array(FRAMES);
  const omega = (2 * Math.PI * HZ) / RATE_HZ;
  for (let n = 0; n < FRAMES; n++) {
    // wow of 0.1 % once per turn
    const phase = omega * n + ((0.001 * HZ) / 0.55) * Math.sin((2 * Math.PI * 0.55 * n) / RATE_HZ);
    const tone = cmS * Math.cos(phase);
    const shaken = 0.003 * (1 + modulated * Math.cos(phase)) ** 2;
    const twenty = twentieth * (cmS / LEVELS[0]) ** 2 * cmS * Math.cos(20 * phase);
    left[n] += tone + twenty + shaken * noise.left();
    right[n] += tone + twenty + shaken * noise.right();
  }
  if (index === LEVELS.length - 1) {
    for (let period = 0; period < (FRAMES / RATE_HZ) * HZ - 2; period++) {
      const start = ((period + (made.anywhere === true ? chance() : 0.3)) / HZ) * RATE_HZ;
      // the place runs with the tone's own phase
      const swing = Math.sin((2 * Math.PI * 0.55 * start) / RATE_HZ);
      const at = start - ((0.001 * RATE_HZ) / (2 * Math.PI * 0.55)) * swing;
      const turned = made.unlike === true ? 2 * Math.PI * chance() : 0;
      for (let n = Math.max(0, Math.ceil(at)); n < Math.min(FRAMES, at + 40); n++) {
        const t = (n - at) / RATE_HZ;
        const ring = knock * cmS * Math.exp(-t / 1e-4) * Math.cos(2 * Math.PI * 8000 * t + turned);
        left[n] += ring;
        right[n] += across * ring;
      }
    }
  }
  const estimator = burstKind.begin(RATE_HZ, { hz: HZ });
  estimator.push({ startFrame: 0, frames: FRAMES, left, right });
  return { cmS, band: index, hz: HZ, grooveCmS: 40, of: estimator.result() };
}

const told = (made: Made) => {
  const steps = LEVELS.map((cmS, index) => step(cmS, index, made));
  const of = (channel: 'left' | 'right') => hearSteps(steps, channel, () => 0);
  return { left: of('left'), right: of('right') };
};
const verdicts = (made: Made) => {
  const { left, right } = told(made);
  return [left, right].map((heard) => heard.map(({ verdict }) => verdict).join(' '));
};
const SILENT = 'silent silent silent';

it('noise alone is silent, also where a bending generator modulates it by the tone', () => {
  expect(verdicts({})).toEqual([SILENT, SILENT]);
  expect(verdicts({ modulated: 0.3 })).toEqual([SILENT, SILENT]);
});

it('a knock at one place is lost, in its own channel alone; the other’s leak is no loss', () => {
  expect(verdicts({ knock: 0.01 })).toEqual(['silent silent lost', SILENT]);
  expect(verdicts({ knock: 0.03, across: 0.3 })).toEqual(['silent silent lost', SILENT]);
});

it('knocks that are never alike are heard by their place; at any place they are noise', () => {
  expect(verdicts({ knock: 0.02, unlike: true })).toEqual(['silent silent lost', SILENT]);
  expect(verdicts({ knock: 0.02, unlike: true, anywhere: true })).toEqual([SILENT, SILENT]);
});

it('a harmonic that grows smoothly from the softest step on is none', () => {
  expect(verdicts({ twentieth: 0.001 })).toEqual([SILENT, SILENT]);
});

it('the lag that is said to be heard is heard, also where a third of it is alike; far less is not', () => {
  const [, , { lag }] = told({}).left;
  expect(lag).toBeGreaterThan(0.0002);
  expect(lag).toBeLessThan(0.01);
  expect(verdicts({ knock: 0.4 * lag })[0]).not.toBe(SILENT);
  expect(verdicts({ knock: lag / 15 })[0]).toBe(SILENT);
});
