import { describe, expect, it } from 'vitest';
import type { CaptureFormat, Recording } from '../capture/recording.ts';
import { answerThread } from './answerThread.ts';
import { examineRecording } from './examineSide.ts';
import { type SampleThread, sharedPasses } from './sharedPasses.ts';
import { memoryIn, type ThreadReply, type ThreadRequest } from './threadMessages.ts';

const RATE = 44_100;
const BAND_S = 3;

/** 1 kHz left, then right, then 3150 Hz in both, with half a second between. */
function side(): Recording {
  const frames = Math.round(3.5 * BAND_S * RATE);
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  let seed = 3;
  for (let n = 0; n < frames; n++) {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    const hiss = (seed / 2 ** 32 - 0.5) * 1e-3;
    const band = Math.floor(n / ((BAND_S + 0.5) * RATE));
    const sounds = n - band * (BAND_S + 0.5) * RATE < BAND_S * RATE;
    const tone = sounds ? 0.3 * Math.sin((2 * Math.PI * (band === 2 ? 3150 : 1000) * n) / RATE) : 0;
    left[n] = (band === 1 ? 0.03 : 1) * tone + hiss;
    right[n] = (band === 0 ? 0.03 : 1) * tone - hiss;
  }
  const format: CaptureFormat = {
    file: 'side.wav',
    sampleRateHz: RATE,
    channels: 2,
    bitDepth: 24,
    encoding: 'integer',
    container: 'wav',
    frames,
    durationS: frames / RATE,
  };
  return {
    format,
    problems: [],
    async *blocks({ fromFrame, toFrame } = { fromFrame: 0, toFrame: frames }) {
      for (let at = fromFrame; at < toFrame; at += 65_536) {
        const to = Math.min(toFrame, at + 65_536);
        yield { startFrame: at, frames: to - at, left: left.slice(at, to), right: right.slice(at, to) };
      }
    },
  };
}

/** A thread as a worker is one: what is sent is handed over or copied, requests are answered one by one. */
function threadOver(recording: Recording, asked: string[] = []): SampleThread {
  let take: (reply: ThreadReply) => void = () => undefined;
  let last: Promise<void> = Promise.resolve();
  const sent = <T>(message: T): T => structuredClone(message, { transfer: memoryIn(message) });
  return {
    ask(request: ThreadRequest) {
      asked.push(request.kind);
      const mine = sent(request);
      last = last.then(() =>
        answerThread(
          async () => recording,
          mine,
          (reply) => take(sent(reply)),
        ),
      );
    },
    hear(next) {
      take = next;
    },
  };
}

const told = ({ message }: { message: string }): Error => new Error(`told: ${message}`);

describe('passes shared by threads', () => {
  it('give what one thread gives, by one, two and three of them', async () => {
    const recording = side();
    const alone = await examineRecording(recording);
    expect(alone.document.bands.filter((band) => band.signal === 'tone')).toHaveLength(3);
    for (const count of [1, 2, 3]) {
      const asked: string[] = [];
      const threads = Array.from({ length: count }, () => threadOver(recording, asked));
      const stages = new Map<string, number>();
      const together = await examineRecording(recording, {
        passes: sharedPasses(threads, recording.format, told),
        onProgress: ({ stage, fraction }) => stages.set(stage, fraction),
      });
      expect(together).toEqual(alone);
      expect(asked.filter((kind) => kind === 'listen')).toHaveLength(count);
      expect(asked.filter((kind) => kind === 'read')).toHaveLength(3);
      expect(Object.fromEntries(stages)).toEqual({ 'finding-bands': 1, measuring: 1 });
    }
  });

  it('end with what a thread could not do, or with what broke it', async () => {
    const recording = side();
    const gone: Recording = {
      ...recording,
      // biome-ignore lint/correctness/useYield: it fails before it has anything
      async *blocks() {
        throw new Error('the disk is gone');
      },
    };
    const failing = sharedPasses([threadOver(recording), threadOver(gone)], recording.format, told);
    await expect(examineRecording(recording, { passes: failing })).rejects.toThrow('told: the disk is gone');
    const broken: SampleThread = {
      ask: () => undefined,
      hear: (_, crash) => crash(new Error('out of memory')),
    };
    const breaking = sharedPasses([threadOver(recording), broken], recording.format, told);
    await expect(examineRecording(recording, { passes: breaking })).rejects.toThrow('out of memory');
  });
});
