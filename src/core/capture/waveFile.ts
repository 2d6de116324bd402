/** Finds format and samples in a WAV, RF64 or BW64 file, whatever else stands in it. */
import { fourCc, readExactly, u32, u64 } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import { oneSampleOff } from './oneSampleOff.ts';
import { type Problem, problem } from './problem.ts';
import type { ByteSource } from './recording.ts';
import { afterChunk, chunkAt } from './waveChunks.ts';
import { type WaveFormat, waveFormat } from './waveFormat.ts';

export interface WaveFile {
  readonly container: 'wav' | 'rf64' | 'bw64';
  readonly format: WaveFormat;
  /** byte where the first sample stands */
  readonly dataStart: number;
  /** whole frames present */
  readonly frames: number;
  readonly problems: readonly Problem[];
}

const OPEN_ENDED = 0xffffffff;
/** A file with more chunks than this is not one that a recorder wrote; bounds the walk over hostile bytes. */
const MOST_CHUNKS = 10_000;

/**
 * Walks the chunks. Every length is checked against the bytes present; a data chunk that was never closed, or that
 * claims more than there is, is read to the end of the file with a note.
 *
 * @source Microsoft/IBM RIFF 1991; EBU Tech 3306 (RF64); ITU-R BS.2088 (BW64)
 * @throws CaptureError when there is no format, no samples, or an encoding that is not read
 * @checked waveFile.test.ts
 */
export async function readWaveFile(source: ByteSource): Promise<WaveFile> {
  const file = source.name;
  const head = await readExactly(source, 0, 12, 'file header');
  const id = fourCc(head, 0);
  if (fourCc(head, 8) !== 'WAVE') {
    throw new CaptureError('other-format', { file, found: `a RIFF file of kind '${fourCc(head, 8)}', not 'WAVE'` });
  }
  const container = id === 'RF64' ? 'rf64' : id === 'BW64' ? 'bw64' : 'wav';
  const problems: Problem[] = [];
  let format: WaveFormat | null = null;
  let longDataBytes: number | null = null;
  let held: { start: number; claimed: number } | null = null;
  let at = 12;
  for (let walked = 0; walked < MOST_CHUNKS && at + 8 <= source.size; walked++) {
    const header = await readExactly(source, at, 8, 'chunk header');
    const chunk = fourCc(header, 0);
    const size = u32(header, 4);
    const start = at + 8;
    if (chunk === 'ds64') {
      const body = await readExactly(source, start, 24, 'ds64 chunk');
      if (size < 24)
        throw new CaptureError('bad-header', {
          file,
          part: 'ds64 chunk',
          found: `${size} bytes`,
          expected: 'at least 24',
        });
      longDataBytes = u64(body, 8);
    } else if (chunk === 'fmt ') {
      format = waveFormat(file, await readExactly(source, start, Math.min(size, 40), 'format chunk'));
    } else if (chunk === 'data') {
      const claimed = size === OPEN_ENDED && container !== 'wav' && longDataBytes !== null ? longDataBytes : size;
      held = { start, claimed };
      if (format !== null) break;
    }
    const claimed = chunk === 'data' && held !== null ? held.claimed : size;
    const next = await afterChunk(source, start + claimed, claimed % 2 === 1);
    if (next.padMissing) problems.push(problem('pad-byte-missing', { chunk: `'${chunk}'` }));
    at = next.at;
  }
  if (format === null) {
    const found = held === null ? `the chunks end at byte ${Math.min(at, source.size)}` : 'the samples come first';
    throw new CaptureError('no-format', { file, found });
  }
  if (held === null) throw new CaptureError('no-samples', { file });
  const { bytes: dataBytes, closed } = await bytesPresent(source, held, format, container, problems);
  const frames = Math.floor(dataBytes / format.frameBytes);
  if (frames === 0) throw new CaptureError('no-samples', { file });
  const odd = dataBytes - frames * format.frameBytes;
  if (odd > 0) problems.push(problem('half-frame', { bytes: odd }));
  const { start, claimed } = held;
  if (await oneSampleOff(source, format, { start, claimed, present: dataBytes, closed }))
    problems.push(problem('one-sample-off'));
  return { container, format, dataStart: held.start, frames, problems: [...format.problems, ...problems] };
}

/** Bytes of samples that are really there, with a note where the header says something else. */
async function bytesPresent(
  source: ByteSource,
  { start, claimed }: { readonly start: number; readonly claimed: number },
  format: WaveFormat,
  container: WaveFile['container'],
  problems: Problem[],
): Promise<{ readonly bytes: number; readonly closed: boolean }> {
  const present = source.size - start;
  // a length that was never true may be absurd: no hundredths are shown of it
  const seconds = (bytes: number): string => {
    const s = bytes / format.frameBytes / format.sampleRateHz;
    return s < 1e5 ? s.toFixed(2) : 'more than 100000';
  };
  if (claimed === 0) {
    if (present === 0 || (await chunkAt(source, start))) throw new CaptureError('no-samples', { file: source.name });
    problems.push(problem('not-closed', { found: 'its length is 0' }));
    return { bytes: present, closed: false };
  }
  if (claimed === OPEN_ENDED && claimed > present) {
    problems.push(problem('not-closed', { found: 'its length is left open' }));
    return { bytes: present, closed: false };
  }
  if (claimed > present) {
    problems.push(problem('cut-short', { promised: seconds(claimed), present: seconds(present) }));
    return { bytes: present, closed: true };
  }
  // a plain WAV of more than 4 GiB whose 32-bit length has run over
  const over = Math.floor((present - claimed) / 2 ** 32) * 2 ** 32;
  if (container === 'wav' && over > 0 && !(await chunkAt(source, start + claimed + (claimed % 2)))) {
    problems.push(problem('not-closed', { found: 'its 32-bit length ran over' }));
    return { bytes: claimed + over, closed: false };
  }
  return { bytes: claimed, closed: true };
}
