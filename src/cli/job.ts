/** `platterside job`: list, show, export, import and report of stored jobs. */
import { parseArgs } from 'node:util';
import { readJobFile } from '../core/job/jobFile.ts';
import { renderJobReport } from '../report/jobReport.tsx';
import type { Found } from '../store/answers.ts';
import type { Store } from '../store/store.ts';
import { CannotError, type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { programVersion } from './installation.ts';
import { jobListText, jobText } from './jobText.ts';
import { checkOutput, type Output, replaceHelp, replaceOption, writeTextOutput } from './output.ts';
import { openExistingStore, openStoreFile, storeFile } from './storeFlag.ts';
import { readText } from './textFile.ts';

const help = `
platterside job list [--json]
platterside job show ID [--json]
platterside job export ID -o FILE.json
platterside job import FILE.json
platterside job report ID -o FILE.html

ID is a job's number or its id, as list shows them.

  --store FILE   where the jobs are kept; left out: this account's own place for such files
  --json         one JSON document on standard output
  -o FILE        where to write
${replaceHelp}

Export writes the whole job with its recordings' figures as one file; import adds it as a new job and changes no other.
`;

const options = {
  store: { type: 'string' },
  json: { type: 'boolean' },
  output: { type: 'string', short: 'o' },
  ...replaceOption,
} as const;

/** bytes; a job with a hundred recordings has some 20 MB */
const MOST_JOB_BYTES = 256 * 2 ** 20;

interface Wanted {
  readonly ids: readonly string[];
  readonly json: boolean;
  readonly output: string | undefined;
  readonly replace: boolean;
  readonly store: string;
}

function present<T>(answer: Found<T>): T {
  if (answer.outcome === 'not-found') throw new CannotError(`${answer.why} job list shows those there are.`);
  return answer.value;
}

function one(what: string, { ids }: Wanted): string {
  if (ids.length !== 1) throw new UsageError(`job ${what}: one ${what === 'import' ? 'file' : 'job'} was expected`);
  return ids[0];
}

function outputOf(what: string, { output, store, replace }: Wanted): Output {
  if (output === undefined || output === '') throw new UsageError(`job ${what} needs -o FILE to write to`);
  const wanted = { flag: '-o', file: output, inputs: [store], replace };
  checkOutput(wanted);
  return wanted;
}

async function withStore<T>(store: Store, work: (store: Store) => Promise<T>): Promise<T> {
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

async function list(wanted: Wanted, io: Streams): Promise<void> {
  if (wanted.ids.length > 0) throw new UsageError(`job list takes no argument; '${wanted.ids[0]}' was found`);
  const jobs = await withStore(await openExistingStore(wanted.store), (store) => store.jobs());
  io.out(wanted.json ? jsonText({ schema: 1, ...jobs }) : jobListText(jobs));
}

async function show(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('show', wanted);
  const job = await withStore(await openExistingStore(wanted.store), async (store) =>
    present(await store.job(present(await store.findJob(id)))),
  );
  io.out(wanted.json ? jsonText({ schema: 1, job }) : jobText(job, io.colour));
}

async function exportTo(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('export', wanted);
  const output = outputOf('export', wanted);
  const file = await withStore(await openExistingStore(wanted.store), async (store) =>
    present(await store.exportJob(present(await store.findJob(id)), `platterside ${programVersion()}`)),
  );
  writeTextOutput(output, `${JSON.stringify(file, null, 1)}\n`);
  io.err(`Job ${file.job.number} written to ${output.file}.\n`);
}

async function importFrom(wanted: Wanted, io: Streams): Promise<void> {
  const name = one('import', wanted);
  const text = readText(name, name, 'a job file', MOST_JOB_BYTES);
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new UsageError(`${name}: not JSON; a file that job export wrote was expected`);
  }
  const read = readJobFile(value);
  if (!read.found) throw new UsageError(`${name}: ${read.why}`);
  const { id, number } = await withStore(await openStoreFile(wanted.store), (store) => store.importJob(read.file));
  io.out(wanted.json ? jsonText({ schema: 1, id, number }) : `Job ${number} imported (id ${id}).\n`);
}

async function report(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('report', wanted);
  const output = outputOf('report', wanted);
  const html = await withStore(await openExistingStore(wanted.store), async (store) => {
    const job = present(await store.job(present(await store.findJob(id))));
    const made = { madeAt: new Date().toISOString(), version: programVersion() };
    return renderJobReport(job, await store.captures(job.id), made);
  });
  writeTextOutput(output, html);
  io.err(`Report written to ${output.file}.\n`);
}

const actions: Readonly<Record<string, (wanted: Wanted, io: Streams) => Promise<void>>> = {
  list,
  show,
  export: exportTo,
  import: importFrom,
  report,
};

export const command: Command = {
  name: 'job',
  summary: 'list, show, export, import and report of stored jobs',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options });
    const [name, ...ids] = positionals;
    const names = Object.keys(actions).join(', ');
    if (name === undefined) throw new UsageError(`job needs one of: ${names}`);
    if (!Object.hasOwn(actions, name)) throw new UsageError(`job '${name}': one of ${names} was expected`);
    const wanted = {
      ids,
      json: values.json === true,
      output: values.output,
      replace: values.replace === true,
      store: storeFile(values.store),
    };
    await actions[name](wanted, io);
    return 0;
  },
};
