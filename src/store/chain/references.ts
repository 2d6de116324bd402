/** Reference recordings: known by their fingerprint, with the record file that is their certificate and the day that ends it. */
import {
  type ChainReading,
  type NewReference,
  newReferenceSchema,
  type ReferenceChange,
  type ReferenceList,
} from '../../core/job/chains/chain.ts';
import { checkSentence } from '../../core/job/checkSentence.ts';
import { applyLeaves } from '../../core/job/leafPaths.ts';
import { dayNumber, dayText } from '../../core/units/day.ts';
import { type Change, found, type Held, notFound } from '../answers.ts';
import type { ReferenceRow } from '../tables.ts';
import type { Origin, Tx } from '../transaction.ts';

/** A certificate that ends within so many days is told beforehand. */
const SOON_DAYS = 30;

const toldOf = ({ fingerprint, name, record_key, record, certificate, expires }: ReferenceRow): NewReference => ({
  fingerprint,
  name,
  record: { key: record_key, name: record },
  certificate,
  expires,
});

const rowOf = (tx: Tx, fingerprint: string) =>
  tx.selectFrom('reference_recordings').selectAll().where('fingerprint', '=', fingerprint).executeTakeFirst();

/** One that is there already is told anew: a certificate was renewed. */
export async function addReference(tx: Tx, wanted: NewReference, origin: Origin): Promise<void> {
  const { fingerprint, name, record, certificate, expires } = wanted;
  const row = { name, record_key: record.key, record: record.name, certificate, expires };
  await tx
    .insertInto('reference_recordings')
    .values({ fingerprint, ...row, added_at: origin.now() })
    .onConflict((conflict) => conflict.column('fingerprint').doUpdateSet(row))
    .execute();
}

/** Changes it by leaf path; where there is none, a whole one makes it. */
export async function changeReference(
  tx: Tx,
  fingerprint: string,
  { changes }: ReferenceChange,
  origin: Origin,
): Promise<Change<NewReference, NewReference | null>> {
  const row = await rowOf(tx, fingerprint);
  const before = row === undefined ? null : toldOf(row);
  const { fingerprint: _, ...typed } = before ?? { fingerprint };
  const applied = applyLeaves(typed, changes);
  if (applied.outcome === 'conflict') return { outcome: 'conflict', current: before, conflicts: applied.conflicts };
  // one of which only some leaves are sent was removed elsewhere meanwhile
  if (before === null && changes.some(({ was }) => was !== undefined))
    return { outcome: 'conflict', current: null, conflicts: [] };
  const checked = newReferenceSchema.safeParse({ ...applied.document, fingerprint });
  if (!checked.success) return { outcome: 'refused', why: checkSentence(checked.error) };
  await addReference(tx, checked.data, origin);
  return { outcome: 'changed', value: checked.data };
}

export async function removeReference(tx: Tx, fingerprint: string): Promise<Held<null>> {
  const [{ numDeletedRows }] = await tx
    .deleteFrom('reference_recordings')
    .where('fingerprint', '=', fingerprint)
    .execute();
  return Number(numDeletedRows) === 0
    ? notFound(`There is no reference recording of the fingerprint ${fingerprint}.`)
    : found(null);
}

/** @param today 2027-03-01 */
export async function listReferences(tx: Tx, today: string): Promise<ReferenceList> {
  const rows = await tx
    .selectFrom('reference_recordings')
    .selectAll()
    .orderBy('expires')
    .orderBy('fingerprint')
    .execute();
  const soon = dayText(dayNumber(today) + SOON_DAYS);
  return {
    references: rows.map((row) => ({
      ...toldOf(row),
      addedAt: row.added_at,
      state: row.expires < today ? 'expired' : row.expires <= soon ? 'soon' : 'holds',
    })),
  };
}

type Bare = Omit<ChainReading, 'reference' | 'certificateUntil'>;

/** Which of these readings are reference recordings, and how long the certificates of their record files hold. */
export async function withReferences(tx: Tx, readings: readonly Bare[]): Promise<ChainReading[]> {
  const fingerprints = [...new Set(readings.flatMap(({ fingerprint }) => fingerprint ?? []))];
  const keys = [...new Set(readings.flatMap(({ record }) => record?.key ?? []))];
  const names =
    fingerprints.length === 0
      ? []
      : await tx
          .selectFrom('reference_recordings')
          .select(['fingerprint', 'name'])
          .where('fingerprint', 'in', fingerprints)
          .execute();
  const ends =
    keys.length === 0
      ? []
      : await tx
          .selectFrom('reference_recordings')
          .select(['record_key', (row) => row.fn.max('expires').as('until')])
          .where('record_key', 'in', keys)
          .groupBy('record_key')
          .execute();
  const nameOf = new Map(names.map(({ fingerprint, name }) => [fingerprint, name]));
  const untilOf = new Map(ends.map(({ record_key, until }) => [record_key, until]));
  return readings.map((reading) => ({
    ...reading,
    reference: nameOf.get(reading.fingerprint ?? '') ?? null,
    certificateUntil: untilOf.get(reading.record?.key ?? '') ?? null,
  }));
}
