/** Every stylus with its hours, by pages of decks: those that were here last come first. */
import { type StylusFact, type StylusLedger, styliOf } from '../core/job/stylusHours.ts';
import { inParts, realJobs, stylusFacts } from './styli.ts';
import { type Db, reading, type Tx } from './transaction.ts';

/** What a page of the ledger is asked by. */
export interface LedgerPage {
  /** decks on it */
  readonly limit: number;
  /** as `next` of the page before told it */
  readonly before?: number | undefined;
}

/** Decks of a page when all of them are asked for: others are answered between two pages. */
const DECKS_AT_ONCE = 200;

/** Decks by the number of their newest job. */
async function decksOf(tx: Tx, { limit, before }: LedgerPage) {
  let query = realJobs(tx)
    .select(['jobs.number', 'jobs.deck_id'])
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('jobs as later')
            .select('later.id')
            .whereRef('later.deck_id', '=', 'jobs.deck_id')
            .whereRef('later.number', '>', 'jobs.number')
            .where('later.practice', '=', 0)
            .where('later.set_aside_at', 'is', null),
        ),
      ),
    )
    .orderBy('jobs.number', 'desc')
    // one more than asked for tells whether there is another page
    .limit(limit + 1);
  if (before !== undefined) query = query.where('jobs.number', '<', before);
  const rows = await query.execute();
  const wanted = rows.slice(0, limit);
  return {
    decks: wanted.map(({ deck_id }) => deck_id),
    ...(rows.length > limit ? { next: wanted[limit - 1].number } : {}),
  };
}

/** What all real jobs of these decks say. */
async function factsOf(tx: Tx, decks: readonly string[]): Promise<readonly StylusFact[]> {
  const rows = await inParts(decks, (ids) =>
    tx
      .selectFrom('jobs')
      .innerJoin('decks', 'decks.id', 'jobs.deck_id')
      .select(['jobs.id', 'jobs.number', 'jobs.created_at', 'decks.id as deck_id', 'decks.name as deck'])
      .where('jobs.practice', '=', 0)
      .where('jobs.set_aside_at', 'is', null)
      .where('jobs.deck_id', 'in', ids)
      .execute(),
  );
  return stylusFacts(
    tx,
    rows.map(({ deck_id, deck, ...row }) => ({ row, deck: { id: deck_id, name: deck } })),
  );
}

/** The styli of a page of decks, the last noted first. One that went from deck to deck is known again within a page. */
async function readStylusLedger(tx: Tx, page: LedgerPage): Promise<StylusLedger> {
  const { decks, ...more } = await decksOf(tx, page);
  return { styli: [...styliOf(await factsOf(tx, decks))], ...more };
}

/** The styli of all decks, read page by page, so that a long list keeps nobody waiting. */
async function wholeStylusLedger(db: Db): Promise<StylusLedger> {
  const facts: StylusFact[] = [];
  const seen = new Set<string>();
  for (let before: number | undefined; ; ) {
    const { decks, next } = await reading(db, async (tx) => {
      const page = await decksOf(tx, { limit: DECKS_AT_ONCE, before });
      // a deck that came back meanwhile is on two pages
      const fresh = page.decks.filter((id) => !seen.has(id));
      facts.push(...(await factsOf(tx, fresh)));
      return page;
    });
    for (const id of decks) seen.add(id);
    if (next === undefined) return { styli: [...styliOf(facts)] };
    before = next;
    await new Promise((resolve) => setImmediate(resolve));
  }
}

/** @param page left out: all of them */
export const stylusLedger = (db: Db, page?: LedgerPage): Promise<StylusLedger> =>
  page === undefined ? wholeStylusLedger(db) : reading(db, (tx) => readStylusLedger(tx, page));
