/** For tests that hold for every store: an empty one, in memory, or where `storesIn` said. */
import { openStore, type Store } from './store.ts';
import type { Origin } from './transaction.ts';

let place: () => Promise<string> = async () => ':memory:';

/** All stores from here on lie in the places that `next` gives. */
export function storesIn(next: () => Promise<string>): void {
  place = next;
}

export const freshStore = async (origin?: Origin): Promise<Store> => openStore(await place(), origin);
