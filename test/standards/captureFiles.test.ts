/** Files written by other programs come back as the integers that went in. See checks/captures/README.md. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { bytesOf } from '../../src/core/capture/bytesOf.ts';
import { openRecording } from '../../src/core/capture/openRecording.ts';
import { readAll } from '../faults/readAll.ts';

const folder = new URL('../../checks/captures/', import.meta.url);

/** The sequence of make.py: a random walk on the left, three quarters of it with noise on the right. */
function sequence(bits: number): number[] {
  const scale = 2 ** (bits - 16);
  const samples: number[] = [];
  let state = 12_345;
  let walk = 0;
  const next = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state >>> 16) - 32_768;
  };
  for (let i = 0; i < 3_000; i++) {
    const first = next();
    const second = next();
    walk = Math.max(-30_000, Math.min(30_000, walk + Math.floor(first / 64)));
    samples.push(walk * scale + (second & 15), Math.floor((walk * scale * 3) / 4) + Math.floor(second / 256));
  }
  return samples;
}

const files: Readonly<Record<string, { bits: number; container: string; rateHz: number; depth?: number }>> = {
  'ffmpeg-24.flac': { bits: 24, container: 'flac', rateHz: 96_000 },
  'ffmpeg-24.rf64.wav': { bits: 24, container: 'rf64', rateHz: 96_000 },
  'flac-16.flac': { bits: 16, container: 'flac', rateHz: 44_100 },
  'flac-24.flac': { bits: 24, container: 'flac', rateHz: 96_000 },
  'sox-24.wav': { bits: 24, container: 'wav', rateHz: 96_000 },
  'sox-float.wav': { bits: 24, container: 'wav', rateHz: 96_000, depth: 32 },
};

it('every recorded file is compared', () => {
  expect(
    readdirSync(folder)
      .filter((name) => /\.(flac|wav)$/.test(name))
      .sort(),
  ).toEqual(Object.keys(files));
});

it.each(Object.entries(files))('%s', async (name, { bits, container, rateHz, depth }) => {
  const recording = await openRecording(bytesOf(readFileSync(new URL(name, folder)), name));
  expect(recording.format).toMatchObject({ container, sampleRateHz: rateHz, bitDepth: depth ?? bits, frames: 3_000 });
  expect(await readAll(recording, 2 ** (bits - 1))).toEqual(sequence(bits));
  expect(await readAll(recording, 2 ** (bits - 1), { fromFrame: 1_200, toFrame: 2_900 })).toEqual(
    sequence(bits).slice(2_400, 5_800),
  );
  expect(recording.problems.map(({ code }) => code)).toEqual(['too-short']);
});
