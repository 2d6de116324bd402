/** A take in the shape that the measuring half reads; and its record file. */
import type { Recording } from '../../src/core/capture/recording.ts';
import type { RecordSheet } from '../../src/core/record/sheet.ts';
import type { Take } from './capture.ts';
import type { CutBand, Faults } from './fault.ts';

export function asRecording({ sampleRateHz, left, right }: Pick<Take, 'sampleRateHz' | 'left' | 'right'>): Recording {
  const frames = left.length;
  return {
    format: {
      file: 'take.wav',
      sampleRateHz,
      channels: 2,
      bitDepth: 32,
      encoding: 'float',
      container: 'wav',
      frames,
      durationS: frames / sampleRateHz,
    },
    problems: [],
    async *blocks(range) {
      const end = Math.min(frames, range?.toFrame ?? frames);
      for (let from = range?.fromFrame ?? 0; from < end; from += 65_536) {
        const to = Math.min(from + 65_536, end);
        yield { startFrame: from, frames: to - from, left: left.subarray(from, to), right: right.subarray(from, to) };
      }
    },
  };
}

/** What the record's owner would write: peaks of two tones add. */
export const recordFile = (bands: readonly CutBand[], { rpm }: Faults, cut?: RecordSheet['cut']): RecordSheet => ({
  schema: 1,
  name: 'Take',
  rpm,
  referenceVelocityCmS: 5,
  ...(cut === undefined ? {} : { cut }),
  bands: bands.map(({ motion, hz, cmS, radiusMm, durationS }) => ({
    motion,
    radiusMm,
    durationS,
    peakVelocityCmS: cmS.reduce((sum, v) => sum + v, 0),
    ...(hz.length === 1
      ? { signal: 'tone' as const, frequencyHz: hz[0] }
      : { signal: 'two-tone' as const, frequenciesHz: [hz[0], hz[1]] as const, ratio: cmS[0] / cmS[1] }),
  })),
});

/** The take as a WAV file of 32-bit floats, for the command line. */
export function waveFile({ sampleRateHz, left, right }: Take): Uint8Array {
  const frames = left.length;
  const bytes = new Uint8Array(44 + 8 * frames);
  const view = new DataView(bytes.buffer);
  const text = (at: number, word: string): void => {
    for (let i = 0; i < word.length; i++) bytes[at + i] = word.charCodeAt(i);
  };
  text(0, 'RIFF');
  view.setUint32(4, 36 + 8 * frames, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 3, true);
  view.setUint16(22, 2, true);
  view.setUint32(24, sampleRateHz, true);
  view.setUint32(28, 8 * sampleRateHz, true);
  view.setUint16(32, 8, true);
  view.setUint16(34, 32, true);
  text(36, 'data');
  view.setUint32(40, 8 * frames, true);
  for (let n = 0; n < frames; n++) {
    view.setFloat32(44 + 8 * n, left[n], true);
    view.setFloat32(48 + 8 * n, right[n], true);
  }
  return bytes;
}
