/** Questions over many jobs: a deck's figures, the styli and their hours, what is due. Practice jobs tell nothing of a real deck. */
import { sql } from 'kysely';
import { sidesOf } from '../core/job/beforeAfter.ts';
import { type DeckHistory, type DeckVisit, deckFigures } from '../core/job/deckHistory.ts';
import { type DueFact, type DueList, dueRows } from '../core/job/dueList.ts';
import { epochAt, epochNow, epochsOf, type Fitting } from '../core/job/epochs.ts';
import { typedValue } from '../core/job/fields/quantity.ts';
import { type HandOverTyped, handOverFields } from '../core/job/stations/handOver.ts';
import { readableOf } from '../core/job/stations/index.ts';
import { type IntakeTyped, intakeFields } from '../core/job/stations/intake.ts';
import { type Stylus, type StylusFact, type StylusLedger, styliOf } from '../core/job/stylusHours.ts';
import { found, type Held, notFound } from './answers.ts';
import { readHeard, readLimits } from './readJob.ts';
import { deckOf, fittingOf } from './rows.ts';
import type { JobRow, StationRow } from './tables.ts';
import type { Tx } from './transaction.ts';

/** Jobs of a deck that are gone through: the newest. */
const MOST_VISITS = 50;
/** Rows that a list shows; what is longer says so. */
const MOST_ROWS = 500;
/** Each of them rests on all jobs of its deck. */
const MOST_STYLI = 200;

/** Ids in one statement. */
const AT_ONCE = 500;

async function inParts<T>(ids: readonly string[], ask: (some: readonly string[]) => Promise<T[]>): Promise<T[]> {
  const found: T[] = [];
  for (let from = 0; from < ids.length; from += AT_ONCE) found.push(...(await ask(ids.slice(from, from + AT_ONCE))));
  return found;
}

type KeysOf<Typed> = readonly (string & keyof Typed)[];

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

/** What is typed at Intake of these jobs, as far as it tells of a stylus. */
async function intakeOf(tx: Tx, jobs: readonly string[]): Promise<ReadonlyMap<string, IntakeTyped>> {
  const keys: KeysOf<IntakeTyped> = ['cartridge', 'stylusHours'];
  return readTyped(
    'intake',
    await inParts(jobs, (ids) => typedRows(tx, 'intake', keys).where('job_id', 'in', ids).execute()),
  );
}

/** What is typed at Hand over of a next check, by job. */
async function checksSet(tx: Tx): Promise<ReadonlyMap<string, HandOverTyped>> {
  const keys: KeysOf<HandOverTyped> = ['dueHours', 'dueDate'];
  return readTyped('hand-over', await typedRows(tx, 'hand-over', keys).execute());
}

async function visitOf(tx: Tx, row: JobRow, intake: IntakeTyped | undefined): Promise<DeckVisit> {
  const { recordings, captures, fittings } = await readHeard(tx, row);
  const epochs = epochsOf(fittings);
  const typed = intake?.cartridge?.trim() ?? '';
  const received = epochs[0].fitted.cartridge ?? typed;
  return {
    number: row.number,
    cartridge: { received, left: epochNow(epochs).fitted.cartridge ?? received },
    ...sidesOf(recordings, captures),
  };
}

/** A deck's figures over its jobs, the newest fifty of them. */
export async function readDeckHistory(tx: Tx, deckId: string): Promise<Held<DeckHistory>> {
  const deck = await tx.selectFrom('decks').selectAll().where('id', '=', deckId).executeTakeFirst();
  if (deck === undefined) return notFound(`There is no deck ${deckId}.`);
  const all = await tx
    .selectFrom('jobs')
    .selectAll()
    .where('deck_id', '=', deckId)
    .where('set_aside_at', 'is', null)
    .orderBy('number', 'desc')
    .execute();
  const real = all.filter(({ practice }) => practice === 0);
  const jobs = real.length === 0 ? all : real;
  const visited = jobs
    .slice(0, MOST_VISITS)
    .sort((a, b) => a.created_at.localeCompare(b.created_at) || a.number - b.number);
  const intake = await intakeOf(
    tx,
    visited.map(({ id }) => id),
  );
  const visits: DeckVisit[] = [];
  for (const row of visited) visits.push(await visitOf(tx, row, intake.get(row.id)));
  const newest = visited.at(-1);
  const { limits } = newest === undefined ? { limits: {} } : await readLimits(tx, newest.id);
  return found({
    deck: deckOf(deck),
    jobs: visited.map(({ id, number, title, created_at }) => ({ id, number, title, begun: created_at })),
    older: jobs.length - visited.length,
    figures: [...deckFigures(visits, limits)],
  });
}

interface DeckJob {
  readonly row: Pick<JobRow, 'id' | 'number' | 'customer' | 'created_at'>;
  readonly deck: { readonly id: string; readonly name: string };
}

const ofRealDecks = (tx: Tx) =>
  tx
    .selectFrom('jobs')
    .innerJoin('decks', 'decks.id', 'jobs.deck_id')
    .select(['jobs.id', 'jobs.number', 'jobs.customer', 'jobs.created_at', 'decks.id as deck_id', 'decks.name as deck'])
    .where('jobs.practice', '=', 0)
    .where('jobs.set_aside_at', 'is', null);

/** Jobs of real decks. @param decks null: of all */
async function deckJobs(tx: Tx, decks: readonly string[] | null): Promise<readonly DeckJob[]> {
  const rows =
    decks === null
      ? await ofRealDecks(tx).execute()
      : await inParts(decks, (ids) => ofRealDecks(tx).where('jobs.deck_id', 'in', ids).execute());
  return rows.map(({ deck_id, deck, ...row }) => ({ row, deck: { id: deck_id, name: deck } }));
}

async function readStyli(tx: Tx, jobs: readonly DeckJob[]): Promise<readonly Stylus[]> {
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
  const facts = jobs.flatMap(({ row, deck }): StylusFact[] => {
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
  return styliOf(facts);
}

const realJobs = (tx: Tx) => tx.selectFrom('jobs').where('practice', '=', 0).where('set_aside_at', 'is', null);

/** The decks that were here last, so many of them; null: there are no more. */
async function newestDecks(tx: Tx, most: number): Promise<readonly string[] | null> {
  const decks = new Set<string>();
  for (let before: number | undefined; decks.size < most; ) {
    let query = realJobs(tx).select(['number', 'deck_id']).orderBy('number', 'desc').limit(AT_ONCE);
    if (before !== undefined) query = query.where('number', '<', before);
    const rows = await query.execute();
    for (const { deck_id } of rows) if (decks.size < most) decks.add(deck_id);
    if (rows.length < AT_ONCE) return decks.size < most ? null : [...decks];
    before = rows[rows.length - 1].number;
  }
  return [...decks];
}

/** Every stylus with its hours, the last noted first. @param most more of them than that are not told; left out: those of the decks that were here last */
export async function readStylusLedger(tx: Tx, most = MOST_STYLI): Promise<StylusLedger> {
  const decks = Number.isFinite(most) ? await newestDecks(tx, most) : null;
  const jobs = await deckJobs(tx, decks);
  const styli = await readStyli(tx, jobs);
  const all =
    decks === null
      ? null
      : await realJobs(tx)
          .select((row) => row.fn.countAll().as('n'))
          .executeTakeFirst();
  return {
    styli: styli.slice(0, most),
    more: Math.max(0, styli.length - most),
    older: all === null ? 0 : Number(all?.n ?? 0) - jobs.length,
  };
}

/** The newest job of each of these decks, of the real ones. */
async function newestOf(tx: Tx, decks: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const rows = await inParts(decks, (ids) =>
    tx
      .selectFrom('jobs')
      .select(['deck_id', (job) => job.fn.max('number').as('number')])
      .where('deck_id', 'in', ids)
      .where('practice', '=', 0)
      .where('set_aside_at', 'is', null)
      .groupBy('deck_id')
      .execute(),
  );
  return new Map(rows.map(({ deck_id, number }) => [deck_id, Number(number)]));
}

/**
 * What the newest job of each deck says of its next check: of the jobs that set one, and of the decks of those.
 *
 * @param today in the bench's own zone, 2027-03-01
 */
export async function readDueList(tx: Tx, today: string, most = MOST_ROWS): Promise<DueList> {
  const set = await checksSet(tx);
  const rows = await inParts([...set.keys()], (ids) => ofRealDecks(tx).where('jobs.id', 'in', ids).execute());
  const newest = await newestOf(tx, [...new Set(rows.map(({ deck_id }) => deck_id))]);
  const last = rows.filter(({ deck_id, number }) => newest.get(deck_id) === number);
  const facts = last.map(({ id, number, customer, deck_id, deck }): DueFact => {
    const { dueDate = '', dueHours } = set.get(id) ?? {};
    const hours = typedValue(dueHours, handOverFields.dueHours);
    const date = dueDate === '' ? null : dueDate;
    return { deck: { id: deck_id, name: deck }, job: { id, number }, owner: customer, date, hours };
  });
  const styli = await readStyli(
    tx,
    await deckJobs(
      tx,
      last.map(({ deck_id }) => deck_id),
    ),
  );
  const due = dueRows(facts, styli, today);
  return { today, due: due.slice(0, most), more: Math.max(0, due.length - most) };
}
