/** A recording of 24 bits, two channels, as bytes: for captures too long for lists of numbers. */

export function wavHeader(rateHz: number, frames: number): Uint8Array {
  const bytes = new Uint8Array(44);
  const view = new DataView(bytes.buffer);
  const put = (at: number, text: string): void => {
    for (let i = 0; i < text.length; i++) bytes[at + i] = text.charCodeAt(i);
  };
  put(0, 'RIFF');
  view.setUint32(4, 36 + 6 * frames, true);
  put(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 2, true);
  view.setUint32(24, rateHz, true);
  view.setUint32(28, 6 * rateHz, true);
  view.setUint16(32, 6, true);
  view.setUint16(34, 24, true);
  put(36, 'data');
  view.setUint32(40, 6 * frames, true);
  return bytes;
}

/** @param samples interleaved, full scale 1 */
export function wavFrames(header: Uint8Array, samples: Float64Array): Uint8Array {
  const bytes = new Uint8Array(header.length + 3 * samples.length);
  bytes.set(header);
  samples.forEach((sample, i) => {
    const value = Math.round(sample * (2 ** 23 - 1));
    const at = header.length + 3 * i;
    bytes[at] = value & 0xff;
    bytes[at + 1] = (value >> 8) & 0xff;
    bytes[at + 2] = (value >> 16) & 0xff;
  });
  return bytes;
}
