/** The `--store` flag: which file holds the jobs. */
import { existsSync } from 'node:fs';
import { openStore, openStoreToRead, type Store, type StoreToRead } from '../store/store.ts';
import { StoreError } from '../store/storeError.ts';
import { storePlace } from '../store/storePlace.ts';
import { CannotError, UsageError } from './command.ts';

export const storeFile = (flag: string | undefined): string => {
  if (flag === '') throw new UsageError("--store '': the path of a file was expected");
  return flag ?? storePlace(process.env, process.platform);
};

/** @throws UsageError with the store's own sentence when the file is none, or damaged, or too new */
export const openStoreFile = (file: string): Promise<Store> => asked(openStore(file));

/** Opens a store that must be there; asking about jobs makes no file where there is none. */
export const openExistingStore = async (file: string): Promise<Store> => asked(openStore(existing(file)));

/** The same for what only reads: nothing is written, not even beside the file. */
export const openToRead = async (file: string): Promise<StoreToRead> => asked(openStoreToRead(existing(file)));

function existing(file: string): string {
  if (existsSync(file)) return file;
  throw new CannotError(`there are no jobs yet: no store at ${file}; serve or job import makes one`);
}

async function asked<T>(opened: Promise<T>): Promise<T> {
  try {
    return await opened;
  } catch (error) {
    if (error instanceof StoreError) throw new UsageError(error.message);
    throw error;
  }
}
