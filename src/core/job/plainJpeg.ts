/**
 * A photograph without anything beside its pixels: the segments in which cameras write place, time, owner and thumbnails
 * are left out, whoever sent it.
 *
 * Source: ITU-T T.81 (ISO/IEC 10918-1) Annex B, markers and segments: FF D8 begins, each segment is FF, a marker and a
 * two-byte length that counts itself; FF DA begins the scan, which runs to FF D9.
 */

import { type Statement, statement } from '../words/statement.ts';

export type PlainJpeg =
  | { readonly found: true; readonly bytes: Uint8Array<ArrayBuffer>; readonly width: number; readonly height: number }
  | { readonly found: false; readonly why: Statement };

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const COMMENT = 0xfe;
const APP0 = 0xe0;
/** tells how colours were transformed; without it some pictures are drawn in wrong colours */
const APP14 = 0xee;

const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
const mayStay = (marker: number): boolean =>
  marker !== COMMENT && (marker < APP0 || marker > 0xef || marker === APP0 || marker === APP14);

const no = (why: Statement): PlainJpeg => ({ found: false, why });

/** @param bytes a JPEG file; width and height come from its frame, px */
export function plainJpeg(bytes: Uint8Array): PlainJpeg {
  if (bytes[0] !== 0xff || bytes[1] !== SOI) return no(statement('jpeg-is-none'));
  const kept: Uint8Array[] = [bytes.subarray(0, 2)];
  let [width, height] = [0, 0];
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return no(statement('jpeg-breaks-off', { byte: at }));
    const marker = bytes[at + 1];
    // a marker may be filled up with any number of FF before it
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = bytes[at + 2] * 256 + bytes[at + 3];
    const end = at + 2 + length;
    if (length < 2 || end > bytes.length) return no(statement('jpeg-breaks-off', { byte: at }));
    if (isFrame(marker)) {
      if (length < 8) return no(statement('jpeg-frame-damaged'));
      height = bytes[at + 5] * 256 + bytes[at + 6];
      width = bytes[at + 7] * 256 + bytes[at + 8];
    }
    if (marker === SOS) {
      if (width === 0 || height === 0) return no(statement('jpeg-no-size'));
      // what stands behind the end of the picture is no picture: some cameras write a second one there
      const last = endOfScan(bytes, end);
      if (last === null) return no(statement('jpeg-ends-early'));
      return { found: true, bytes: joined([...kept, bytes.subarray(at, last)]), width, height };
    }
    if (mayStay(marker)) kept.push(bytes.subarray(at, end));
    at = end;
  }
  return no(statement('jpeg-no-picture'));
}

/** The byte behind FF D9; segments between the scans of a progressive picture belong to it. */
function endOfScan(bytes: Uint8Array, from: number): number | null {
  for (let at = bytes.indexOf(0xff, from); at !== -1; at = bytes.indexOf(0xff, at + 1)) {
    if (bytes[at + 1] === EOI) return at + 2;
  }
  return null;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    out.set(piece, at);
    at += piece.length;
  }
  return out;
}

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const VALUES = new Map([...DIGITS].map((digit, value) => [digit.charCodeAt(0), value]));

/** Bytes of a base64 text (RFC 4648, section 4); what is no digit ends it. */
export function jpegOfBase64(text: string): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(Math.floor((text.length * 3) / 4));
  let [held, bits, at] = [0, 0, 0];
  for (let i = 0; i < text.length; i++) {
    const value = VALUES.get(text.charCodeAt(i));
    if (value === undefined) break;
    held = ((held << 6) | value) & 0xffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    out[at++] = (held >> bits) & 0xff;
  }
  return out.slice(0, at);
}
