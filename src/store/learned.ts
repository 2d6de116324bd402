/** What the jobs in the store teach of a record: the first reading of each deck that it was played on. */
import { type DeckReading, deckReading, learnRecord } from '../core/advise/budget/learnRecord.ts';
import type { Learned } from '../core/job/api.ts';
import type { DocumentHead } from './rows.ts';
import { inParts } from './styli.ts';
import type { Tx } from './transaction.ts';

/** Decks that teach: those that heard it last. More of them make the mean no surer than the record itself is. */
const MOST_DECKS = 200;

/** The first recording of each deck. Sides that were set aside and those of the practice deck teach nothing. */
async function firstOfDecks(tx: Tx, key: string): Promise<readonly string[]> {
  const rows = await tx
    .selectFrom('captures')
    .innerJoin('jobs', 'jobs.id', 'captures.job_id')
    .select(['captures.id', 'jobs.deck_id'])
    .where('captures.record_key', '=', key)
    .where('captures.practice', '=', 0)
    .where('jobs.practice', '=', 0)
    .where('jobs.set_aside_at', 'is', null)
    .where('captures.set_aside_at', 'is', null)
    .orderBy('captures.heard_at')
    .orderBy('captures.id')
    .execute();
  const first = new Map<string, string>();
  for (const { id, deck_id } of rows) {
    const known = first.get(deck_id) ?? id;
    // set anew, so that those that heard it last come last
    first.delete(deck_id);
    first.set(deck_id, known);
  }
  return [...first.values()].slice(-MOST_DECKS);
}

export async function readLearned(tx: Tx, key: string): Promise<Learned> {
  const rows = await inParts(await firstOfDecks(tx, key), (ids) =>
    tx.selectFrom('captures').select(['document_json']).where('id', 'in', ids).orderBy('id').execute(),
  );
  const readings: DeckReading[] = [];
  let name = '';
  for (const row of rows) {
    const { record, findings } = JSON.parse(row.document_json) as DocumentHead;
    name = record?.name ?? name;
    readings.push(deckReading(findings));
  }
  const read = learnRecord({ name, key }, readings);
  return { learned: read.ok ? read.learned : null, decks: readings.length };
}
