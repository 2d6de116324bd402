/** The format chunk of a WAV file: how its samples are written. */
import { u16, u32 } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import { READABLE_RATES_HZ } from './formatProblems.ts';
import { type Problem, problem } from './problem.ts';

const USUAL_RATES_HZ = [32_000, 44_100, 48_000, 88_200, 96_000, 176_400, 192_000];

/** How one sample lies in the bytes. */
export type SampleCode = 'int16' | 'int24' | 'int32' | 'float32' | 'float64';

export interface WaveFormat {
  readonly code: SampleCode;
  readonly channels: number;
  readonly sampleRateHz: number;
  /** bits that carry the sample, counted from the container's top */
  readonly bitDepth: number;
  /** bytes from one frame to the next */
  readonly frameBytes: number;
  readonly problems: readonly Problem[];
}

const PCM = 0x0001;
const FLOAT = 0x0003;
const EXTENSIBLE = 0xfffe;
const ENCODINGS: Readonly<Record<number, string>> = {
  2: 'ADPCM',
  6: 'A-law',
  7: 'µ-law',
  17: 'IMA ADPCM',
  80: 'MPEG audio',
  85: 'MP3',
  255: 'AAC',
};
/** Bytes 2 to 15 of the sub-format GUID that carries a plain format tag in its first two (RFC 2361). */
const WAVE_GUID_TAIL = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];

/**
 * Reads a format chunk, checking every field that the decoding rests on against the others.
 *
 * Samples narrower than their container are taken as left-justified, as the format's definition says.
 *
 * @param chunk payload of the chunk, at least 16 bytes
 * @throws CaptureError naming the field, what it says and what was expected
 * @checked waveFile.test.ts
 */
export function waveFormat(file: string, chunk: Uint8Array): WaveFormat {
  const bad = (part: string, found: string, expected: string): CaptureError =>
    new CaptureError('bad-header', { file, part, found, expected });
  if (chunk.length < 16) {
    throw bad('format chunk', `${chunk.length} bytes`, 'at least 16');
  }
  let tag = u16(chunk, 0);
  const channels = u16(chunk, 2);
  const sampleRateHz = u32(chunk, 4);
  const byteRate = u32(chunk, 8);
  const frameBytes = u16(chunk, 12);
  const bits = u16(chunk, 14);
  let validBits = bits;
  if (tag === EXTENSIBLE) {
    if (chunk.length < 40) throw bad('extensible format chunk', `${chunk.length} bytes`, '40');
    if (!WAVE_GUID_TAIL.every((byte, i) => chunk[26 + i] === byte)) {
      throw new CaptureError('unsupported-encoding', { file, found: 'a sub-format of its own' });
    }
    tag = u16(chunk, 24);
    // some writers leave the valid bits at 0; the container then is all there is to go by
    validBits = u16(chunk, 18) || bits;
    if (!(validBits <= bits)) throw bad('valid bits a sample', String(validBits), `at most the container's ${bits}`);
  }
  if (tag !== PCM && tag !== FLOAT) {
    const name = ENCODINGS[tag] ?? `format tag 0x${tag.toString(16).padStart(4, '0')}`;
    throw new CaptureError('unsupported-encoding', { file, found: name });
  }
  if (channels === 0) throw bad('channel count', '0', '2');
  if (!(READABLE_RATES_HZ[0] <= sampleRateHz && sampleRateHz <= READABLE_RATES_HZ[1])) {
    throw bad('sample rate', `${sampleRateHz} Hz`, `${READABLE_RATES_HZ[0]} to ${READABLE_RATES_HZ[1]} Hz`);
  }
  const code = sampleCode(file, tag, bits, frameBytes, channels, bad);
  if (tag === PCM && validBits < 16) throw new CaptureError('too-few-bits', { file, bits: validBits });

  const problems: Problem[] = [];
  if (byteRate !== 0 && byteRate !== sampleRateHz * frameBytes) {
    const otherHz = byteRate / frameBytes;
    // a byte rate that means no usual rate at all is an idle field, not a second opinion
    if (USUAL_RATES_HZ.includes(otherHz)) problems.push(problem('rate-disagrees', { rateHz: sampleRateHz, otherHz }));
  }
  return { code, channels, sampleRateHz, bitDepth: validBits, frameBytes, problems };
}

function sampleCode(
  file: string,
  tag: number,
  bits: number,
  frameBytes: number,
  channels: number,
  bad: (part: string, found: string, expected: string) => CaptureError,
): SampleCode {
  const container = frameBytes / channels;
  const found = `${frameBytes} bytes for ${channels} channels`;
  if (tag === FLOAT) {
    if (bits !== 32 && bits !== 64)
      throw new CaptureError('unsupported-encoding', { file, found: `${bits}-bit float` });
    if (container !== bits / 8) throw bad('frame size', found, `${bits / 8} a channel for ${bits}-bit float`);
    return bits === 32 ? 'float32' : 'float64';
  }
  if (bits < 16) throw new CaptureError('too-few-bits', { file, bits });
  if (bits > 32) throw new CaptureError('unsupported-encoding', { file, found: `${bits}-bit PCM` });
  if (!(container * 8 >= bits && (container === 2 || container === 3 || container === 4))) {
    throw bad('frame size', found, `${Math.ceil(bits / 8)} a channel for ${bits} bits`);
  }
  return container === 2 ? 'int16' : container === 3 ? 'int24' : 'int32';
}
