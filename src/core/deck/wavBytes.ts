/**
 * A capture as the bytes of a WAV file: integer 16, 24, 32 bit or 32-bit float, RF64 (EBU Tech 3306) where 4 GB do not
 * suffice. Written from the format's description, apart from the reader.
 */

export type WavBits = 16 | 24 | 32 | 'float';

export interface WavFormat {
  readonly sampleRateHz: number;
  readonly bits: WavBits;
  /** frames in the whole file */
  readonly frames: number;
  /** a chunk that goes before the samples, of an even length: what the file says of itself */
  readonly info?: Uint8Array;
}

const NO_INFO = new Uint8Array(0);
const bytesOf = (bits: WavBits): number => (bits === 'float' ? 4 : bits / 8);

/**
 * Header of a stereo file with the given number of frames, up to and including the size of its `data` chunk.
 * @throws RangeError naming the argument
 */
export function wavHeader({ sampleRateHz, bits, frames, info = NO_INFO }: WavFormat): Uint8Array {
  if (!(Number.isInteger(sampleRateHz) && sampleRateHz >= 1 && sampleRateHz <= 0xffffffff)) {
    throw new RangeError(`sampleRateHz: ${sampleRateHz} given, expected an integer from 1 to 4294967295`);
  }
  if (!(Number.isSafeInteger(frames) && frames >= 0 && frames <= 2 ** 48)) {
    throw new RangeError(`frames: ${frames} given, expected an integer from 0 to 2^48`);
  }
  const frameBytes = 2 * bytesOf(bits);
  const dataBytes = frames * frameBytes;
  const float = bits === 'float';
  const fmtBytes = float ? 18 : 16;
  const factBytes = float ? 12 : 0;
  const plain = 12 + 8 + fmtBytes + factBytes + info.length + 8;
  const long = plain + dataBytes + (dataBytes % 2) - 8 > 0xffffffff;
  const header = new Uint8Array(plain + (long ? 36 : 0));
  const view = new DataView(header.buffer);
  const riffBytes = header.length + dataBytes + (dataBytes % 2) - 8;
  let at = 0;
  const tag = (name: string) => {
    for (const letter of name) view.setUint8(at++, letter.charCodeAt(0));
  };
  const u16 = (value: number) => {
    view.setUint16(at, value, true);
    at += 2;
  };
  const u32 = (value: number) => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const u64 = (value: number) => {
    u32(value % 2 ** 32);
    u32(Math.floor(value / 2 ** 32));
  };
  tag(long ? 'RF64' : 'RIFF');
  u32(long ? 0xffffffff : riffBytes);
  tag('WAVE');
  if (long) {
    tag('ds64');
    u32(28);
    u64(riffBytes);
    u64(dataBytes);
    u64(frames);
    u32(0);
  }
  tag('fmt ');
  u32(fmtBytes);
  u16(float ? 3 : 1);
  u16(2);
  u32(sampleRateHz);
  u32(sampleRateHz * frameBytes);
  u16(frameBytes);
  u16(8 * bytesOf(bits));
  if (float) {
    u16(0);
    tag('fact');
    u32(4);
    u32(Math.min(frames, 0xffffffff));
  }
  header.set(info, at);
  at += info.length;
  tag('data');
  u32(long ? 0xffffffff : dataBytes);
  return header;
}

/**
 * Frames as little-endian bytes, left before right. Integers are rounded and held within the range.
 * @param left full scale ±1
 */
export function wavFrames(left: Float64Array, right: Float64Array, frames: number, bits: WavBits): Uint8Array {
  const size = bytesOf(bits);
  const bytes = new Uint8Array(frames * 2 * size);
  if (bits === 'float') {
    const floats = new DataView(bytes.buffer);
    for (let i = 0; i < frames; i++) {
      floats.setFloat32(8 * i, left[i], true);
      floats.setFloat32(8 * i + 4, right[i], true);
    }
    return bytes;
  }
  const scale = 2 ** (bits - 1);
  let at = 0;
  const put = (sample: number) => {
    const code = Math.min(scale - 1, Math.max(-scale, Math.round(sample * scale)));
    for (let k = 0, rest = code; k < size; k++, rest >>= 8) bytes[at++] = rest & 0xff;
  };
  for (let i = 0; i < frames; i++) {
    put(left[i]);
    put(right[i]);
  }
  return bytes;
}
