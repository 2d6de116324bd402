/** `platterside store`: a copy of the store, a copy put back, and the store looked through from end to end. */
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { jobSchema } from '../core/job/api.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { copyStore, faultsIn, putBack } from '../store/copies.ts';
import { type Copied, copyJobs } from '../store/copyJobs.ts';
import { everyJob } from '../store/everyPage.ts';
import { isPostgresUrl } from '../store/postgresPlace.ts';
import { StoreError } from '../store/storeError.ts';
import { CannotError, type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { programVersion } from './installation.ts';
import { withStore } from './jobWanted.ts';
import { checkOutput } from './output.ts';
import { openExistingStore, openStoreFile, openToRead, storeFile, storeHelp } from './storeFlag.ts';

const help = `
platterside store backup FILE
platterside store restore FILE
platterside store check
platterside store copy FROM TO

${storeHelp}

Backup writes a whole copy to FILE, where nothing may be yet; the bench may go on meanwhile.
Restore puts the copy FILE in the store's place; what stood there is kept beside it as STORE.before-restore. Stop the bench first.
Copy takes all jobs, parts, record files, letterhead and shop's limits of one store over into another: a file into PostgreSQL or back. Ids
stay; nothing that is there is overwritten, and repeating it does no harm. Chains, reference recordings and batches go along.
Check reads all of the store and says what is wrong with it; exit status 1 where anything is.
`;

interface Wanted {
  readonly file: string | undefined;
  /** of copy: where to */
  readonly to?: string | undefined;
  readonly store: string;
}

function named(what: string, { file }: Wanted): string {
  if (file === undefined || file === '') throw new UsageError(`store ${what}: one file was expected`);
  return file;
}

function present({ store }: Wanted): string {
  if (isPostgresUrl(store)) {
    throw new UsageError("a store in PostgreSQL is copied by PostgreSQL's own pg_dump, or into a file by store copy");
  }
  if (existsSync(store)) return store;
  throw new CannotError(`there are no jobs yet: no store at ${store}; serve or job import makes one`);
}

function backup(wanted: Wanted, io: Streams): ExitStatus {
  const file = named('backup', wanted);
  const store = present(wanted);
  copyStore(store, checkOutput({ flag: 'store backup', file, inputs: [store] }));
  io.err(`Copy of ${store} written to ${file}.\n`);
  return 0;
}

function restore(wanted: Wanted, io: Streams): ExitStatus {
  const file = named('restore', wanted);
  if (!existsSync(file)) throw new UsageError(`${file}: there is no such file; a copy of a store was expected`);
  if (isPostgresUrl(wanted.store)) throw new UsageError('store restore puts a file back; the store is in PostgreSQL');
  checkOutput({ flag: '--store', file: wanted.store, inputs: [file], replace: true });
  putBack(file, wanted.store);
  io.err(`${file} has taken the place of ${wanted.store} now.\n`);
  return 0;
}

async function check(wanted: Wanted, io: Streams): Promise<ExitStatus> {
  if (wanted.file !== undefined) throw new UsageError(`store check takes no argument; '${wanted.file}' was found`);
  const faults = isPostgresUrl(wanted.store) ? [] : [...faultsIn(present(wanted))];
  let count = 0;
  if (faults.length === 0) {
    const store = await openExistingStore(wanted.store);
    const { jobs, unreadable } = await everyJob(store, {});
    count = jobs.length;
    faults.push(...unreadable.map(({ id, why }) => `job ${id} cannot be read: ${why}`));
    for (const { id, number } of jobs) {
      const job = await store.job(id).catch((error: Error) => ({ outcome: 'error' as const, why: error.message }));
      if (job.outcome !== 'found') faults.push(job.why);
      else {
        const read = jobSchema.safeParse(job.value);
        if (!read.success) faults.push(`job ${number} cannot be read: ${checkSentence(read.error)}`);
      }
    }
    await store.close();
  }
  if (faults.length === 0) {
    io.out(`${wanted.store}: ${count === 1 ? 'one job' : `${count} jobs`}, nothing wrong.\n`);
    return 0;
  }
  io.out(faults.map((fault) => `${fault}\n`).join(''));
  return 1;
}

const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

function copyLines(copied: Copied): string[] {
  const { jobs, there, renumbered, otherwise, unreadable, parts, partsOtherwise, settings, carried } = copied;
  const { chains, reference_recordings: references, batch_files: files, batch_sides: sides } = carried;
  return [
    `${plural(jobs, 'job')} copied, ${there} there already; ${plural(parts, 'part')} copied${settings.length === 0 ? '' : `, ${settings.join(' and ')} too`}.`,
    ...(chains + references + files + sides === 0
      ? []
      : [
          `${plural(chains, 'chain')}, ${plural(references, 'reference recording')}, ${plural(files, 'recording')} of batches and ${plural(sides, 'side')} of them copied.`,
        ]),
    ...renumbered.map(([from, to]) => `Job ${from} is job ${to} there: another job has its number.`),
    ...otherwise.map((number) => `Job ${number} is there and says something else; neither was changed.`),
    ...(partsOtherwise === 0 ? [] : [`${plural(partsOtherwise, 'part')} there say something else; none was changed.`]),
    ...unreadable.map((why) => `Not copied: ${why}`),
  ];
}

async function copy({ file: from, to }: Wanted, io: Streams): Promise<ExitStatus> {
  if (from === undefined || to === undefined)
    throw new UsageError('store copy: two stores, FROM and TO, were expected');
  const [source, target] = [storeFile(from), storeFile(to)];
  if (source === target) throw new UsageError('store copy: two different stores were expected');
  const copied = await withStore(await openToRead(source), async (reading) =>
    withStore(await openStoreFile(target), (writing) => copyJobs(reading, writing, `platterside ${programVersion()}`)),
  );
  io.out(
    copyLines(copied)
      .map((line) => `${line}\n`)
      .join(''),
  );
  return copied.otherwise.length + copied.unreadable.length > 0 ? 1 : 0;
}

const actions = { backup, restore, check, copy } as const;

export const command: Command = {
  name: 'store',
  summary: 'back up, put back, check and copy the file that jobs are kept in',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { store: { type: 'string' } },
    });
    const [name, file, to, more] = positionals;
    const names = Object.keys(actions).join(', ');
    if (name === undefined) throw new UsageError(`store needs one of: ${names}`);
    if (!Object.hasOwn(actions, name)) throw new UsageError(`store '${name}': one of ${names} was expected`);
    const surplus = name === 'copy' ? more : to;
    if (surplus !== undefined)
      throw new UsageError(
        `store ${name}: ${name === 'copy' ? 'two stores were' : 'one file was'} expected; '${surplus}' was found too`,
      );
    if (name === 'copy' && values.store !== undefined)
      throw new UsageError('store copy takes both stores without --store');
    try {
      return await actions[name as keyof typeof actions]({ file, to, store: storeFile(values.store) }, io);
    } catch (error) {
      if (error instanceof StoreError) throw new UsageError(error.message);
      throw error;
    }
  },
};
