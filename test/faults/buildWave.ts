/** WAV, RF64 and BW64 files made byte by byte for tests, right ones and every kind of wrong. */

export type Depth = 16 | 24 | 32 | 'float32' | 'float64';

export const chunk = (id: string, payload: Uint8Array, options: { size?: number; pad?: boolean } = {}): Uint8Array => {
  const padded = payload.length + (payload.length % 2 === 1 && options.pad !== false ? 1 : 0);
  const bytes = new Uint8Array(8 + padded);
  bytes.set(text(id));
  new DataView(bytes.buffer).setUint32(4, options.size ?? payload.length, true);
  bytes.set(payload, 8);
  return bytes;
};

export const text = (characters: string): Uint8Array => Uint8Array.from(characters, (c) => c.charCodeAt(0));

export const joined = (...parts: readonly Uint8Array[]): Uint8Array => {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
};

export interface FormatFields {
  tag?: number;
  channels?: number;
  rateHz?: number;
  bits?: number;
  /** bytes of one sample */
  container?: number;
  frameBytes?: number;
  byteRate?: number;
  /** makes the chunk WAVE_FORMAT_EXTENSIBLE */
  validBits?: number;
  guidTail?: readonly number[];
}

export function formatChunk(fields: FormatFields = {}): Uint8Array {
  const { tag = 1, channels = 2, rateHz = 48_000, bits = 24 } = fields;
  const container = fields.container ?? Math.ceil(bits / 8);
  const frameBytes = fields.frameBytes ?? container * channels;
  const extensible = fields.validBits !== undefined;
  const bytes = new Uint8Array(extensible ? 40 : 16);
  const view = new DataView(bytes.buffer);
  view.setUint16(0, extensible ? 0xfffe : tag, true);
  view.setUint16(2, channels, true);
  view.setUint32(4, rateHz, true);
  view.setUint32(8, fields.byteRate ?? rateHz * frameBytes, true);
  view.setUint16(12, frameBytes, true);
  view.setUint16(14, bits, true);
  if (extensible) {
    view.setUint16(16, 22, true);
    view.setUint16(18, fields.validBits!, true);
    view.setUint32(20, 3, true);
    view.setUint16(24, tag, true);
    bytes.set(fields.guidTail ?? [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71], 26);
  }
  return chunk('fmt ', bytes);
}

/** Interleaved integers (or floats) as the bytes of a data chunk. */
export function sampleBytes(samples: readonly number[], depth: Depth): Uint8Array {
  if (depth === 'float32') return new Uint8Array(Float32Array.from(samples).buffer);
  if (depth === 'float64') return new Uint8Array(Float64Array.from(samples).buffer);
  const width = depth / 8;
  const bytes = new Uint8Array(samples.length * width);
  samples.forEach((sample, i) => {
    for (let b = 0; b < width; b++) bytes[i * width + b] = Math.floor(sample / 2 ** (8 * b)) & 0xff;
  });
  return bytes;
}

/** A RIFF file of the parts given; `size` is what its header claims. */
export const riff = (parts: readonly Uint8Array[], id = 'RIFF', size?: number): Uint8Array => {
  const body = joined(text('WAVE'), ...parts);
  const head = new Uint8Array(8);
  head.set(text(id));
  new DataView(head.buffer).setUint32(4, size ?? body.length, true);
  return joined(head, body);
};

/** A ds64 chunk with the data size given. */
export function ds64(dataBytes: number, frames = 0): Uint8Array {
  const bytes = new Uint8Array(28);
  const view = new DataView(bytes.buffer);
  view.setUint32(8, dataBytes >>> 0, true);
  view.setUint32(12, Math.floor(dataBytes / 2 ** 32), true);
  view.setUint32(16, frames, true);
  return chunk('ds64', bytes);
}

/** A plain, sound stereo file. */
export function wave(samples: readonly number[], depth: Depth, fields: FormatFields = {}): Uint8Array {
  const float = typeof depth === 'string';
  const bits = float ? Number(depth.slice(5)) : depth;
  return riff([formatChunk({ tag: float ? 3 : 1, bits, ...fields }), chunk('data', sampleBytes(samples, depth))]);
}

/** Numbers that are the same on every run: a 32-bit linear congruential generator, full range of `bits` signed. */
export function seededIntegers(count: number, bits: number, seed: number): number[] {
  let state = seed >>> 0;
  const list: number[] = [];
  for (let i = 0; i < count; i++) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    list.push(Math.floor((state / 2 ** 32) * 2 ** bits) - 2 ** (bits - 1));
  }
  return list;
}
