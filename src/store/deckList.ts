/** Decks by the page, in the order of their names, each with its jobs. */
import type { DeckList, DecksQuery } from '../core/job/api.ts';
import { plainName, searchWords } from '../core/job/searchWords.ts';
import { isRare, LAST } from './jobList.ts';
import { deckOf } from './rows.ts';
import type { DeckRow } from './tables.ts';
import type { Tx } from './transaction.ts';

/** Decks whose jobs are fetched at once; a statement may bind a few thousand values. */
const ROWS_AT_ONCE = 500;

async function rowsOf(tx: Tx, { named, words = '', after, limit }: DecksQuery): Promise<DeckRow[]> {
  let query = tx.selectFrom('decks').selectAll().orderBy('name').orderBy('id');
  if (named !== undefined) query = query.where('plain', '=', plainName(named));
  if (limit !== undefined) query = query.limit(limit);
  if (after !== undefined) {
    const last = await tx.selectFrom('decks').select(['id', 'name']).where('id', '=', after).executeTakeFirst();
    // one that was deleted meanwhile has no place any more
    if (last === undefined) return [];
    query = query.where((deck) =>
      deck.and([
        // said once alone, so that the index is entered at its place
        deck('name', '>=', last.name),
        deck.or([deck('name', '>', last.name), deck('id', '>', last.id)]),
      ]),
    );
  }
  for (const word of searchWords(words)) {
    const rare = await isRare(tx, word);
    query = query.where((deck) => {
      const beginning = deck
        .selectFrom('words')
        .where('word', '>=', word)
        .where('word', '<', word + LAST);
      return rare
        ? deck('decks.id', 'in', beginning.select('words.deck_id').$castTo<{ deck_id: string }>())
        : deck(beginning.select('word').whereRef('words.deck_id', '=', 'decks.id').limit(1), 'is not', null);
    });
  }
  return query.execute();
}

async function jobsOf(tx: Tx, decks: readonly string[]): Promise<ReadonlyMap<string, string[]>> {
  const jobs = new Map<string, string[]>(decks.map((id) => [id, []]));
  for (let from = 0; from < decks.length; from += ROWS_AT_ONCE) {
    const rows = await tx
      .selectFrom('jobs')
      .select(['id', 'deck_id'])
      .where('deck_id', 'in', decks.slice(from, from + ROWS_AT_ONCE))
      .orderBy('number', 'desc')
      .execute();
    for (const { id, deck_id } of rows) jobs.get(deck_id)?.push(id);
  }
  return jobs;
}

export async function listDecks(tx: Tx, query: DecksQuery = {}): Promise<DeckList> {
  const { limit } = query;
  // one more than asked for tells whether there is another page
  const rows = await rowsOf(tx, limit === undefined ? query : { ...query, limit: limit + 1 });
  const wanted = limit === undefined ? rows : rows.slice(0, limit);
  const jobs = await jobsOf(
    tx,
    wanted.map(({ id }) => id),
  );
  const decks = wanted.map((row) => ({ ...deckOf(row), jobs: jobs.get(row.id) ?? [] }));
  return rows.length > wanted.length ? { decks, next: wanted[wanted.length - 1].id } : { decks };
}
