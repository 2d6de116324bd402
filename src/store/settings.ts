/** Small things that the store remembers by name. */
import type { LastChange } from '../core/job/api.ts';
import { isStationName, type StationName } from '../core/job/station.ts';
import type { Tx } from './transaction.ts';

export async function readSetting(tx: Tx, name: string): Promise<string | undefined> {
  const row = await tx.selectFrom('settings').select('value').where('name', '=', name).executeTakeFirst();
  return row?.value;
}

export async function writeSetting(tx: Tx, name: string, value: string): Promise<void> {
  await tx
    .insertInto('settings')
    .values({ name, value })
    .onConflict((conflict) => conflict.column('name').doUpdateSet({ value }))
    .execute();
}

export interface LastPlace {
  readonly jobId: string;
  readonly station: StationName | null;
}

/** Job and station that stood open when the page was left. */
export async function readLast(tx: Tx): Promise<LastPlace | null> {
  const value = await readSetting(tx, 'last');
  if (value === undefined) return null;
  const [jobId, station = ''] = value.split(' ');
  return { jobId, station: isStationName(station) ? station : null };
}

export const writeLast = (tx: Tx, last: LastChange): Promise<void> =>
  writeSetting(tx, 'last', `${last.jobId} ${last.station}`);
