/** For tests: a capture in memory, and a plain Fourier sum at one frequency. */
import type { Complex } from '../units/complex.ts';
import type { DeckFile } from './deck.ts';
import type { SheetFile } from './sheet.ts';
import { type Simulation, simulateSide } from './simulate.ts';

export interface Heard {
  readonly simulation: Simulation;
  readonly sampleRateHz: number;
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/** A side without lead-in, lead-out or fades; a band's `sheet` and the deck's `side` may be set again. */
export function hear(deck: DeckFile, sheet: SheetFile, sampleRateHz = 48000, seed = 1, blockFrames?: number): Heard {
  const simulation = simulateSide(
    {
      ...deck,
      side: { beforeDropS: 0, leadInS: 0, leadOutS: 0, gapS: 0, afterLiftS: 0, fadeMs: 0, ...deck.side },
      converter: { bits: 'float', referenceDbfs: -20, ...deck.converter },
    },
    sheet,
    { sampleRateHz, seed },
  );
  const left = new Float64Array(simulation.frames);
  const right = new Float64Array(simulation.frames);
  let at = 0;
  for (const block of simulation.blocks(blockFrames)) {
    left.set(block.left.subarray(0, block.frames), at);
    right.set(block.right.subarray(0, block.frames), at);
    at += block.frames;
  }
  return { simulation, sampleRateHz, left, right };
}

/** A band that plays one tone. */
export const toneBand = (
  motion: 'left' | 'right' | 'lateral' | 'vertical',
  frequencyHz = 1000,
  peakVelocityCmS = 5,
  durationS = 0.6,
  radiusMm = 100,
) => ({ signal: 'tone' as const, motion, frequencyHz, peakVelocityCmS, durationS, radiusMm });

/** Four-term Blackman–Harris window: side lobes below −92 dB. */
const blackmanHarris = (u: number) =>
  0.35875 -
  0.48829 * Math.cos(2 * Math.PI * u) +
  0.14128 * Math.cos(4 * Math.PI * u) -
  0.01168 * Math.cos(6 * Math.PI * u);

/** Amplitude and phase of the tone of `hz` in a stretch: a·cos(2πht + φ), t from the capture's first frame. */
export function lineAt(samples: Float64Array, sampleRateHz: number, hz: number, fromS: number, toS: number): Complex {
  const from = Math.round(fromS * sampleRateHz);
  const count = Math.round((toS - fromS) * sampleRateHz);
  let re = 0;
  let im = 0;
  let weight = 0;
  for (let i = 0; i < count; i++) {
    const w = blackmanHarris((i + 0.5) / count);
    const cycles = (hz * (from + i)) / sampleRateHz;
    const angle = 2 * Math.PI * (cycles - Math.floor(cycles));
    re += w * samples[from + i] * Math.cos(angle);
    im -= w * samples[from + i] * Math.sin(angle);
    weight += w;
  }
  return { re: (2 * re) / weight, im: (2 * im) / weight };
}
