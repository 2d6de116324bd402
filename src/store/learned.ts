/** What the jobs in the store teach of a record: the first reading of each deck that it was played on. */
import { type DeckReading, deckReading, learnRecord } from '../core/advise/budget/learnRecord.ts';
import type { Learned } from '../core/job/api.ts';
import type { DocumentHead } from './rows.ts';
import type { Tx } from './transaction.ts';

/** Sides that were set aside and those of the practice deck teach nothing. */
export async function readLearned(tx: Tx, key: string): Promise<Learned> {
  const rows = await tx
    .selectFrom('captures')
    .innerJoin('jobs', 'jobs.id', 'captures.job_id')
    .select(['captures.document_json', 'jobs.deck_id'])
    .where('captures.practice', '=', 0)
    .where('jobs.practice', '=', 0)
    .where('jobs.set_aside_at', 'is', null)
    .where('captures.set_aside_at', 'is', null)
    .where('captures.document_json', 'like', `%${JSON.stringify(key).replace(/[%_\\]/g, '_')}%`)
    .orderBy('captures.heard_at')
    .orderBy('captures.id')
    .execute();
  const decks = new Map<string, DeckReading>();
  let name = '';
  for (const row of rows) {
    const { record, findings } = JSON.parse(row.document_json) as DocumentHead;
    if (record?.key !== key || decks.has(row.deck_id)) continue;
    name = record.name;
    decks.set(row.deck_id, deckReading(findings));
  }
  const read = learnRecord({ name, key }, [...decks.values()]);
  return { learned: read.ok ? read.learned : null, decks: decks.size };
}
