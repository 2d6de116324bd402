/** Recordings and the record file that they were played from, put among what is to be measured. */
import { chainNamed } from '../chain/chainList.ts';
import type { Origin, Tx } from '../transaction.ts';

/** A recording as it was found. */
export interface FoundFile {
  readonly root: string;
  readonly path: string;
  readonly bytes: number;
  readonly modifiedMs: number;
}

export interface AddedFiles {
  readonly added: number;
  /** there already, as they were */
  readonly there: number;
  /** there, and other bytes lie there now: to be measured anew */
  readonly changed: number;
}

export async function addRecord(
  tx: Tx,
  record: { readonly id: string; readonly name: string; readonly text: string },
  origin: Origin,
): Promise<void> {
  await tx
    .insertInto('batch_records')
    .values({ ...record, added_at: origin.now() })
    .onConflict((conflict) => conflict.doNothing())
    .execute();
}

/** A recording that is there already with the same length and time is left as it is, and told of its chain where one is named. */
export async function addFiles(
  tx: Tx,
  { record, chain, files }: { readonly record: string; readonly chain: string; readonly files: readonly FoundFile[] },
  origin: Origin,
): Promise<AddedFiles> {
  const counts = { added: 0, there: 0, changed: 0 };
  if (chain !== '') await chainNamed(tx, chain, origin);
  for (const { root, path, bytes, modifiedMs } of files) {
    const there = await tx
      .selectFrom('batch_files')
      .select(['id', 'bytes', 'modified_ms', 'chain'])
      .where('root', '=', root)
      .where('path', '=', path)
      .where('record', '=', record)
      .executeTakeFirst();
    const recorded_at = new Date(modifiedMs).toISOString();
    const fresh = { state: 'open' as const, tries: 0, token: null, lease_until: null, not_before: 0, why: '' };
    if (there === undefined) {
      const row = {
        id: origin.newId(),
        root,
        path,
        record,
        chain,
        bytes,
        modified_ms: modifiedMs,
        recorded_at,
        worker: '',
      };
      await tx
        .insertInto('batch_files')
        .values({ ...row, ...fresh, fingerprint: null, added_at: origin.now() })
        .execute();
      counts.added += 1;
    } else if (there.bytes === bytes && there.modified_ms === modifiedMs) {
      counts.there += 1;
      // what played it may be said later
      if (chain !== '' && there.chain !== chain)
        await tx.updateTable('batch_files').set({ chain }).where('id', '=', there.id).execute();
    } else {
      await tx
        .updateTable('batch_files')
        .set({
          ...fresh,
          bytes,
          modified_ms: modifiedMs,
          recorded_at,
          fingerprint: null,
          ...(chain === '' ? {} : { chain }),
        })
        .where('id', '=', there.id)
        .execute();
      counts.changed += 1;
    }
  }
  return counts;
}
