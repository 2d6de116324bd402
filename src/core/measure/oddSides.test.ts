/** Whatever a band holds that was called a tone: no exception, no number that is not one, a reason for what is missing. */
import { describe, expect, it } from 'vitest';
import type { Recording } from '../capture/recording.ts';
import type { Band, BandMotion } from '../record/band.ts';
import { gaussian } from '../signal/gaussian.fixture.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { measureSide } from './measureSide.ts';

const fs = 44_100;
const seconds = 3;
type Sample = (t: number, draw: () => number) => readonly [number, number];

const contents: Record<string, Sample> = {
  'digital silence': () => [0, 0],
  'a constant': () => [0.5, 0.5],
  'noise alone': (_, draw) => [0.1 * draw(), 0.1 * draw()],
  'the same noise in both': (_, draw) => {
    const v = 0.1 * draw();
    return [v, v];
  },
  'a tone in one channel, the other dead': (t) => [0.3 * Math.cos(6283.2 * t), 0],
  'equal tones where one side was promised': (t) => [0.3 * Math.cos(6283.2 * t), 0.3 * Math.cos(6283.2 * t)],
  'a square wave at full scale': (t) => [Math.sign(Math.cos(6283.2 * t)), 0.03 * Math.sign(Math.cos(6283.2 * t))],
  'a sweep': (t) => [0.3 * Math.cos(6000 * t + 400 * t * t), 0.01 * Math.cos(6000 * t + 400 * t * t)],
  'a tone that comes and goes': (t) => [Math.floor(t / 0.3) % 2 === 0 ? 0.3 * Math.cos(6283.2 * t) : 0, 0],
  'a tone under clicks a hundred a second': (t, draw) => {
    const click = (t * 100) % 1 < 0.05 ? draw() : 0;
    return [0.2 * Math.cos(6283.2 * t) + click, 0.01 * Math.cos(6283.2 * t) + click];
  },
  'a tone of a few steps': (t) => [Math.round(2 * Math.cos(6283.2 * t)) / 2 ** 23, 0],
  'full scale and beyond': (t) => [1e6 * Math.cos(6283.2 * t), 1e5 * Math.cos(6283.2 * t + 1)],
};

function sideOf(sample: Sample): { recording: Recording; bands: Band[] } {
  const motions: BandMotion[] = ['left', 'right', 'lateral', 'lateral'];
  const frames = motions.length * seconds * fs;
  const draw = gaussian(4);
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  for (let n = 0; n < frames; n++) {
    const [a, b] = sample(n / fs, draw);
    const exchanged = motions[Math.floor(n / fs / seconds)] === 'right';
    left[n] = exchanged ? b : a;
    right[n] = exchanged ? a : b;
  }
  return {
    recording: {
      format: {
        file: 'odd',
        sampleRateHz: fs,
        channels: 2,
        bitDepth: 24,
        encoding: 'integer',
        container: 'wav',
        frames,
        durationS: frames / fs,
      },
      problems: [],
      async *blocks(range) {
        const end = range?.toFrame ?? frames;
        for (let from = range?.fromFrame ?? 0; from < end; from += 65_536) {
          const to = Math.min(end, from + 65_536);
          yield { startFrame: from, frames: to - from, left: left.subarray(from, to), right: right.subarray(from, to) };
        }
      },
    },
    bands: motions.map((motion, index) => ({
      index,
      startS: index * seconds,
      endS: (index + 1) * seconds,
      signal: 'tone',
      motion,
      frequencyHz: 1000,
      radiusMm: 140 - 20 * index,
      sheetBand: null,
    })),
  };
}

describe('a band that holds', () => {
  it.each(Object.keys(contents))('%s', async (name) => {
    const { recording, bands } = sideOf(contents[name]);
    const { findings, problems, curves } = await measureSide(recording, bands, { assumed: assumedInTests, rpm: 45 });
    for (const { quantity, value, uncertainty } of findings) {
      if (typeof value === 'number') expect(Number.isFinite(value), `${quantity} ${value}`).toBe(true);
      if (uncertainty !== null) expect(Number.isFinite(uncertainty) && uncertainty >= 0, `${quantity}`).toBe(true);
    }
    for (const { message } of problems) expect(message).not.toMatch(/NaN|Infinity|undefined/);
    for (const { x, y } of curves) {
      expect(x.length).toBe(y.length);
      expect([...x, ...y].every(Number.isFinite)).toBe(true);
    }
    const told = new Set([...findings.map((f) => f.quantity), ...problems.map((p) => p.quantity)]);
    for (const quantity of [
      'channel-balance',
      'separation-left-to-right',
      'separation-right-to-left',
      'azimuth-error',
      'speed-error',
      'wow-flutter-weighted',
      'wow-flutter-unweighted',
      'once-per-turn',
      'eccentricity',
      'polarity',
    ]) {
      expect(told, `${quantity} is given or withheld`).toContain(quantity);
    }
  });

  it('an empty stretch, or lies beyond the end of the recording', async () => {
    const { recording, bands } = sideOf(contents['noise alone']);
    const odd = bands.map((b, i) => ({ ...b, startS: 11.9 + i, endS: i === 3 ? 12.6 : 40 + i }));
    const { findings } = await measureSide(recording, odd, { assumed: assumedInTests });
    expect(findings.every((f) => typeof f.value !== 'number' || Number.isFinite(f.value))).toBe(true);
  });
});
