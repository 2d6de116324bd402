/** Finds format and samples in a WAV, RF64 or BW64 file, whatever else stands in it. */
import { fourCc, readExactly, readUpTo, u32, u64 } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import { type Problem, problem } from './problem.ts';
import type { ByteSource } from './recording.ts';
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
/** Chunks whose ids settle where the next one begins when a writer forgot a pad byte. */
/** what ends earlier than this is a recording that was cut off, not one that lost bytes on its way, s */
const MOST_LOST_S = 1;
/** more bytes than this after the samples are something else */
const STRAY_BYTES = 64;
const KNOWN_CHUNKS = new Set(
  'fmt ,data,fact,LIST,bext,ds64,JUNK,junk,PAD ,FLLR,cue ,iXML,axml,chna,id3 ,ID3 ,PEAK,smpl,inst,INFO,_PMX,afsp'.split(
    ',',
  ),
);
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
  const dataBytes = await bytesPresent(source, held.start, held.claimed, format, container, problems);
  const frames = Math.floor(dataBytes / format.frameBytes);
  if (frames === 0) throw new CaptureError('no-samples', { file });
  const odd = dataBytes - frames * format.frameBytes;
  if (odd > 0) problems.push(problem('half-frame', { bytes: odd }));
  const missing = held.claimed - dataBytes;
  const stray =
    odd > 0 && missing < MOST_LOST_S * format.sampleRateHz * format.frameBytes
      ? odd
      : await strayBytes(source, held.start + dataBytes, missing);
  // one sample too few or too many turns the channels round from there on
  if (format.channels === 2 && stray % format.frameBytes === format.frameBytes / 2)
    problems.push(problem('one-sample-off'));
  return { container, format, dataStart: held.start, frames, problems: [...format.problems, ...problems] };
}

/** Where the next chunk begins: after the pad byte of an odd-sized one, unless its writer left that out. */
async function afterChunk(source: ByteSource, end: number, odd: boolean): Promise<{ at: number; padMissing: boolean }> {
  if (!odd) return { at: end, padMissing: false };
  const bytes = await readUpTo(source, end, 9);
  const padMissing =
    bytes.length >= 8 && bytes[0] !== 0 && KNOWN_CHUNKS.has(fourCc(bytes, 0)) && !KNOWN_CHUNKS.has(fourCc(bytes, 1));
  return { at: padMissing ? end : end + 1, padMissing };
}

/** Bytes of samples that are really there, with a note where the header says something else. */
async function bytesPresent(
  source: ByteSource,
  start: number,
  claimed: number,
  format: WaveFormat,
  container: WaveFile['container'],
  problems: Problem[],
): Promise<number> {
  const present = source.size - start;
  // a length that was never true may be absurd: no hundredths are shown of it
  const seconds = (bytes: number): string => {
    const s = bytes / format.frameBytes / format.sampleRateHz;
    return s < 1e5 ? s.toFixed(2) : 'more than 100000';
  };
  if (claimed === 0) {
    if (present === 0 || (await chunkAt(source, start))) throw new CaptureError('no-samples', { file: source.name });
    problems.push(problem('not-closed', { found: 'its length is 0' }));
    return present;
  }
  if (claimed === OPEN_ENDED && claimed > present) {
    problems.push(problem('not-closed', { found: 'its length is left open' }));
    return present;
  }
  if (claimed > present) {
    problems.push(problem('cut-short', { promised: seconds(claimed), present: seconds(present) }));
    return present;
  }
  // a plain WAV of more than 4 GiB whose 32-bit length has run over
  const over = Math.floor((present - claimed) / 2 ** 32) * 2 ** 32;
  if (container === 'wav' && over > 0 && !(await chunkAt(source, start + claimed + (claimed % 2)))) {
    problems.push(problem('not-closed', { found: 'its 32-bit length ran over' }));
    return claimed + over;
  }
  return claimed;
}

/** A few bytes between the end of the samples and the next chunk or the end of the file, a pad byte left out; else 0. */
async function strayBytes(source: ByteSource, end: number, missing: number): Promise<number> {
  if (missing !== 0) return 0;
  const from = end + (end % 2);
  const bytes = await readUpTo(source, end, STRAY_BYTES + 8);
  if (bytes.length <= STRAY_BYTES && end + bytes.length === source.size) return from === source.size ? 0 : bytes.length;
  for (let n = 1; n <= STRAY_BYTES && n + 4 <= bytes.length; n++) {
    if (end + n !== from && KNOWN_CHUNKS.has(fourCc(bytes, n))) return n;
  }
  return 0;
}

async function chunkAt(source: ByteSource, at: number): Promise<boolean> {
  const bytes = await readUpTo(source, at, 8);
  return bytes.length === 8 && KNOWN_CHUNKS.has(fourCc(bytes, 0)) && at + 8 + u32(bytes, 4) <= source.size;
}
