/** Reading bytes with every length checked against what is there. */
import { CaptureError } from './captureError.ts';
import type { ByteSource } from './recording.ts';

/**
 * Reads `length` bytes at `offset`, or as many as the source has: short reads are continued, never past `size`.
 *
 * @param into optional memory to fill, at least `length` bytes
 * @throws CaptureError `unreadable` with the reason the source gave
 */
export async function readUpTo(
  source: ByteSource,
  offset: number,
  length: number,
  into?: Uint8Array,
): Promise<Uint8Array> {
  const wanted = Math.max(0, Math.min(length, source.size - offset));
  if (wanted === 0) return new Uint8Array(0);
  const first = await attempt(source, offset, wanted, into);
  if (first.length >= wanted) return first.length === wanted ? first : first.subarray(0, wanted);
  if (first.length === 0) return first;
  const whole = new Uint8Array(wanted);
  whole.set(first);
  let filled = first.length;
  while (filled < wanted) {
    const more = await attempt(source, offset + filled, wanted - filled);
    if (more.length === 0) break;
    whole.set(more.subarray(0, wanted - filled), filled);
    filled = Math.min(wanted, filled + more.length);
  }
  return whole.subarray(0, filled);
}

/** Reads exactly `length` bytes of the part named; a source that ends inside it is a CaptureError. */
export async function readExactly(
  source: ByteSource,
  offset: number,
  length: number,
  part: string,
): Promise<Uint8Array> {
  const bytes = await readUpTo(source, offset, length);
  if (bytes.length < length) {
    const size = offset + bytes.length;
    throw new CaptureError('short-header', { file: source.name, size, part, expected: offset + length });
  }
  return bytes;
}

async function attempt(source: ByteSource, offset: number, length: number, into?: Uint8Array): Promise<Uint8Array> {
  try {
    return await source.read(offset, length, into);
  } catch (error) {
    const why = (error instanceof Error ? error.message : String(error)).split('\n')[0]!.replace(/\.$/, '');
    throw new CaptureError('unreadable', { file: source.name, offset, why });
  }
}

/** A four-character code as printable text, anything else as a dot. */
export function fourCc(bytes: Uint8Array, at: number): string {
  let text = '';
  for (let i = at; i < at + 4; i++) {
    const byte = bytes[i]!;
    text += byte >= 0x20 && byte < 0x7f ? String.fromCharCode(byte) : '.';
  }
  return text;
}

export const u16 = (bytes: Uint8Array, at: number): number => bytes[at]! | (bytes[at + 1]! << 8);
export const u32 = (bytes: Uint8Array, at: number): number => (u16(bytes, at) | (u16(bytes, at + 2) << 16)) >>> 0;
/** 64-bit little-endian length; beyond 2^53 it loses its last bits, which no file reaches. */
export const u64 = (bytes: Uint8Array, at: number): number => u32(bytes, at) + u32(bytes, at + 4) * 2 ** 32;
