/** The way in: any byte source becomes a checked recording, or one sentence that says why not. */
import { FlacFile } from './flacRecording.ts';
import { formatProblems } from './formatProblems.ts';
import type { ByteSource, CaptureFormat, Recording } from './recording.ts';
import { sniff } from './sniff.ts';
import { readWaveFile } from './waveFile.ts';
import { waveBlocks } from './waveRecording.ts';

/**
 * Opens a recording: recognises the container by its bytes, reads its header, checks every length. Samples are read
 * later, block by block.
 *
 * @throws CaptureError for what cannot be read at all; what can be read but is not right stands in `problems`
 * @checked openRecording.test.ts, test/faults/capture.test.ts
 */
export async function openRecording(source: ByteSource): Promise<Recording> {
  const { kind, start } = await sniff(source);
  return kind === 'flac' ? openFlac(source, start) : openWave(source);
}

async function openWave(source: ByteSource): Promise<Recording> {
  const wave = await readWaveFile(source);
  const { sampleRateHz, channels, bitDepth, code } = wave.format;
  const format: CaptureFormat = {
    file: source.name,
    sampleRateHz,
    channels,
    bitDepth,
    encoding: code.startsWith('float') ? 'float' : 'integer',
    container: wave.container,
    frames: wave.frames,
    durationS: wave.frames / sampleRateHz,
  };
  return {
    format,
    problems: [...wave.problems, ...formatProblems(format)],
    blocks: (range) => waveBlocks(source, wave, range),
  };
}

async function openFlac(source: ByteSource, start: number): Promise<Recording> {
  const flac = await FlacFile.open(source, start);
  const { sampleRateHz, channels, bitDepth } = flac.stream;
  const format: CaptureFormat = {
    file: source.name,
    sampleRateHz,
    channels,
    bitDepth,
    encoding: 'integer',
    container: 'flac',
    frames: flac.frames,
    durationS: flac.frames / sampleRateHz,
  };
  flac.problems.push(...formatProblems(format));
  return { format, problems: flac.problems, blocks: (range) => flac.blocks(range) };
}
