/**
 * What a WAV file says of itself: a LIST chunk of type INFO, of a length that is chosen before all of it is known, so that it can be
 * written over when the recording ends.
 *
 * @source Multimedia Programming Interface and Data Specifications 1.0 (IBM and Microsoft, 1991), "INFO List Chunk": identifiers from memory
 * @checked wavBytes.test.ts
 */

export interface WavInfo {
  /** INAM */
  readonly title: string;
  /** ICRD, as `2026-03-01` */
  readonly date: string;
  /** ISFT */
  readonly software: string;
  /** ICMT, as JSON: text that is not ASCII is escaped, because the chunk says no encoding */
  readonly comment: Readonly<Record<string, string | number | boolean | null>>;
}

const escaped = (text: string): string =>
  text.replace(/[^\x20-\x7e]/g, (one) => `\\u${one.charCodeAt(0).toString(16).padStart(4, '0')}`);
/** a plain text holds no escapes: what is not ASCII is left out */
const plain = (text: string): string => text.normalize('NFKD').replace(/[^\x20-\x7e]/g, '');

/**
 * @param size bytes of the whole chunk, even
 * @throws RangeError where it does not fit
 */
export function infoChunk({ title, date, software, comment }: WavInfo, size: number): Uint8Array {
  const chunk = new Uint8Array(size);
  const view = new DataView(chunk.buffer);
  let at = 0;
  const ascii = (text: string): void => {
    for (const letter of text) chunk[at++] = letter.charCodeAt(0);
  };
  const u32 = (value: number): void => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const entries = [
    ['INAM', plain(title)],
    ['ICRD', plain(date)],
    ['ISFT', plain(software)],
    ['ICMT', escaped(JSON.stringify(comment))],
  ] as const;
  // each ends with a zero and begins at an even byte
  const needed = entries.reduce((sum, [, text]) => sum + 8 + text.length + 1 + ((text.length + 1) % 2), 12);
  if (!(size % 2 === 0 && needed <= size)) {
    throw new RangeError(`size: ${size} given, expected an even number of ${needed} or more`);
  }
  ascii('LIST');
  u32(size - 8);
  ascii('INFO');
  for (const [id, text] of entries) {
    ascii(id);
    // the last takes the room that is left, as zeros after its text
    u32(id === 'ICMT' ? size - at - 4 : text.length + 1);
    ascii(text);
    at += 1 + ((text.length + 1) % 2);
  }
  return chunk;
}
