/** The `--store` flag: which file holds the jobs. */
import { existsSync } from 'node:fs';
import { openStore, type Store } from '../store/store.ts';
import { StoreError } from '../store/storeError.ts';
import { storePlace } from '../store/storePlace.ts';
import { CannotError, UsageError } from './command.ts';

export const storeFile = (flag: string | undefined): string => {
  if (flag === '') throw new UsageError("--store '': the path of a file was expected");
  return flag ?? storePlace(process.env, process.platform);
};

/** @throws UsageError with the store's own sentence when the file is none, or damaged, or too new */
export async function openStoreFile(file: string): Promise<Store> {
  try {
    return await openStore(file);
  } catch (error) {
    if (error instanceof StoreError) throw new UsageError(error.message);
    throw error;
  }
}

/** Opens a store to read from; asking about jobs makes no file where there is none. */
export async function openExistingStore(file: string): Promise<Store> {
  if (!existsSync(file))
    throw new CannotError(`there are no jobs yet: no store at ${file}; serve or job import makes one`);
  return openStoreFile(file);
}
