/** `platterside job`: list, show, export, import and report of stored jobs. */
import { parseArgs } from 'node:util';
import type { JobList, JobsQuery } from '../core/job/api.ts';
import { jobAsideChangeSchema } from '../core/job/api.ts';
import { audiences, isAudience } from '../core/job/audience.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { deckHistoryCsv } from '../core/job/deckHistory.ts';
import { dueListCsv } from '../core/job/dueList.ts';
import { jobListCsv } from '../core/job/jobListCsv.ts';
import { searchWords } from '../core/job/searchWords.ts';
import { stylusLedgerCsv } from '../core/job/stylusHours.ts';
import { say, statement } from '../core/words/statement.ts';
import { renderJobReport } from '../report/jobReport.tsx';
import { everyDue, everyJob } from '../store/everyPage.ts';
import { type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { deckHistoryText, dueListText, stylusLedgerText } from './jobHistory.ts';
import { jobListText, jobText } from './jobText.ts';
import { exportJobs, importJobs } from './jobTransfer.ts';
import { jsonText, one, outputOf, present, type Wanted, withStore } from './jobWanted.ts';
import { madeNow } from './madeNow.ts';
import { replaceHelp, replaceOption, writeTextOutput } from './output.ts';
import { openExistingStore, openToRead, storeFile, storeHelp } from './storeFlag.ts';
import { oneLine } from './usageWords.ts';

const help = `
platterside job list [--json | --csv]
platterside job search WORDS… [--json | --csv]
platterside job show ID [--json]
platterside job history ID [--json | --csv]
platterside job hours [--json | --csv]
platterside job due [--json | --csv]
platterside job export ID… -o FILE.platterside.zip [--without-owner] [--recordings FOLDER]
platterside job import FILE [--as-new] [--recordings FOLDER]
platterside job set-aside ID [RECORDING] --why TEXT | --back
platterside job delete ID --yes
platterside job report ID [--for customer|technician] -o FILE.html

ID is a job's number or its id, as list shows them. RECORDING is a recording's id, as show lists it.
history shows a deck's figures over its jobs, of the deck of job ID; hours every stylus with its hours; due the next checks.
WORDS are looked for in titles, owners, notes and decks; each is the beginning of a word there.

${storeHelp}
  --json         one JSON document on standard output
  --csv          as CSV, for a spreadsheet
  --without-owner  leave the owner's name out; notes stay as they were written
  --recordings FOLDER  export: bring along those of the jobs' recordings that lie there, up to 64 MB each;
                 import: take the bundle's recordings out into it
  --as-new       import as a job of its own, with new ids, even where the job is here already
  --why TEXT     why a recording, or the whole job, is set aside; its figures then count for nothing, and nothing is deleted
  --back         take in again what was set aside
  --yes          delete for good
  -o FILE        where to write
  --for WHOM     customer: one printed page (when left out); technician: everything the job holds
${replaceHelp}

Export writes whole jobs, with their recordings' figures and photographs, as one bundle; a FILE that ends in .json gets one job as
JSON. Import reads both, changes no job that is here, and tells of one that is here already.
`;

const options = {
  store: { type: 'string' },
  json: { type: 'boolean' },
  output: { type: 'string', short: 'o' },
  csv: { type: 'boolean' },
  'without-owner': { type: 'boolean' },
  why: { type: 'string' },
  back: { type: 'boolean' },
  yes: { type: 'boolean' },
  recordings: { type: 'string' },
  'as-new': { type: 'boolean' },
  for: { type: 'string' },
  ...replaceOption,
} as const;

async function list(wanted: Wanted, io: Streams): Promise<void> {
  none('list', wanted);
  await listed({}, wanted, io);
}

async function listed(query: JobsQuery, wanted: Wanted, io: Streams, none?: string): Promise<void> {
  const jobs = await withStore(await openToRead(wanted.store), (store) => everyJob(store, query));
  io.out(told(jobs, wanted, { text: (list: JobList) => jobListText(list, none), csv: jobListCsv }));
}

/** One answer as text, JSON or CSV. */
function told<T extends object>(
  answer: T,
  wanted: Wanted,
  { text, csv }: { readonly text: (answer: T) => string; readonly csv: (answer: T) => string },
): string {
  return wanted.json ? jsonText({ schema: 1, ...answer }) : wanted.csv ? csv(answer) : text(answer);
}

function none(what: string, { ids }: Wanted): void {
  if (ids.length > 0) throw new UsageError(`job ${what} takes no argument; '${ids[0]}' was found`);
}

async function history(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('history', wanted);
  const answer = await withStore(await openToRead(wanted.store), async (store) => {
    const { deck } = present(await store.job(present(await store.findJob(id))));
    return present(await store.deckHistory(deck.id));
  });
  io.out(told(answer, wanted, { text: deckHistoryText, csv: deckHistoryCsv }));
}

async function hours(wanted: Wanted, io: Streams): Promise<void> {
  none('hours', wanted);
  const answer = await withStore(await openToRead(wanted.store), (store) => store.stylusLedger());
  io.out(told(answer, wanted, { text: stylusLedgerText, csv: stylusLedgerCsv }));
}

async function due(wanted: Wanted, io: Streams): Promise<void> {
  none('due', wanted);
  const today = new Date().toLocaleDateString('sv-SE');
  const answer = await withStore(await openToRead(wanted.store), (store) => everyDue(store, today));
  io.out(told(answer, wanted, { text: dueListText, csv: dueListCsv }));
}

async function search(wanted: Wanted, io: Streams): Promise<void> {
  const words = wanted.ids.join(' ');
  if (searchWords(words).length === 0) throw new UsageError('job search: words to look for were expected');
  await listed({ words }, wanted, io, say(statement('no-job-has-words')));
}

async function setAside(wanted: Wanted, io: Streams): Promise<void> {
  const [id, capture, ...rest] = wanted.ids;
  if (id === undefined || rest.length > 0) {
    throw new UsageError('job set-aside: one job, and one of its recordings where only that is meant, were expected');
  }
  const { why = '', back } = wanted;
  if ((why.trim() === '') !== back) throw new UsageError('job set-aside needs --why TEXT, or --back');
  const change = jobAsideChangeSchema.safeParse({ setAside: back ? null : { why } });
  if (!change.success) throw new UsageError(`job set-aside: --why: ${checkSentence(change.error)}`);
  if (capture === undefined) {
    const reason = change.data.setAside?.why ?? null;
    const job = await withStore(await openExistingStore(wanted.store), async (store) => {
      const found = present(await store.findJob(id));
      present(await store.setJobAside(found, reason));
      return present(await store.job(found));
    });
    io.out(`${say(statement(back ? 'job-counts-again' : 'job-is-aside', { number: job.number }))}\n`);
    return;
  }
  const told = await withStore(await openExistingStore(wanted.store), async (store) =>
    present(await store.changeCapture(present(await store.findJob(id)), capture, change.data), `job show ${id}`),
  );
  io.out(`${oneLine(told.capture.file)} ${back ? 'counts again' : 'is set aside; it stays in the job'}.\n`);
}

async function remove(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('delete', wanted);
  if (!wanted.yes)
    throw new UsageError('job delete takes a job away for good: add --yes; job export keeps it as a file first');
  const gone = await withStore(await openExistingStore(wanted.store), async (store) =>
    present(await store.deleteJob(present(await store.findJob(id)))),
  );
  const { number, recordings } = gone;
  io.out(`${say(statement(gone.deckKept ? 'job-deleted' : 'job-and-deck-deleted', { number, recordings }))}\n`);
}

async function show(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('show', wanted);
  const job = await withStore(await openToRead(wanted.store), async (store) =>
    present(await store.job(present(await store.findJob(id)))),
  );
  io.out(wanted.json ? jsonText({ schema: 1, job }) : jobText(job, io.colour));
}

async function report(wanted: Wanted, io: Streams): Promise<void> {
  const id = one('report', wanted);
  const output = outputOf('report', wanted);
  const html = await withStore(await openToRead(wanted.store), async (store) => {
    const job = present(await store.job(present(await store.findJob(id))));
    const photographs = wanted.audience === 'technician' ? await store.photographs(job.id) : [];
    const how = { audience: wanted.audience, letterhead: await store.letterhead(), photographs, made: madeNow() };
    return renderJobReport(job, await store.captures(job.id), how);
  });
  writeTextOutput(output, html);
  io.err(`Report written to ${output.file}.\n`);
}

const actions: Readonly<Record<string, (wanted: Wanted, io: Streams) => Promise<void>>> = {
  list,
  show,
  export: exportJobs,
  import: importJobs,
  report,
  search,
  history,
  hours,
  due,
  'set-aside': setAside,
  delete: remove,
};

export const command: Command = {
  name: 'job',
  summary: 'list, search, show, export, import, report, delete stored jobs; history, stylus hours, what is due',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values, positionals } = parseArgs({ args: [...args], allowPositionals: true, options });
    const [name, ...ids] = positionals;
    const names = Object.keys(actions).join(', ');
    if (name === undefined) throw new UsageError(`job needs one of: ${names}`);
    if (!Object.hasOwn(actions, name)) throw new UsageError(`job '${name}': one of ${names} was expected`);
    const audience = values.for ?? 'customer';
    if (!isAudience(audience)) throw new UsageError(`--for '${audience}': one of ${audiences.join(', ')} was expected`);
    if (values.for !== undefined && name !== 'report') throw new UsageError('--for belongs to job report');
    const wanted = {
      ids,
      audience,
      json: values.json === true,
      output: values.output,
      replace: values.replace === true,
      store: storeFile(values.store),
      csv: values.csv === true,
      withoutOwner: values['without-owner'] === true,
      why: values.why,
      back: values.back === true,
      yes: values.yes === true,
      recordings: values.recordings,
      asNew: values['as-new'] === true,
    };
    await actions[name](wanted, io);
    return 0;
  },
};
