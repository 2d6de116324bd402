/** A deck's figures over its jobs. Practice jobs tell nothing of a real deck. */
import { sidesOf } from '../core/job/beforeAfter.ts';
import { type DeckHistory, type DeckVisit, deckFigures } from '../core/job/deckHistory.ts';
import { epochNow, epochsOf } from '../core/job/epochs.ts';
import type { IntakeTyped } from '../core/job/stations/intake.ts';
import { found, type Held, notFound } from './answers.ts';
import { readHeard, readLimits } from './readJob.ts';
import { deckOf } from './rows.ts';
import { intakeOf, MOST_VISITS } from './styli.ts';
import type { JobRow } from './tables.ts';
import type { Tx } from './transaction.ts';

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
