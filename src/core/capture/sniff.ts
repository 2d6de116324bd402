/** What a file is, told by its first bytes and never by its name. */
import { fourCc, readUpTo } from './byteWindow.ts';
import { CaptureError } from './captureError.ts';
import type { ByteSource } from './recording.ts';

export interface Sniffed {
  readonly kind: 'wave' | 'flac';
  /** byte where the container begins: after a tag in front of a FLAC stream */
  readonly start: number;
}

/** Audio and other files that people drop by mistake, by what they begin with; named by the ending that they usually have. */
const OTHERS: readonly (readonly [at: number, magic: string, found: string])[] = [
  [0, 'OggS', 'an .ogg file'],
  [0, 'FORM', 'an .aif file'],
  [0, 'RIFX', 'a WAV file with its bytes in reverse order (RIFX)'],
  [0, 'riff', 'a .w64 file'],
  [0, 'caff', 'a .caf file'],
  [0, '.snd', 'an .au file'],
  [0, 'MAC ', 'an .ape file'],
  [0, 'wvpk', 'a .wv file'],
  [4, 'ftyp', 'an .mp4 or .m4a file'],
  [0, 'PK\x03\x04', 'a .zip archive'],
  [0, '%PDF', 'a .pdf document'],
  [0, '\x1aE\xdf\xa3', 'an .mkv or .webm file'],
];

/**
 * Recognises the container. An ID3 tag in front of FLAC is stepped over.
 *
 * @throws CaptureError `empty-file`, `other-format` or `not-audio`
 * @checked openRecording.test.ts
 */
export async function sniff(source: ByteSource): Promise<Sniffed> {
  const file = source.name;
  if (!(source.size > 0)) throw new CaptureError('empty-file', { file });
  const head = await readUpTo(source, 0, 16);
  if (head.length >= 4 && ['RIFF', 'RF64', 'BW64'].includes(fourCc(head, 0))) return { kind: 'wave', start: 0 };
  if (head.length >= 10 && head[0] === 0x49 && head[1] === 0x44 && head[2] === 0x33) {
    const start = afterId3(head);
    const next = await readUpTo(source, start, 4);
    if (next.length === 4 && fourCc(next, 0) === 'fLaC') return { kind: 'flac', start };
    throw new CaptureError('other-format', { file, found: 'a tagged file without FLAC inside, most likely .mp3' });
  }
  if (head.length >= 4 && fourCc(head, 0) === 'fLaC') return { kind: 'flac', start: 0 };
  for (const [at, magic, found] of OTHERS) {
    if (head.length >= at + magic.length && [...magic].every((c, i) => head[at + i] === c.charCodeAt(0))) {
      throw new CaptureError('other-format', { file, found });
    }
  }
  // an MPEG header, whose version 1 and layer 0 do not exist; without this a text in UTF-16 (FF FE) would pass for one
  if (head.length >= 3 && head[0] === 0xff && (head[1]! & 0xe0) === 0xe0 && isMpeg(head[1]!, head[2]!)) {
    throw new CaptureError('other-format', { file, found: 'an MPEG audio stream (.mp3 or .aac)' });
  }
  throw new CaptureError('not-audio', { file, found: firstBytes(head) });
}

/** Second and third byte of an MPEG audio header: no forbidden version, layer, bit rate or sample rate; ADTS has layer 0. */
function isMpeg(second: number, third: number): boolean {
  const adts = (second & 0xf6) === 0xf0;
  const version = (second >> 3) & 3;
  const layer = (second >> 1) & 3;
  return adts || (version !== 1 && (layer === 1 || layer === 2) && third >> 4 !== 15 && ((third >> 2) & 3) !== 3);
}

/** Length of an ID3v2 tag: seven bits a byte, plus its footer where the flag says so. */
function afterId3(head: Uint8Array): number {
  const size = [6, 7, 8, 9].reduce((sum, i) => sum * 128 + (head[i]! & 0x7f), 0);
  return 10 + size + ((head[5]! & 0x10) !== 0 ? 10 : 0);
}

/** The first bytes of a file as a person can recognise them: printable text, or hexadecimal. */
function firstBytes(head: Uint8Array): string {
  const some = [...head.subarray(0, 8)];
  return some.every((byte) => byte >= 0x20 && byte < 0x7f)
    ? `'${String.fromCharCode(...some)}'`
    : `bytes ${some.map((byte) => byte.toString(16).padStart(2, '0')).join(' ')}`;
}
