/** Questions over many jobs: a deck's figures, the styli and their hours, what is due. Practice jobs tell nothing of a real deck. */
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
import type { JobRow } from './tables.ts';
import type { Tx } from './transaction.ts';

/** Jobs of a deck that are gone through: the newest. */
const MOST_VISITS = 50;
/** Rows that a list shows; what is longer says so. */
const MOST_ROWS = 500;

/** What is typed at a station, by job; jobs where nothing holding one of the `keys` is typed are left out. */
async function typedAt<Typed>(tx: Tx, station: 'intake' | 'hand-over', keys: readonly (string & keyof Typed)[]) {
  const rows = await tx
    .selectFrom('stations')
    .select(['job_id', 'data_json'])
    .where('station', '=', station)
    .where((row) => row.or(keys.map((key) => row('data_json', 'like', `%"${key}"%`))))
    .execute();
  return new Map(
    rows.flatMap(({ job_id, data_json }) => {
      try {
        return [[job_id, readableOf(station, JSON.parse(data_json)) as Typed] as const];
      } catch {
        // it is listed as unreadable where jobs are listed
        return [];
      }
    }),
  );
}

const intakeOf = (tx: Tx) => typedAt<IntakeTyped>(tx, 'intake', ['cartridge', 'stylusHours']);

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
  const intake = await intakeOf(tx);
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

/** Jobs of real decks, newest number first. */
async function deckJobs(tx: Tx): Promise<readonly DeckJob[]> {
  const rows = await tx
    .selectFrom('jobs')
    .innerJoin('decks', 'decks.id', 'jobs.deck_id')
    .select(['jobs.id', 'jobs.number', 'jobs.customer', 'jobs.created_at', 'decks.id as deck_id', 'decks.name as deck'])
    .where('jobs.practice', '=', 0)
    .where('jobs.set_aside_at', 'is', null)
    .orderBy('jobs.number', 'desc')
    .execute();
  return rows.map(({ deck_id, deck, ...row }) => ({ row, deck: { id: deck_id, name: deck } }));
}

async function readStyli(tx: Tx, jobs: readonly DeckJob[]): Promise<readonly Stylus[]> {
  const intake = await intakeOf(tx);
  const fittings = new Map<string, Fitting[]>();
  const rows = await tx.selectFrom('fittings').selectAll().where('kind', 'in', ['cartridge', 'stylus']).execute();
  for (const row of rows) fittings.set(row.job_id, [...(fittings.get(row.job_id) ?? []), fittingOf(row)]);
  const facts = jobs.flatMap(({ row, deck }): StylusFact[] => {
    const typed = intake.get(row.id);
    const fitted = fittings.get(row.id) ?? [];
    const epochs = epochsOf(fitted);
    const received = epochs[0].fitted.cartridge ?? typed?.cartridge?.trim() ?? '';
    const hours = typedValue(typed?.stylusHours, intakeFields.stylusHours);
    const told = { deck, job: row.number };
    return [
      ...(received === '' && hours === null
        ? []
        : [{ ...told, at: row.created_at, what: 'received' as const, cartridge: received, stylus: '', hours }]),
      ...fitted.map((one) => ({
        ...told,
        at: one.at,
        what: 'fitted' as const,
        cartridge: epochAt(epochs, one.at).fitted.cartridge ?? received,
        stylus: one.kind === 'stylus' ? one.name : '',
        hours: one.hours,
      })),
    ];
  });
  return styliOf(facts);
}

/** Every stylus with its hours, the last noted first. */
export async function readStylusLedger(tx: Tx, most = MOST_ROWS): Promise<StylusLedger> {
  const styli = await readStyli(tx, await deckJobs(tx));
  return { styli: styli.slice(0, most), more: Math.max(0, styli.length - most) };
}

/** What the newest job of each deck says of its next check. @param today in the bench's own zone, 2027-03-01 */
export async function readDueList(tx: Tx, today: string, most = MOST_ROWS): Promise<DueList> {
  const jobs = await deckJobs(tx);
  const typed = await typedAt<HandOverTyped>(tx, 'hand-over', ['dueHours', 'dueDate']);
  const seen = new Set<string>();
  const facts: DueFact[] = [];
  for (const { row, deck } of jobs) {
    if (seen.has(deck.id)) continue;
    seen.add(deck.id);
    const { dueDate = '', dueHours } = typed.get(row.id) ?? {};
    const hours = typedValue(dueHours, handOverFields.dueHours);
    const date = dueDate === '' ? null : dueDate;
    facts.push({ deck, job: { id: row.id, number: row.number }, owner: row.customer, date, hours });
  }
  const due = dueRows(facts, await readStyli(tx, jobs), today);
  return { today, due: due.slice(0, most), more: Math.max(0, due.length - most) };
}
