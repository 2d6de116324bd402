/** The two checksums of a FLAC frame. */

/** One byte: x⁸ + x² + x + 1, first bit first, from 0. @source RFC 9639, 9.1.8 */
const CRC8 = Uint8Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 0x80 ? ((crc << 1) ^ 0x07) & 0xff : (crc << 1) & 0xff;
  return crc;
});

/** Table k: what a byte does to the checksum k bytes later; x¹⁶ + x¹⁵ + x² + 1. @source RFC 9639, 9.3 */
const CRC16: readonly Uint16Array[] = (() => {
  const tables = Array.from({ length: 4 }, () => new Uint16Array(256));
  for (let byte = 0; byte < 256; byte++) {
    let crc = byte << 8;
    for (let bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? ((crc << 1) ^ 0x8005) & 0xffff : (crc << 1) & 0xffff;
    tables[0]![byte] = crc;
  }
  for (let k = 1; k < 4; k++) {
    for (let byte = 0; byte < 256; byte++) {
      const before = tables[k - 1]![byte]!;
      tables[k]![byte] = ((before << 8) & 0xffff) ^ tables[0]![before >> 8]!;
    }
  }
  return tables;
})();

export function crc8(bytes: Uint8Array, from: number, to: number): number {
  let crc = 0;
  for (let i = from; i < to; i++) crc = CRC8[crc ^ bytes[i]!]!;
  return crc;
}

/** Over a whole frame with its own checksum at the end the result is 0. Four bytes a step: about 1 ns a byte. */
export function crc16(bytes: Uint8Array, from: number, to: number): number {
  const [t0, t1, t2, t3] = CRC16 as [Uint16Array, Uint16Array, Uint16Array, Uint16Array];
  let crc = 0;
  let i = from;
  for (; i + 4 <= to; i += 4) {
    crc = t3[(crc >> 8) ^ bytes[i]!]! ^ t2[(crc & 0xff) ^ bytes[i + 1]!]! ^ t1[bytes[i + 2]!]! ^ t0[bytes[i + 3]!]!;
  }
  for (; i < to; i++) crc = ((crc << 8) & 0xffff) ^ t0[(crc >> 8) ^ bytes[i]!]!;
  return crc;
}
