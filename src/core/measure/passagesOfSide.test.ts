import { describe, expect, it } from 'vitest';
import type { Recording } from '../capture/recording.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { PassageTask } from './estimators.ts';
import type { MeasureOptions } from './measureOptions.ts';
import { measureSide, readPassage, sideKnown } from './measureSide.ts';
import { bandOf, sheetOf } from './toneBands.fixture.ts';

const RATE = 8000;
const SECONDS = 12;
const frames = RATE * SECONDS;
const left = Float64Array.from({ length: frames }, (_, n) => 0.2 * Math.cos((2 * Math.PI * 1000 * n) / RATE));
const right = left.map((v) => 0.05 * v);
function recording(asked: { fromFrame: number; toFrame: number }[] = []): Recording {
  return {
    format: {
      file: 'made',
      sampleRateHz: RATE,
      channels: 2,
      bitDepth: 24,
      encoding: 'integer',
      container: 'wav',
      frames,
      durationS: SECONDS,
    },
    problems: [],
    async *blocks(range = { fromFrame: 0, toFrame: frames }) {
      asked.push({ fromFrame: range.fromFrame, toFrame: range.toFrame });
      for (let from = range.fromFrame; from < range.toFrame; from += 3000) {
        const to = Math.min(range.toFrame, from + 3000);
        yield { startFrame: from, frames: to - from, left: left.subarray(from, to), right: right.subarray(from, to) };
      }
    },
  };
}
const bands = [
  bandOf({ index: 0, startS: 6, endS: 8, motion: 'left' }),
  bandOf({ index: 1, startS: 1, endS: 2.5, motion: 'left' }),
  bandOf({ index: 2, startS: 9, endS: 10, signal: 'unknown', motion: 'unknown', frequencyHz: null }),
];
const options: MeasureOptions = {
  assumed: assumedInTests,
  stretches: [{ kind: 'tip-up', startS: 3, endS: 5.5 }],
};

describe('the passages of a side', () => {
  it('are read in the order in which they play, and no others', async () => {
    const asked: { fromFrame: number; toFrame: number }[] = [];
    await measureSide(recording(asked), bands, options);
    expect(asked).toEqual(
      [
        { fromFrame: 1 * RATE, toFrame: 2.5 * RATE },
        { fromFrame: 3 * RATE, toFrame: 5.5 * RATE },
        { fromFrame: 6 * RATE, toFrame: 8 * RATE },
      ].map((range) => expect.objectContaining(range)),
    );
  });

  it('tell how far they are by the frames that were read, up to the whole', async () => {
    const told: number[] = [];
    await measureSide(recording(), bands, { ...options, onProgress: (share) => told.push(share) });
    const whole = 6 * RATE;
    const wanted = [3000, 6000, 9000, 12_000];
    for (let at = 15_000; at < 32_000; at += 3000) wanted.push(at);
    expect(told.slice(0, 4)).toEqual(wanted.slice(0, 4).map((v) => v / whole));
    expect(told.at(-1)).toBe(1);
    expect(told.at(-2)).toBe(1);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(told).toHaveLength(4 + 7 + 6 + 1);
  });

  it('may be read elsewhere: tasks go out, readings come back in their order', async () => {
    let given: readonly PassageTask[] = [];
    const told: number[] = [];
    const there = await measureSide(recording(), bands, {
      ...options,
      onProgress: (share) => told.push(share),
      readPassages: async (tasks, onProgress) => {
        given = tasks;
        onProgress?.(0.5);
        return Promise.all(tasks.map((task) => readPassage(recording(), task)));
      },
    });
    expect(given.map(({ fromFrame }) => fromFrame / RATE)).toEqual([1, 3, 6]);
    expect(told).toEqual([0.5, 1]);
    const here = await measureSide(recording(), bands, options);
    expect(there.findings).toEqual(here.findings);
  });

  it('a capture without playback equalisation says so of its harmonics', async () => {
    const notes = async (flat?: boolean) => {
      const { findings } = await measureSide(recording(), bands, { ...options, flat });
      return findings.find(({ quantity }) => quantity === 'second-harmonic')?.notes.map(({ code }) => code);
    };
    expect(await notes(true)).toContain('recorded-flat');
    expect(await notes(false)).toContain('equalisation-undone');
    expect(await notes()).toContain('equalisation-undone');
  });

  it('one passage tells every block’s frames', async () => {
    const counts: number[] = [];
    const task: PassageTask = { fromFrame: 100, toFrame: 7100, estimators: [] };
    expect(await readPassage(recording(), task, (count) => counts.push(count))).toEqual({});
    expect(counts).toEqual([3000, 3000, 1000]);
  });
});

describe('what estimators are told of a side', () => {
  it('the rate and the bands, and what was said of it; 33⅓ where nobody says', () => {
    expect(sideKnown(RATE, bands, {})).toEqual({
      sampleRateHz: RATE,
      bands,
      sheet: null,
      rpm: 100 / 3,
      nominalSpeedToneHz: null,
      withSpectra: false,
    });
    const sheet = sheetOf([], { rpm: 45 });
    expect(sideKnown(RATE, [], { sheet, nominalSpeedToneHz: 3000, withSpectra: true })).toEqual({
      sampleRateHz: RATE,
      bands: [],
      sheet,
      rpm: 45,
      nominalSpeedToneHz: 3000,
      withSpectra: true,
    });
    expect(sideKnown(RATE, [], { sheet, rpm: 78 }).rpm).toBe(78);
    expect(sideKnown(RATE, [], { rpm: 33.333 }).rpm).toBe(100 / 3);
  });
});
