/** Whether a WAV file lost or gained a single sample on its way: left and right change places where that happened. */
import { readUpTo } from './byteWindow.ts';
import type { ByteSource } from './recording.ts';
import { namesChunk } from './waveChunks.ts';
import type { WaveFormat } from './waveFormat.ts';

/** what ends earlier than this is a recording that was cut off, not one that lost bytes on its way, s */
const MOST_LOST_S = 1;
/** more bytes than this after the samples are something else */
const STRAY_BYTES = 64;

interface SampleBytes {
  /** byte where the first sample is */
  readonly start: number;
  /** bytes of samples by the header */
  readonly claimed: number;
  /** bytes of samples that are there */
  readonly present: number;
  /** the header's length was written when the recording ended */
  readonly closed: boolean;
}

/**
 * Only a file whose length was completed tells: one that is still written, or was never closed, ends wherever the
 * writer has come to, on half a pair too.
 */
export async function oneSampleOff(source: ByteSource, format: WaveFormat, data: SampleBytes): Promise<boolean> {
  if (format.channels !== 2 || !data.closed) return false;
  const missing = data.claimed - data.present;
  if (missing >= MOST_LOST_S * format.sampleRateHz * format.frameBytes) return false;
  const odd = data.present % format.frameBytes;
  const off = odd > 0 ? odd : missing === 0 ? await strayBytes(source, data.start + data.present) : 0;
  return off % format.frameBytes === format.frameBytes / 2;
}

/** Bytes between the end of the samples and the next chunk or the end of the file, a pad byte left out. */
async function strayBytes(source: ByteSource, end: number): Promise<number> {
  const bytes = await readUpTo(source, end, STRAY_BYTES + 8);
  const pad = end % 2;
  if (namesChunk(bytes, 0) || namesChunk(bytes, pad)) return 0;
  for (let n = 1; n <= STRAY_BYTES; n++) {
    if (namesChunk(bytes, n)) return n;
  }
  const isAll = bytes.length <= STRAY_BYTES && end + bytes.length === source.size;
  return isAll && bytes.length > pad ? bytes.length : 0;
}
