/** The way in: any byte source becomes a checked recording, or one sentence that says why not. */
import type { Problem } from './problem.ts';
import type { ByteSource, CaptureFormat, Recording } from './recording.ts';
import { problem } from './sentences.ts';
import { sniff } from './sniff.ts';
import { readWaveFile } from './waveFile.ts';
import { waveBlocks } from './waveRecording.ts';

/** Shortest recording that anything can be measured in, s: a few tens of turns of the lowest tone, one beat of wow. */
export const SHORTEST_S = 1;

/**
 * Opens a recording: recognises the container by its bytes, reads its header, checks every length. Samples are read
 * later, block by block.
 *
 * @throws CaptureError for what cannot be read at all; what can be read but is not right stands in `problems`
 * @checked openRecording.test.ts, test/faults/capture.test.ts
 */
export async function openRecording(source: ByteSource): Promise<Recording> {
  await sniff(source);
  const wave = await readWaveFile(source);
  const format: CaptureFormat = {
    file: source.name,
    sampleRateHz: wave.format.sampleRateHz,
    channels: wave.format.channels,
    bitDepth: wave.format.bitDepth,
    encoding: wave.format.code.startsWith('float') ? 'float' : 'integer',
    container: wave.container,
    frames: wave.frames,
    durationS: wave.frames / wave.format.sampleRateHz,
  };
  return {
    format,
    problems: [...wave.problems, ...formatProblems(format)],
    blocks: (range) => waveBlocks(source, wave, range),
  };
}

/** What the format alone tells: channel count and length. */
export function formatProblems(format: CaptureFormat): Problem[] {
  const problems: Problem[] = [];
  if (format.channels === 1) problems.push(problem('mono'));
  if (format.channels > 2) problems.push(problem('extra-channels', { channels: format.channels }));
  if (!(format.durationS >= SHORTEST_S)) {
    problems.push(problem('too-short', { seconds: format.durationS.toFixed(2), leastS: SHORTEST_S }));
  }
  return problems;
}
