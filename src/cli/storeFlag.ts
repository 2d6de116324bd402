/** The `--store` flag: which file holds the jobs. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { checkPostgresUrl, isPostgresUrl } from '../store/postgresPlace.ts';
import { openStore, openStoreToRead, type Store, type StoreToRead } from '../store/store.ts';
import { StoreError } from '../store/storeError.ts';
import { storePlace } from '../store/storePlace.ts';
import { CannotError, UsageError } from './command.ts';

export const storeHelp = `  --store FILE   where the jobs are kept; left out: this account's own place for such files. A workshop's shared store:
                 postgresql://USER@HOST/DATABASE, the password in PGPASSFILE or the environment (docs/workshop.md)`;

export const storeFile = (flag: string | undefined): string => {
  if (flag === '') throw new UsageError("--store '': the path of a file was expected");
  if (flag !== undefined && isPostgresUrl(flag)) refused(() => checkPostgresUrl(flag));
  return flag ?? storePlace(process.env, process.platform);
};

function refused(check: () => void): void {
  try {
    check();
  } catch (error) {
    throw error instanceof StoreError ? new UsageError(error.message) : error;
  }
}

/** The file that the local server's key lies beside: a shared store lies on no disk of this machine. */
export function keyPlace(store: string): string {
  if (!isPostgresUrl(store)) return store;
  const folder = dirname(storePlace(process.env, process.platform));
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  return join(folder, `shared-${createHash('sha256').update(store).digest('hex').slice(0, 12)}`);
}

/** @throws UsageError with the store's own sentence when the file is none, or damaged, or too new */
export const openStoreFile = (file: string, bench = ''): Promise<Store> => asked(openStore(file, undefined, bench));

/** Opens a store that must be there; asking about jobs makes no file where there is none. */
export const openExistingStore = async (file: string): Promise<Store> => asked(openStore(existing(file)));

/** The same for what only reads: nothing is written, not even beside the file. */
export const openToRead = async (file: string): Promise<StoreToRead> => asked(openStoreToRead(existing(file)));

function existing(file: string): string {
  if (isPostgresUrl(file) || existsSync(file)) return file;
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
