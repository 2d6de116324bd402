/** A virtual deck's capture in the shape that the measuring half reads, held in memory: for short captures. */
import type { Recording, StereoBlock } from '../../src/core/capture/recording.ts';
import { simulateSide } from '../../src/core/deck/simulate.ts';

export interface VirtualCapture {
  readonly recording: Recording;
  readonly truth: ReturnType<typeof simulateSide>['truth'];
}

export function virtualCapture(deck: unknown, sheet: unknown, sampleRateHz: number, seed: number): VirtualCapture {
  const simulation = simulateSide(deck, sheet, { sampleRateHz, seed });
  const { frames } = simulation;
  const left = new Float64Array(frames);
  const right = new Float64Array(frames);
  let at = 0;
  for (const block of simulation.blocks()) {
    left.set(block.left.subarray(0, block.frames), at);
    right.set(block.right.subarray(0, block.frames), at);
    at += block.frames;
  }
  const bits = simulation.deck.converter.bits;
  return {
    truth: simulation.truth,
    recording: {
      format: {
        file: 'practice deck',
        sampleRateHz,
        channels: 2,
        bitDepth: bits === 'float' ? 32 : bits,
        encoding: bits === 'float' ? 'float' : 'integer',
        container: 'wav',
        frames,
        durationS: frames / sampleRateHz,
      },
      problems: [],
      async *blocks(range) {
        const to = Math.min(frames, range?.toFrame ?? frames);
        for (let from = range?.fromFrame ?? 0; from < to; from += 65_536) {
          const end = Math.min(to, from + 65_536);
          const block: StereoBlock = {
            startFrame: from,
            frames: end - from,
            left: left.subarray(from, end),
            right: right.subarray(from, end),
          };
          yield block;
        }
      },
    },
  };
}
