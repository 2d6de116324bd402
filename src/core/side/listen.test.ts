import { describe, expect, it } from 'vitest';
import type { CaptureFormat, Recording } from '../capture/recording.ts';
import { joinParts, listen, listenToPart, PART_FRAMES } from './listen.ts';

const PARTS = 6;

/** Tones left and right with a pause, zeros across the first seam, flat tops across the second, a fade-free end. */
function capture(sampleRateHz: number): Recording {
  const frames = PARTS * PART_FRAMES - 12_345;
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  let seed = 7;
  const hiss = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed / 2 ** 32 - 0.5) * 2e-3;
  };
  const half = frames * 0.55;
  for (let n = 0; n < frames; n++) {
    const tone =
      n > half && n < half + 0.3 * sampleRateHz ? 0 : 0.4 * Math.sin((2 * Math.PI * 1000 * n) / sampleRateHz);
    left[n] = (n < half ? tone : 0.03 * tone) + hiss();
    right[n] = (n < half ? 0.03 * tone : tone) + hiss();
  }
  left.fill(0, PART_FRAMES - 100, PART_FRAMES + 200);
  right.fill(0, PART_FRAMES - 100, PART_FRAMES + 200);
  for (let n = 2 * PART_FRAMES - 4000; n < 2 * PART_FRAMES + 4000; n++)
    left[n] = Math.max(-0.6, Math.min(0.6, 3 * left[n]));
  const format: CaptureFormat = {
    file: 'seam.wav',
    sampleRateHz,
    channels: 2,
    bitDepth: 24,
    encoding: 'integer',
    container: 'wav',
    frames,
    durationS: frames / sampleRateHz,
  };
  return {
    format,
    problems: [],
    async *blocks(range = { fromFrame: 0, toFrame: frames }) {
      for (let at = range.fromFrame; at < range.toFrame; at += PART_FRAMES) {
        const to = Math.min(range.toFrame, at + PART_FRAMES);
        yield { startFrame: at, frames: to - at, left: left.slice(at, to), right: right.slice(at, to) };
      }
    },
  };
}

describe('listening in parts', () => {
  for (const sampleRateHz of [44_100, 96_000]) {
    it(`gives what listening in one go gives, ${sampleRateHz} Hz`, async () => {
      const recording = capture(sampleRateHz);
      const whole = await listen(recording);
      expect(whole.bands.length).toBeGreaterThan(1);
      expect(whole.problems.map((p) => p.code)).toEqual(expect.arrayContaining(['clipped', 'dropped-samples']));
      const { frames } = recording.format;
      const seams = [0, 1, 2, 3].map((i) => i * PART_FRAMES);
      const parts = await Promise.all(
        seams.map((fromFrame, i) => listenToPart(recording, { fromFrame, toFrame: seams[i + 1] ?? frames })),
      );
      expect(joinParts(recording.format, parts)).toEqual(whole);
    });
  }

  it('refuses seams where hops of some rate would be cut', async () => {
    await expect(listenToPart(capture(44_100), { fromFrame: 1000, toFrame: PART_FRAMES })).rejects.toThrow(
      'range 1000',
    );
  });
});
