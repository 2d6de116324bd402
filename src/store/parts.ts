/** The person's own library of parts. What a part may say is checked by its kind's schema before it comes here. */

import type { PartChange, PartRecord, StationData } from '../core/job/api.ts';
import { applyLeaves, atPath } from '../core/job/leafPaths.ts';
import { checkPart, faultSentence } from '../core/job/partFault.ts';
import type { Part, PartKind } from '../core/job/parts.ts';
import { checkRecord, RECORD_KIND } from '../core/job/recordFile.ts';
import { sameJson } from '../core/job/sameJson.ts';
import { say, stopped } from '../core/words/statement.ts';
import { type Change, found, type Held, type NotFound, notFound } from './answers.ts';
import { partOf } from './rows.ts';
import type { PartRow } from './tables.ts';
import type { Origin, Tx } from './transaction.ts';

const noPart = (kind: string, id: string): NotFound => notFound(`There is no ${kind} ${id} in the library.`);

const partRow = (tx: Tx, kind: string, id: string) =>
  tx.selectFrom('parts').selectAll().where('kind', '=', kind).where('id', '=', id).executeTakeFirst();

/** What the library keeps: parts, and record files beside them. */
export type LibraryKind = PartKind | typeof RECORD_KIND;

/** @returns what is kept, or why it is not */
function checkKept(kind: LibraryKind, document: StationData): { name: string; data: object } | { why: string } {
  if (kind === RECORD_KIND) {
    const read = checkRecord(document);
    return 'data' in read ? { name: read.sheet.name, data: read.data } : { why: stopped(say(read.faults[0].why)) };
  }
  const checked = checkPart({ ...document, kind }, null);
  return checked.found ? { name: checked.part.name, data: checked.part } : { why: faultSentence(checked.faults[0]) };
}

/** By kind, then by name. */
export async function listParts(tx: Tx, kind?: string): Promise<PartRecord[]> {
  let query = tx.selectFrom('parts').selectAll().orderBy('kind').orderBy('name').orderBy('id');
  if (kind !== undefined) query = query.where('kind', '=', kind);
  return (await query.execute()).map(partOf);
}

/** Another text after every change of the library. */
export async function partsStamp(tx: Tx): Promise<string> {
  const row = await tx
    .selectFrom('parts')
    .select([(parts) => parts.fn.countAll().as('count'), (parts) => parts.fn.sum('revision').as('revisions')])
    .select((parts) => parts.fn.max('updated_at').as('at'))
    .executeTakeFirstOrThrow();
  return `${row.count} ${row.revisions ?? 0} ${row.at ?? ''}`;
}

export async function readPart(tx: Tx, kind: string, id: string): Promise<Held<PartRecord>> {
  const row = await partRow(tx, kind, id);
  return row === undefined ? noPart(kind, id) : found(partOf(row));
}

export const writePart = (tx: Tx, record: Omit<PartRecord, 'data'> & { readonly data: Part }): Promise<void> =>
  writeKept(tx, { ...record, name: record.data.name });

async function writeKept(
  tx: Tx,
  record: Omit<PartRecord, 'data'> & { readonly name: string; readonly data: object },
): Promise<void> {
  const { kind, id, name, data, revision, updatedAt } = record;
  const values = { name, data_json: JSON.stringify(data), revision, updated_at: updatedAt };
  await tx
    .insertInto('parts')
    .values({ kind, id, ...values })
    .onConflict((conflict) => conflict.columns(['kind', 'id']).doUpdateSet(values))
    .execute();
}

export type PartTaken = 'taken' | 'here-already' | 'here-otherwise';

/** A part of another store, as it is there. One of its id that is here stays. */
export async function takePart(tx: Tx, { kind, id, data, revision, updatedAt }: PartRecord): Promise<PartTaken> {
  const there = await partRow(tx, kind, id);
  if (there !== undefined) return sameJson(partOf(there).data, data) ? 'here-already' : 'here-otherwise';
  const name = typeof data.name === 'string' ? data.name : id;
  await writeKept(tx, { kind, id, name, data, revision, updatedAt });
  return 'taken';
}

/** Changes a part by leaf path; where there is none, a whole one makes it. */
export async function changePart(
  tx: Tx,
  kind: LibraryKind,
  id: string,
  { changes }: PartChange,
  origin: Origin,
): Promise<Change<PartRecord, PartRecord | null>> {
  const row = await partRow(tx, kind, id);
  const before = row === undefined ? null : partOf(row);
  const applied = applyLeaves(before?.data ?? {}, changes);
  if (applied.outcome === 'conflict') return { outcome: 'conflict', current: before, conflicts: applied.conflicts };
  const checked = checkKept(kind, applied.document);
  if ('why' in checked) {
    // a part of which only some leaves are sent was deleted elsewhere meanwhile
    if (before === null && atPath(applied.document, ['name']) === undefined) {
      return { outcome: 'conflict', current: null, conflicts: [] };
    }
    return { outcome: 'refused', why: checked.why };
  }
  if (before !== null && sameJson(before.data, checked.data)) return { outcome: 'changed', value: before };
  await writeKept(tx, {
    kind,
    id,
    ...checked,
    revision: (before?.revision ?? 0) + 1,
    updatedAt: origin.now(),
  });
  return { outcome: 'changed', value: partOf((await partRow(tx, kind, id)) as PartRow) };
}

export async function deletePart(tx: Tx, kind: string, id: string): Promise<Held<null>> {
  const [result] = await tx.deleteFrom('parts').where('kind', '=', kind).where('id', '=', id).execute();
  return Number(result.numDeletedRows) === 0 ? noPart(kind, id) : found(null);
}
