/**
 * Reads a zip file that came from anywhere: nothing is inflated before the whole directory was found within its bounds, and
 * nothing beyond the size that the directory names. Writing is the library's.
 *
 * @source APPNOTE.TXT, the zip file format (6.3): end record 4.3.16, directory 4.3.12, local header 4.3.7; from memory
 */

import { Inflate } from 'fflate';
import { type Statement, statement } from '../words/statement.ts';

export interface ZipBounds {
  readonly mostFiles: number;
  /** of all files together when inflated */
  readonly mostBytes: number;
  /** names that a file may have; anything else is refused */
  readonly mayBe: (path: string) => boolean;
}

export type ReadZip =
  | { readonly found: true; readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly found: false; readonly why: Statement };

const END = 0x06054b50;
const DIRECTORY = 0x02014b50;
const LOCAL = 0x04034b50;
const END_BYTES = 22;
/** a comment may follow the end record */
const MOST_COMMENT = 65_535;
const STORED = 0;
const DEFLATED = 8;
const ENCRYPTED = 1;
/** stands in a size of 32 bits where the true one is kept elsewhere */
const ELSEWHERE = 0xffff_ffff;
/** compressed bytes inflated at once: at most some 16 MB come of them */
const SLICE = 16_384;

class Wrong extends Error {
  readonly why: Statement;
  constructor(why: Statement) {
    super(why.code);
    this.why = why;
  }
}

interface Entry {
  readonly path: string;
  readonly method: number;
  readonly packed: number;
  readonly size: number;
  readonly at: number;
}

function endOf(view: DataView): number {
  const first = Math.max(0, view.byteLength - END_BYTES - MOST_COMMENT);
  for (let at = view.byteLength - END_BYTES; at >= first; at--) {
    if (view.getUint32(at, true) === END) return at;
  }
  throw new Wrong(statement('zip-no-end'));
}

/** Names are compared as they stand; those that may be are plain letters. */
const nameOf = (bytes: Uint8Array): string => String.fromCharCode(...bytes);

function entriesOf(bytes: Uint8Array, view: DataView, { mostFiles, mostBytes, mayBe }: ZipBounds): readonly Entry[] {
  const end = endOf(view);
  const count = view.getUint16(end + 10, true);
  if (count > mostFiles) throw new Wrong(statement('zip-many-files', { files: count, most: mostFiles }));
  const entries: Entry[] = [];
  let total = 0;
  let at = view.getUint32(end + 16, true);
  for (let i = 0; i < count; i++) {
    if (at + 46 > end || view.getUint32(at, true) !== DIRECTORY) throw new Wrong(statement('zip-directory-damaged'));
    const [nameBytes, extra, comment] = [28, 30, 32].map((place) => view.getUint16(at + place, true));
    const [packed, size, local] = [20, 24, 42].map((place) => view.getUint32(at + place, true));
    const path = nameOf(bytes.subarray(at + 46, at + 46 + Math.min(nameBytes, 200)));
    const shown = JSON.stringify(path.slice(0, 80));
    const flags = view.getUint16(at + 8, true);
    const method = view.getUint16(at + 10, true);
    at += 46 + nameBytes + extra + comment;
    if (path.endsWith('/') && size === 0) continue;
    if (nameBytes > 200 || !mayBe(path)) throw new Wrong(statement('zip-strange-file', { path: shown }));
    if (entries.some((one) => one.path === path)) throw new Wrong(statement('zip-file-twice', { path: shown }));
    if ((flags & ENCRYPTED) !== 0) throw new Wrong(statement('zip-encrypted', { path: shown }));
    if (method !== STORED && method !== DEFLATED)
      throw new Wrong(statement('zip-unknown-method', { path: shown, method }));
    if (packed === ELSEWHERE || size === ELSEWHERE || local === ELSEWHERE)
      throw new Wrong(statement('zip-file-too-large', { path: shown }));
    total += size;
    if (total > mostBytes) throw new Wrong(statement('zip-too-large', { megabytes: Math.round(mostBytes / 2 ** 20) }));
    entries.push({ path, method, packed, size, at: local });
  }
  return entries;
}

function inflated(packed: Uint8Array, size: number, path: string): Uint8Array {
  const out = new Uint8Array(size);
  let held = 0;
  const inflate = new Inflate((chunk) => {
    if (held + chunk.length > size) throw new Wrong(statement('zip-file-larger', { path }));
    out.set(chunk, held);
    held += chunk.length;
  });
  try {
    for (let at = 0; at < packed.length; at += SLICE) {
      inflate.push(packed.subarray(at, at + SLICE), at + SLICE >= packed.length);
    }
  } catch (error) {
    throw error instanceof Wrong ? error : new Wrong(statement('zip-file-damaged', { path }));
  }
  if (held !== size) throw new Wrong(statement('zip-file-cut', { path }));
  return out;
}

function fileOf(bytes: Uint8Array, view: DataView, { path, method, packed, size, at }: Entry): Uint8Array {
  if (at + 30 > bytes.length || view.getUint32(at, true) !== LOCAL)
    throw new Wrong(statement('zip-file-damaged', { path }));
  const start = at + 30 + view.getUint16(at + 26, true) + view.getUint16(at + 28, true);
  if (start + packed > bytes.length) throw new Wrong(statement('zip-file-cut', { path }));
  const content = bytes.subarray(start, start + packed);
  if (method === DEFLATED) return inflated(content, size, path);
  if (packed !== size) throw new Wrong(statement('zip-file-damaged', { path }));
  return content;
}

export function readZip(bytes: Uint8Array, bounds: ZipBounds): ReadZip {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const entries = entriesOf(bytes, view, bounds);
    return { found: true, files: new Map(entries.map((entry) => [entry.path, fileOf(bytes, view, entry)])) };
  } catch (error) {
    if (error instanceof Wrong) return { found: false, why: error.why };
    throw error;
  }
}
