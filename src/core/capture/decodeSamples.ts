/** Bytes to samples: the inner loops of reading. Little-endian machines only, as every JavaScript engine in use is. */
import type { SampleCode } from './waveFormat.ts';

/**
 * Float samples beyond ±2^31 are no sound at any scale in use and are treated like NaN: replaced by 0 and counted, so
 * that squares and sums above cannot overflow.
 */
export const LARGEST_FLOAT_SAMPLE = 2 ** 31;

export const SAMPLE_BYTES: Readonly<Record<SampleCode, number>> = {
  int16: 2,
  int24: 3,
  int32: 4,
  float32: 4,
  float64: 8,
};

/**
 * Decodes the first two channels of interleaved frames into `left` and `right`, full scale ±1; one channel goes to both.
 *
 *   integer of b bits: x = n / 2^(b−1), exact in a double
 *
 * @param bytes holds at least frames · frameBytes bytes
 * @returns samples that were no numbers and were replaced by 0
 */
export function decodeSamples(
  bytes: Uint8Array,
  code: SampleCode,
  channels: number,
  frameBytes: number,
  frames: number,
  left: Float64Array,
  right: Float64Array,
): number {
  if (!(frames * frameBytes <= bytes.length)) {
    throw new RangeError(`frames = ${frames} of ${frameBytes} bytes need more than the ${bytes.length} bytes given`);
  }
  if (code === 'int24') {
    if (frameBytes === 6 && bytes.byteOffset % 4 === 0) {
      decodeInt24Pairs(bytes, frames, left, right);
      return 0;
    }
    decodeInt24(bytes, channels, frameBytes, frames, left, right);
    return 0;
  }
  const size = SAMPLE_BYTES[code];
  const aligned = bytes.byteOffset % size === 0 ? bytes : new Uint8Array(bytes);
  const stride = frameBytes / size;
  const second = channels > 1 ? 1 : 0;
  const count = frames * stride;
  if (code === 'int16') {
    scaleInto(new Int16Array(aligned.buffer, aligned.byteOffset, count), stride, second, 2 ** -15, left, right);
    return 0;
  }
  if (code === 'int32') {
    scaleInto(new Int32Array(aligned.buffer, aligned.byteOffset, count), stride, second, 2 ** -31, left, right);
    return 0;
  }
  return code === 'float32'
    ? copyFinite(new Float32Array(aligned.buffer, aligned.byteOffset, count), stride, second, left, right)
    : copyFinite(new Float64Array(aligned.buffer, aligned.byteOffset, count), stride, second, left, right);
}

/** Two channels of 24 bits: two frames are three words of 32 bits. */
function decodeInt24Pairs(bytes: Uint8Array, frames: number, left: Float64Array, right: Float64Array): void {
  const pairs = frames >> 1;
  decodeInt24Words(new Int32Array(bytes.buffer, bytes.byteOffset, 3 * pairs), left, right);
  if (frames > 2 * pairs) decodeInt24(bytes, 2, 6, frames, left, right, 2 * pairs);
}

/** A loop by itself: one that is followed by more is left for the interpreter at every block. */
function decodeInt24Words(words: Int32Array, left: Float64Array, right: Float64Array): void {
  const scale = 2 ** -23;
  for (let i = 0, p = 0; p < words.length; i += 2, p += 3) {
    const a = words[p]!;
    const b = words[p + 1]!;
    const c = words[p + 2]!;
    left[i] = ((a << 8) >> 8) * scale;
    right[i] = ((a >>> 24) | ((b << 16) >> 8)) * scale;
    left[i + 1] = ((b >>> 16) | ((c << 24) >> 8)) * scale;
    right[i + 1] = (c >> 8) * scale;
  }
}

function decodeInt24(
  bytes: Uint8Array,
  channels: number,
  frameBytes: number,
  frames: number,
  left: Float64Array,
  right: Float64Array,
  from = 0,
): void {
  const second = channels > 1 ? 3 : 0;
  const scale = 2 ** -23;
  for (let i = from, p = from * frameBytes; i < frames; i++, p += frameBytes) {
    const q = p + second;
    left[i] = (bytes[p]! | (bytes[p + 1]! << 8) | ((bytes[p + 2]! << 24) >> 8)) * scale;
    right[i] = (bytes[q]! | (bytes[q + 1]! << 8) | ((bytes[q + 2]! << 24) >> 8)) * scale;
  }
}

function scaleInto(
  samples: Int16Array | Int32Array,
  stride: number,
  second: number,
  scale: number,
  left: Float64Array,
  right: Float64Array,
): void {
  for (let i = 0, p = 0; p < samples.length; i++, p += stride) {
    left[i] = samples[p]! * scale;
    right[i] = samples[p + second]! * scale;
  }
}

function copyFinite(
  samples: Float32Array | Float64Array,
  stride: number,
  second: number,
  left: Float64Array,
  right: Float64Array,
): number {
  let replaced = 0;
  for (let i = 0, p = 0; p < samples.length; i++, p += stride) {
    let l = samples[p]!;
    let r = samples[p + second]!;
    if (!(l >= -LARGEST_FLOAT_SAMPLE && l <= LARGEST_FLOAT_SAMPLE)) {
      l = 0;
      replaced++;
    }
    if (!(r >= -LARGEST_FLOAT_SAMPLE && r <= LARGEST_FLOAT_SAMPLE)) {
      r = 0;
      // one channel that is given to both sides is counted once
      if (second > 0) replaced++;
    }
    left[i] = l;
    right[i] = r;
  }
  return replaced;
}

/** Puts 0 in place of samples that are no numbers; returns how many. */
export function replaceNonNumbers(samples: Float64Array, frames: number): number {
  let replaced = 0;
  for (let i = 0; i < frames; i++) {
    if (!(Math.abs(samples[i]!) <= LARGEST_FLOAT_SAMPLE)) {
      samples[i] = 0;
      replaced++;
    }
  }
  return replaced;
}
