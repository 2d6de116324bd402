/**
 * One machine's work on batches: so many recordings at once, each claimed, its claim kept alive, its result kept with the
 * claim in one step. What measures a recording is given.
 */
import type { SideDocument } from '../core/advise/document.ts';
import type { BatchStore, ClaimedWork, FileWork, SideWork } from '../store/batch/batchStore.ts';
import { type Claimer, LEASE_MS } from '../store/batch/claim.ts';
import { StoreAway } from '../store/storeError.ts';
import { pathHere, type Root } from './roots.ts';

/** What a worker does with a file, in a thread of its own. */
export interface Hands {
  fingerprint(file: string): Promise<string>;
  /** @param record text of the record file @param sha256 what the file holds; another content is refused */
  measure(file: string, record: string, sha256: string): Promise<SideDocument>;
}

export interface WorkOptions {
  readonly store: BatchStore;
  readonly roots: readonly Root[];
  /** one for each recording that is worked on at once */
  readonly hands: readonly Hands[];
  readonly method: string;
  /** machine and process, for people */
  readonly worker: string;
  readonly newToken: () => string;
  readonly leaseMs?: number;
  /** set `stopped` to give back what is under way and end */
  readonly signal?: { readonly stopped: boolean };
  readonly onDone?: (path: string, document: SideDocument) => void;
  /** a try that failed, and why */
  readonly onFailure?: (path: string, why: string) => void;
  /** the database does not answer, or does again */
  readonly onAway?: (away: boolean) => void;
}

/** Between two looks whether there is work, and after the database did not answer, ms. */
const PAUSE_MS = 300;
const AWAY_MS = 1_000;

const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));
const said = (error: unknown): string => (error instanceof Error ? error.message : String(error)).split('\n')[0];

/** Works until nothing is left within these roots that this machine or another one may yet do. @returns sides measured here */
export async function workOn(options: WorkOptions): Promise<number> {
  let measured = 0;
  let isAway = false;
  // told once, however many hands meet it
  const away = (now: boolean): void => {
    if (now !== isAway) options.onAway?.(now);
    isAway = now;
  };
  const told = { ...options, onAway: away };
  const one = async (hands: Hands): Promise<void> => {
    while (options.signal?.stopped !== true) {
      try {
        const did = await nextTask(told, hands);
        away(false);
        if (did === 'measured') measured += 1;
        if (did !== null) continue;
        if ((await options.store.left(options.method, names(options.roots))) === 0) return;
        await sleep(PAUSE_MS);
      } catch (error) {
        if (!(error instanceof StoreAway)) throw error;
        away(true);
        await sleep(AWAY_MS);
      }
    }
  };
  await Promise.all(options.hands.map(one));
  return measured;
}

const names = (roots: readonly Root[]): string[] => roots.map(({ name }) => name);

/** Sides first, so that what has a fingerprint is not kept waiting by what has none. @returns null where nothing could be claimed */
async function nextTask(options: WorkOptions, hands: Hands): Promise<'measured' | 'other' | null> {
  const { store, roots, method, worker, newToken, leaseMs = LEASE_MS } = options;
  const claimer = (): Claimer => ({ token: newToken(), worker, leaseMs });
  const side = await store.claimSide(claimer(), method, names(roots));
  if (side !== null) return measureSide(options, hands, side);
  const file = await store.claimFile(claimer(), names(roots));
  if (file === null) return null;
  const path = pathHere(file.root, file.path, roots) as string;
  const fingerprint = await kept(options, file, path, () => hands.fingerprint(path));
  if (fingerprint === null) return 'other';
  const own = await store.fingerprinted(file, fingerprint, method, claimer());
  return own === null ? 'other' : measureSide(options, hands, own);
}

async function measureSide(options: WorkOptions, hands: Hands, side: SideWork): Promise<'measured' | 'other'> {
  const { store, roots, onDone } = options;
  const here = side.places.map(({ root, path }) => pathHere(root, path, roots)).filter((path) => path !== null);
  // several files of one content: the next try takes the next of them
  const path = here[(side.tries - 1) % here.length] ?? side.fingerprint;
  const from = performance.now();
  const document = await kept(options, side, path, async () =>
    hands.measure(path, await store.recordText(side.record), side.fingerprint),
  );
  if (document === null) return 'other';
  const took = Math.round(performance.now() - from);
  // what was measured is worth waiting with: whether it is still this worker's to keep, its token tells
  if (!(await patiently(options, () => store.complete(side, document, took)))) return 'other';
  onDone?.(path, document);
  return 'measured';
}

/** Asks again while the database is away, unless this worker is to stop. */
async function patiently<T>({ signal, onAway }: WorkOptions, ask: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      return await ask();
    } catch (error) {
      if (!(error instanceof StoreAway) || signal?.stopped === true) throw error;
      onAway?.(true);
      await sleep(AWAY_MS);
    }
  }
}

/** Does a piece of work while its claim is kept alive. @returns null where it failed, was given to another, or is to stop */
async function kept<T>(
  options: WorkOptions,
  work: ClaimedWork | FileWork,
  path: string,
  task: () => Promise<T>,
): Promise<T | null> {
  const { store, leaseMs = LEASE_MS, signal, onFailure } = options;
  let lost = false;
  const timer = setInterval(() => {
    store.beat(work, leaseMs).then(
      (still) => {
        lost ||= !still;
      },
      // the database does not answer: the lease tells whether the work was given away meanwhile
      () => undefined,
    );
  }, leaseMs / 4);
  try {
    const result = await task();
    return lost ? null : result;
  } catch (error) {
    if (error instanceof StoreAway) throw error;
    if (signal?.stopped === true) await store.giveBack(work);
    else {
      onFailure?.(path, said(error));
      await store.fail(work, said(error).slice(0, 400));
    }
    return null;
  } finally {
    clearInterval(timer);
  }
}
