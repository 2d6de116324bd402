/** Chunks of a RIFF file: which ids are known, where the next one begins. */
import { fourCc, readUpTo, u32 } from './byteWindow.ts';
import type { ByteSource } from './recording.ts';

/** Chunks whose ids settle where the next one begins when a writer forgot a pad byte. */
const KNOWN_CHUNKS = new Set(
  'fmt ,data,fact,LIST,bext,ds64,JUNK,junk,PAD ,FLLR,cue ,iXML,axml,chna,id3 ,ID3 ,PEAK,smpl,inst,INFO,_PMX,afsp'.split(
    ',',
  ),
);

/** Whether these bytes, from this one on, name a chunk that recorders write. */
export const namesChunk = (bytes: Uint8Array, at: number): boolean =>
  at + 4 <= bytes.length && KNOWN_CHUNKS.has(fourCc(bytes, at));

/** Whether a whole chunk of a known kind begins at this byte of the file. */
export async function chunkAt(source: ByteSource, at: number): Promise<boolean> {
  const bytes = await readUpTo(source, at, 8);
  return bytes.length === 8 && namesChunk(bytes, 0) && at + 8 + u32(bytes, 4) <= source.size;
}

/** Where the next chunk begins: after the pad byte of an odd-sized one, unless its writer left that out. */
export async function afterChunk(
  source: ByteSource,
  end: number,
  odd: boolean,
): Promise<{ at: number; padMissing: boolean }> {
  if (!odd) return { at: end, padMissing: false };
  const bytes = await readUpTo(source, end, 9);
  const padMissing = bytes.length >= 8 && bytes[0] !== 0 && namesChunk(bytes, 0) && !namesChunk(bytes, 1);
  return { at: padMissing ? end : end + 1, padMissing };
}
