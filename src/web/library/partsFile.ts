/** Parts out of a file, read all or not at all, and onto the shelf. */
import { leafChanges } from '../../core/job/leafPaths.ts';
import { faultSentence } from '../../core/job/partFault.ts';
import type { Part } from '../../core/job/parts.ts';
import { partsFromCsv } from '../../core/job/partsCsv.ts';
import { partsFromJson } from '../../core/job/partsJson.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api, ServerSaid } from '../api.ts';
import { fileText } from './fileText.ts';
import { placeOnShelf, type ShelfPart } from './shelf.ts';

const LARGEST_FILE = 5_000_000;

/** Sentences without their full stop. */
export type PartsRead = { readonly parts: readonly Part[] } | { readonly faults: readonly string[] };

export async function readPartsFile(file: File): Promise<PartsRead> {
  if (file.size > LARGEST_FILE) return { faults: ['it holds over 5 MB; a list of parts was expected'] };
  const letters = fileText(new Uint8Array(await file.arrayBuffer()));
  if (!letters.found) return { faults: [letters.why] };
  const { text } = letters;
  const json = /\.json$/i.test(file.name) || (!/\.csv$/i.test(file.name) && /^\s*[[{]/.test(text));
  const { parts, faults } = json ? partsFromJson(text) : partsFromCsv(text);
  if (faults.length > 0) return { faults: faults.map(faultSentence) };
  return parts.length === 0 ? { faults: ['there is no part in it'] } : { parts };
}

/** What becomes of a part that has the kind and name of one on the shelf. */
export type Doubles = 'replace' | 'keep-both' | 'leave-out';

export const isDouble = (a: Part, b: Part): boolean => a.kind === b.kind && a.name.trim() === b.name.trim();

/** @returns how many were taken, and why it went no further, if it did not */
export async function takeParts(
  parts: readonly Part[],
  shelf: readonly ShelfPart[],
  doubles: Doubles,
): Promise<{ readonly taken: number; readonly why?: string }> {
  let taken = 0;
  // two of one name in the file itself are both kept: only what was here before is replaced, and once
  const before = new Set(shelf);
  try {
    for (const part of parts) {
      const there = [...before].find((one) => isDouble(one.part, part));
      if (there !== undefined && doubles === 'leave-out') continue;
      const over = there !== undefined && doubles === 'replace';
      if (over) before.delete(there);
      const changes = leafChanges(over ? there.part : {}, part);
      const record = await api
        .changePart(part.kind, over ? there.id : crypto.randomUUID(), { changes })
        .catch((error) => {
          if (!(error instanceof ServerSaid && error.status === 409)) throw error;
          throw new Error(say(statement('part-changed-elsewhere', { name: part.name })));
        });
      placeOnShelf(record);
      taken += 1;
    }
    return { taken };
  } catch (error) {
    return { taken, why: error instanceof Error ? error.message : String(error) };
  }
}
