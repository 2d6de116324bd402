/** The person's own library of parts. What a part may say is checked by its kind's schema before it comes here. */
import type { PartChange, PartRecord } from '../core/job/api.ts';
import { type Change, type Found, found, type NotFound, notFound } from './answers.ts';
import { partOf } from './rows.ts';
import type { Origin, Tx } from './transaction.ts';

const noPart = (kind: string, id: string): NotFound => notFound(`There is no ${kind} ${id} in the library.`);

const partRow = (tx: Tx, kind: string, id: string) =>
  tx.selectFrom('parts').selectAll().where('kind', '=', kind).where('id', '=', id).executeTakeFirst();

/** By kind, then by name. */
export async function listParts(tx: Tx, kind?: string): Promise<PartRecord[]> {
  let query = tx.selectFrom('parts').selectAll().orderBy('kind').orderBy('name').orderBy('id');
  if (kind !== undefined) query = query.where('kind', '=', kind);
  return (await query.execute()).map(partOf);
}

export async function readPart(tx: Tx, kind: string, id: string): Promise<Found<PartRecord>> {
  const row = await partRow(tx, kind, id);
  return row === undefined ? noPart(kind, id) : found(partOf(row));
}

/** `revision` 0 makes a new part; otherwise it must be the one that stands there. */
export async function putPart(
  tx: Tx,
  kind: string,
  id: string,
  change: PartChange,
  origin: Origin,
): Promise<Change<PartRecord, PartRecord | null>> {
  const row = await partRow(tx, kind, id);
  if ((row?.revision ?? 0) !== change.revision) {
    return { outcome: 'conflict', current: row === undefined ? null : partOf(row) };
  }
  const { name } = change.data;
  const values = {
    name: typeof name === 'string' ? name : id,
    data_json: JSON.stringify(change.data),
    revision: change.revision + 1,
    updated_at: origin.now(),
  };
  if (row === undefined)
    await tx
      .insertInto('parts')
      .values({ kind, id, ...values })
      .execute();
  else await tx.updateTable('parts').set(values).where('kind', '=', kind).where('id', '=', id).execute();
  return {
    outcome: 'changed',
    value: { kind, id, data: change.data, revision: values.revision, updatedAt: values.updated_at },
  };
}

export async function deletePart(tx: Tx, kind: string, id: string): Promise<Found<null>> {
  const [result] = await tx.deleteFrom('parts').where('kind', '=', kind).where('id', '=', id).execute();
  return Number(result.numDeletedRows) === 0 ? noPart(kind, id) : found(null);
}
