/** What jobs say of styli and their hours. Practice jobs and jobs that are set aside say nothing of a real deck. */
import { sql } from 'kysely';
import { epochAt, epochsOf, type Fitting } from '../core/job/epochs.ts';
import { typedValue } from '../core/job/fields/quantity.ts';
import { readableOf } from '../core/job/stations/index.ts';
import { type IntakeTyped, intakeFields } from '../core/job/stations/intake.ts';
import type { StylusFact } from '../core/job/stylusHours.ts';
import { fittingOf } from './rows.ts';
import type { JobRow, StationRow } from './tables.ts';
import type { Tx } from './transaction.ts';

/** Jobs of a deck that are gone through: the newest. */
export const MOST_VISITS = 50;
/** Ids in one statement. */
export const AT_ONCE = 500;

export async function inParts<T>(ids: readonly string[], ask: (some: readonly string[]) => Promise<T[]>): Promise<T[]> {
  const found: T[] = [];
  for (let from = 0; from < ids.length; from += AT_ONCE) found.push(...(await ask(ids.slice(from, from + AT_ONCE))));
  return found;
}

export const realJobs = (tx: Tx) => tx.selectFrom('jobs').where('practice', '=', 0).where('set_aside_at', 'is', null);

/** Stations of a kind where something holding one of the `keys` is typed. */
const typedRows = (tx: Tx, station: 'intake' | 'hand-over', keys: readonly string[]) =>
  tx
    .selectFrom('stations')
    .select(['job_id', 'data_json'])
    .where('station', '=', station)
    // as the index of those has it
    .where(sql<boolean>`data_json <> '{}'`)
    .where((row) => row.or(keys.map((key) => row('data_json', 'like', `%"${key}"%`))));

const readTyped = <Typed>(station: 'intake' | 'hand-over', rows: readonly Pick<StationRow, 'job_id' | 'data_json'>[]) =>
  new Map(
    rows.flatMap(({ job_id, data_json }) => {
      try {
        return [[job_id, readableOf(station, JSON.parse(data_json)) as Typed] as const];
      } catch {
        // it is listed as unreadable where jobs are listed
        return [];
      }
    }),
  );

/** What is typed at a station of these jobs, where one of the `keys` is. @param jobs null: of all */
export async function typedAt<Typed>(
  tx: Tx,
  station: 'intake' | 'hand-over',
  keys: readonly (string & keyof Typed)[],
  jobs: readonly string[] | null,
): Promise<ReadonlyMap<string, Typed>> {
  const rows = typedRows(tx, station, keys);
  return readTyped(
    station,
    await (jobs === null ? rows.execute() : inParts(jobs, (ids) => rows.where('job_id', 'in', ids).execute())),
  );
}

/** What is typed at Intake of these jobs, as far as it tells of a stylus. */
export const intakeOf = (tx: Tx, jobs: readonly string[]) =>
  typedAt<IntakeTyped>(tx, 'intake', ['cartridge', 'stylusHours'], jobs);

export interface DeckJob {
  readonly row: Pick<JobRow, 'id' | 'number' | 'created_at'>;
  readonly deck: { readonly id: string; readonly name: string };
}

export async function stylusFacts(tx: Tx, jobs: readonly DeckJob[]): Promise<readonly StylusFact[]> {
  const ids = jobs.map(({ row }) => row.id);
  const intake = await intakeOf(tx, ids);
  const fittings = new Map<string, Fitting[]>();
  const rows = await inParts(ids, (some) =>
    tx
      .selectFrom('fittings')
      .selectAll()
      .where('job_id', 'in', some)
      .where('kind', 'in', ['cartridge', 'stylus'])
      .execute(),
  );
  for (const row of rows) fittings.set(row.job_id, [...(fittings.get(row.job_id) ?? []), fittingOf(row)]);
  return jobs.flatMap(({ row, deck }): StylusFact[] => {
    const typed = intake.get(row.id);
    const fitted = fittings.get(row.id) ?? [];
    // most jobs fit nothing
    const epochs = fitted.length === 0 ? null : epochsOf(fitted);
    const received = epochs?.[0].fitted.cartridge ?? typed?.cartridge?.trim() ?? '';
    const hours = typedValue(typed?.stylusHours, intakeFields.stylusHours);
    const told = { deck, job: row.number };
    return [
      ...(received === '' && hours === null
        ? []
        : [{ ...told, at: row.created_at, what: 'received' as const, cartridge: received, stylus: '', hours }]),
      ...(epochs === null
        ? []
        : fitted.map((one) => ({
            ...told,
            at: one.at,
            what: 'fitted' as const,
            cartridge: epochAt(epochs, one.at).fitted.cartridge ?? received,
            stylus: one.kind === 'stylus' ? one.name : '',
            hours: one.hours,
          }))),
    ];
  });
}
