/** Everything of one store taken over into another, of whichever kind: ids stay, nothing there is overwritten, twice does no harm. */
import type { JobFile } from '../core/job/jobFile.ts';
import { noLetterhead } from '../core/job/letterhead.ts';
import { sameJson } from '../core/job/sameJson.ts';
import { type Carried, carriedTables } from './carry.ts';
import type { Store, StoreToRead } from './store.ts';
import type { Imported } from './transfer.ts';

const JOBS_AT_ONCE = 200;

export interface Copied {
  /** jobs taken over, and those that were there with the same content */
  readonly jobs: number;
  readonly there: number;
  /** old and new number of jobs whose number another job has there */
  readonly renumbered: readonly (readonly [from: number, to: number])[];
  /** numbers of jobs that are there and say something else; they stay as they are on either side */
  readonly otherwise: readonly number[];
  readonly unreadable: readonly string[];
  readonly parts: number;
  /** parts that are there and say something else */
  readonly partsOtherwise: number;
  readonly settings: readonly ('letterhead' | 'shop')[];
  /** rows of chains, reference recordings and batches that there were none of yet */
  readonly carried: Readonly<Record<Carried, number>>;
}

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] };
type Counting = Mutable<Copied> & {
  renumbered: (readonly [number, number])[];
  otherwise: number[];
  unreadable: string[];
  settings: ('letterhead' | 'shop')[];
  carried: Record<Carried, number>;
};

function count(copied: Counting, file: JobFile, { outcome, number }: Imported): void {
  if (outcome === 'here-already') copied.there += 1;
  else if (outcome === 'here-otherwise') copied.otherwise.push(file.job.number);
  else {
    copied.jobs += 1;
    if (number !== file.job.number) copied.renumbered.push([file.job.number, number]);
  }
}

async function copyLibrary(from: StoreToRead, to: Store, copied: Counting): Promise<void> {
  for (const part of await from.parts()) {
    const outcome = await to.takePart(part);
    if (outcome === 'taken') copied.parts += 1;
    else if (outcome === 'here-otherwise') copied.partsOtherwise += 1;
  }
  const [letterhead, shop] = [await from.letterhead(), await from.shop()];
  if (!sameJson(letterhead, noLetterhead) && sameJson(await to.letterhead(), noLetterhead)) {
    await to.setLetterhead(letterhead);
    copied.settings.push('letterhead');
  }
  if (!sameJson(shop, {}) && sameJson(await to.shop(), {})) {
    await to.setShop(shop);
    copied.settings.push('shop');
  }
}

/** Each job in a transaction of its own, oldest first, so that numbers are given out as they were. @param madeBy product and version */
export async function copyJobs(from: StoreToRead, to: Store, madeBy: string): Promise<Copied> {
  const copied: Counting = {
    jobs: 0,
    there: 0,
    renumbered: [],
    otherwise: [],
    unreadable: [],
    parts: 0,
    partsOtherwise: 0,
    settings: [],
    carried: Object.fromEntries(carriedTables.map((table) => [table, 0])) as Record<Carried, number>,
  };
  const ids: { readonly id: string; readonly number: number }[] = [];
  for (let before: number | undefined; ; ) {
    const page = await from.jobs({ limit: JOBS_AT_ONCE, ...(before === undefined ? {} : { before }) });
    ids.push(...page.jobs);
    copied.unreadable.push(...page.unreadable.map(({ number, id, why }) => `job ${number ?? id}: ${why}`));
    before = page.next;
    if (before === undefined) break;
  }
  for (const { id, number } of ids.reverse()) {
    try {
      const file = await from.exportJob(id, madeBy, { asKept: true });
      // it may be deleted while the others are read
      if (file.outcome === 'found') count(copied, file.value, await to.importJob(file.value, { asKept: true }));
    } catch (error) {
      if (!(error instanceof SyntaxError)) throw error;
      copied.unreadable.push(`job ${number}: ${error.message}`);
    }
  }
  await copyLibrary(from, to, copied);
  for (const table of carriedTables)
    for (let after: string | null = null; ; ) {
      const { rows, next } = await from.carryOut(table, after);
      if (rows.length > 0) copied.carried[table] += await to.carryIn(table, rows);
      if (next === null) break;
      after = next;
    }
  return copied;
}
