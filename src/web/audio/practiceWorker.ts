/** Plays the house test side on the virtual deck and hands over the capture as a file, as an audio interface would. */
import { demoDeck, demoSheet } from '../../core/deck/demo.ts';
import { simulateSide } from '../../core/deck/simulate.ts';
import { wavFrames, wavHeader } from '../../core/deck/wavBytes.ts';
import type { PracticeReply, PracticeRequest } from './practiceMessages.ts';

const SAMPLE_RATE_HZ = 48_000;
const BITS = 24;
/** frames between two reports */
const BLOCK = 65_536;

const reply = (message: PracticeReply): void => self.postMessage(message);

function play({ tiltDeg, seed }: PracticeRequest): File {
  const deck = { ...demoDeck, cartridge: { ...demoDeck.cartridge, tiltDeg } };
  const side = simulateSide(deck, demoSheet, { seed, sampleRateHz: SAMPLE_RATE_HZ });
  const parts: BlobPart[] = [
    wavHeader({ sampleRateHz: SAMPLE_RATE_HZ, bits: BITS, frames: side.frames }) as Uint8Array<ArrayBuffer>,
  ];
  let done = 0;
  for (const { left, right, frames } of side.blocks(BLOCK)) {
    parts.push(wavFrames(left, right, frames, BITS) as Uint8Array<ArrayBuffer>);
    done += frames;
    reply({ kind: 'progress', fraction: done / side.frames });
  }
  return new File(parts, `practice side ${seed}.wav`, { type: 'audio/wav' });
}

self.onmessage = (event: MessageEvent<PracticeRequest>) => {
  try {
    reply({ kind: 'done', file: play(event.data) });
  } catch (error) {
    reply({ kind: 'failed', sentence: error instanceof Error ? error.message : String(error) });
  }
};
