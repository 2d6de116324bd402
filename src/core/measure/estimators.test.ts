import { describe, expect, it } from 'vitest';
import { atOnce } from '../signal/steps.ts';
import type { Passage, SideKnown } from './bandEstimator.ts';
import { PassageReader, passageTask } from './estimators.ts';
import { bandOf } from './toneBands.fixture.ts';

const RATE = 8000;
const side: SideKnown = {
  sampleRateHz: RATE,
  bands: [],
  sheet: null,
  nominalSpeedToneHz: null,
  rpm: 100 / 3,
  withSpectra: true,
};
const tone: Passage = { signal: 'tone', startS: 1, endS: 3, band: bandOf({ startS: 1, endS: 3, motion: 'left' }) };
const names = (task: ReturnType<typeof passageTask>): string[] => task?.estimators.map(({ name }) => name) ?? [];

describe('a passage with what it is listened to by', () => {
  it('everything that has something to say of it, in one order', () => {
    expect(names(passageTask(tone, side, 1e6))).toEqual(['tone', 'spectrum']);
    expect(
      names(
        passageTask(
          {
            ...tone,
            band: { ...tone.band!, signal: 'noise', motion: 'lateral', frequencyHz: null },
            signal: 'noise',
            endS: 6,
          },
          side,
          1e6,
        ),
      ),
    ).toEqual(['noiseResponse', 'spectrum']);
    expect(names(passageTask({ signal: 'tip-up', startS: 0, endS: 9, band: null }, side, 1e6))).toEqual(['quiet']);
    expect(passageTask({ signal: 'unknown', startS: 0, endS: 9, band: null }, side, 1e6)).toBeNull();
  });

  it('its frames lie within the recording, or there is none', () => {
    const frames = (startS: number, endS: number, all = 1e6) => {
      const task = passageTask({ ...tone, startS, endS }, side, all);
      return task === null ? null : [task.fromFrame, task.toFrame];
    };
    expect(frames(1, 3)).toEqual([8000, 24_000]);
    expect(frames(1.00007, 3.00007)).toEqual([8001, 24_001]);
    expect(frames(-1, 3)).toEqual([0, 24_000]);
    expect(frames(1, 3, 20_000)).toEqual([8000, 20_000]);
    expect(frames(1, 3, 8000)).toBeNull();
    expect(frames(1, 3, 8001)).toEqual([8000, 8001]);
    expect(frames(3, 1)).toBeNull();
  });
});

describe('the estimators of one passage', () => {
  const task = passageTask(tone, side, 1e6);
  if (task === null) throw new Error('no task');
  const left = Float64Array.from({ length: 2 * RATE }, (_, n) => 0.3 * Math.cos((2 * Math.PI * 1000 * n) / RATE));
  const fed = (): PassageReader => {
    const reader = new PassageReader(RATE, task);
    for (let from = 0; from < left.length; from += 4000) {
      const block = left.subarray(from, from + 4000);
      reader.push({ startFrame: from, frames: block.length, left: block, right: block.map((v) => 0.1 * v) });
    }
    return reader;
  };

  it('are fed together and each gives its reading under its name', () => {
    const readings = fed().finish();
    expect(Object.keys(readings)).toEqual(['tone', 'spectrum']);
    expect(readings.tone?.segments[0].ratio.re).toBeCloseTo(0.1, 6);
    expect(readings.spectrum?.map(({ quantity }) => quantity)).toEqual([
      'spectrum',
      'spectrum',
      'crosstalk-spectrum',
      'crosstalk-spectrum',
    ]);
  });

  it('say what they can while it plays: those that say something by then', () => {
    const reader = fed();
    const running = reader.running();
    expect(Object.keys(running)).toEqual(['tone']);
    expect(running.tone?.segments[0].ratio.re).toBeCloseTo(0.1, 6);
    reader.end();
  });

  it('in steps it comes to the same, with one step for each at least', () => {
    const steps = fed().finishing();
    let count = 0;
    let next = steps.next();
    for (; next.done !== true; next = steps.next()) count += 1;
    expect(count).toBeGreaterThan(2);
    expect(Object.keys(next.value)).toEqual(['tone', 'spectrum']);
    expect(atOnce(fed().finishing()).spectrum).toEqual(next.value.spectrum);
  });
});
