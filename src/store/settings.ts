/** Small things that the store remembers by name. */
import type { LastChange } from '../core/job/api.ts';
import { type Letterhead, letterheadSchema, noLetterhead } from '../core/job/letterhead.ts';
import { type Shop, shopSchema } from '../core/job/shop.ts';
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

const removeSetting = (tx: Tx, name: string) => tx.deleteFrom('settings').where('name', '=', name).execute();

export interface LastPlace {
  readonly jobId: string;
  readonly station: StationName | null;
}

/** Where each bench of a shared store was left; a bench without a name is the only one of its machine. */
const lastOf = (bench: string): string => (bench === '' ? 'last' : `last ${bench}`);

/** Job and station that stood open when the page of this bench was left. */
export async function readLast(tx: Tx, bench: string): Promise<LastPlace | null> {
  const value = await readSetting(tx, lastOf(bench));
  if (value === undefined) return null;
  const [jobId, station = ''] = value.split(' ');
  return { jobId, station: isStationName(station) ? station : null };
}

export const writeLast = (tx: Tx, bench: string, last: LastChange): Promise<void> =>
  writeSetting(tx, lastOf(bench), `${last.jobId} ${last.station}`);

/** No bench was left at a job that is gone. */
export async function forgetLast(tx: Tx, job: string): Promise<void> {
  const rows = await tx.selectFrom('settings').selectAll().where('name', 'like', 'last%').execute();
  for (const { name, value } of rows) if (value.startsWith(`${job} `)) await removeSetting(tx, name);
}

/** What the shop has set for all its jobs; what cannot be read is as if nothing were set. */
export async function readShop(tx: Tx): Promise<Shop> {
  const value = await readSetting(tx, 'shop');
  if (value === undefined) return {};
  try {
    return shopSchema.parse(JSON.parse(value));
  } catch {
    return {};
  }
}

export const writeShop = (tx: Tx, shop: Shop): Promise<void> => writeSetting(tx, 'shop', JSON.stringify(shop));

/** What another version kept and this one cannot read stays as it is; the reports then go without. */
export async function readLetterhead(tx: Tx): Promise<Letterhead> {
  try {
    return letterheadSchema.parse(JSON.parse((await readSetting(tx, 'letterhead')) ?? '{}'));
  } catch {
    return noLetterhead;
  }
}

export const writeLetterhead = (tx: Tx, letterhead: Letterhead): Promise<void> =>
  writeSetting(tx, 'letterhead', JSON.stringify(letterhead));
