/** `platterside chain`: the history of what plays, its control charts, what left its limits, and reference recordings. */
import { parseArgs } from 'node:util';
import { chainChangeSchema, chainPartNames, NO_RECORD, newReferenceSchema } from '../core/job/chains/chain.ts';
import {
  alarmsCsv,
  chainHistoryHead,
  chainHistoryRows,
  chainListCsv,
  referencesCsv,
} from '../core/job/chains/chainCsv.ts';
import { checkSentence } from '../core/job/checkSentence.ts';
import { recordKey } from '../core/record/recordKey.ts';
import type { Held } from '../store/answers.ts';
import type { ChainsToRead } from '../store/chain/chainStore.ts';
import { alarmsText, chainChartsText, chainHistoryText, chainListText, referencesText } from './chainText.ts';
import { CannotError, type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { fileFingerprint } from './fileFingerprint.ts';
import { whyUnread } from './fileReason.ts';
import { openFileSource } from './fileSource.ts';
import { jsonText, withStore } from './jobWanted.ts';
import { readSheet } from './readSheet.ts';
import { openExistingStore, openStoreFile, openToRead, storeFile, storeHelp } from './storeFlag.ts';

const help = `
platterside chain list [--json | --csv]
platterside chain charts CHAIN [--record RECORD.json | --without-record] [--json]
platterside chain history CHAIN [--json | --csv]
platterside chain alarms [--since TIME] [--json | --csv]
platterside chain set CHAIN [--deck TEXT] [--cartridge TEXT] [--preamp TEXT] [--converter TEXT] [--bench TEXT] [--since TIME] [--why TEXT]
platterside chain take CHAIN JOB
platterside chain release JOB
platterside chain reference add RECORDING --record RECORD.json --expires DAY [--name TEXT] [--certificate TEXT]
platterside chain reference list [--json | --csv]
platterside chain reference remove FINGERPRINT

CHAIN is a chain's name, as batch add --chain gave it, or its id. Charts begin where the chain was last changed: set says what it is made of
from a time on. Take makes the recordings of a job readings of the chain. Alarms lists what left its limits, of what became known since a time.
A reference recording is known again by its content; its certificate is the record file.

${storeHelp}
  --since TIME   2026-03-04, or 2026-03-04T09:30:00Z; alarms: the beginning of yesterday when left out; set: now
  --record FILE  charts: of this record file, instead of the one of the newest reading; reference: its certificate
  --without-record  charts: of recordings that were measured without a record file
  --expires DAY  the last day on which the certificate holds, 2027-03-01
  --json         one JSON document on standard output
  --csv          as CSV, for other systems
`;

const text = { type: 'string' } as const;
const yes = { type: 'boolean' } as const;
const options = {
  store: text,
  json: yes,
  csv: yes,
  since: text,
  record: text,
  'without-record': yes,
  expires: text,
  name: text,
  certificate: text,
  why: text,
  deck: text,
  cartridge: text,
  preamp: text,
  converter: text,
  bench: text,
} as const;

const readFlags = (args: readonly string[]) => parseArgs({ args: [...args], allowPositionals: true, options });
type Flags = ReturnType<typeof readFlags>['values'];

interface Wanted {
  readonly words: readonly string[];
  readonly flags: Flags;
  readonly file: string;
  readonly io: Streams;
}

/** Chains, and readings, that are asked for at once. */
const AT_ONCE = 500;

function present<T>(answer: Held<T>): T {
  if (answer.outcome === 'not-found') throw new CannotError(`${answer.why} chain list shows those there are.`);
  return answer.value;
}

function exactly(what: string, words: readonly string[], names: readonly string[]): readonly string[] {
  if (words.length === names.length) return words;
  throw new UsageError(`chain ${what}: ${names.length === 0 ? 'no argument' : names.join(' and ')} was expected`);
}

const ask = async <T>({ file }: Wanted, work: (chains: ChainsToRead) => Promise<T>): Promise<T> =>
  withStore(await openToRead(file), ({ chains }) => work(chains));

/** @returns ISO time; a day begins where this machine's does */
function timeOf(given: string): string {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(given);
  const time = new Date(day ? `${given}T00:00:00` : given);
  if (!/^\d{4}-\d{2}-\d{2}(T[\d:.]+(Z|[+-]\d{2}:?\d{2})?)?$/.test(given) || Number.isNaN(time.getTime()))
    throw new UsageError(
      `--since '${given}': a day such as 2026-03-04 or a time such as 2026-03-04T09:30:00Z was expected`,
    );
  return time.toISOString();
}

function yesterday(): string {
  const day = new Date();
  day.setHours(0, 0, 0, 0);
  day.setDate(day.getDate() - 1);
  return day.toISOString();
}

async function list(wanted: Wanted): Promise<void> {
  exactly('list', wanted.words, []);
  const chains = await ask(wanted, async (store) => {
    const all = [];
    for (let after: string | undefined; ; ) {
      const page = await store.list(after === undefined ? { limit: AT_ONCE } : { limit: AT_ONCE, after });
      all.push(...page.chains);
      if (page.next === undefined) return all;
      after = page.next;
    }
  });
  told(wanted, { chains }, { text: chainListText, csv: chainListCsv });
}

/** One answer as text, JSON or CSV. */
function told<T extends object>(
  { flags, io }: Wanted,
  answer: T,
  { text: asText, csv }: { readonly text: (answer: T) => string; readonly csv?: (answer: T) => string },
): void {
  const asCsv = flags.csv === true && csv !== undefined;
  io.out(flags.json === true ? jsonText({ schema: 1, ...answer }) : asCsv ? csv(answer) : asText(answer));
}

async function charts(wanted: Wanted): Promise<void> {
  const [named] = exactly('charts', wanted.words, ['one CHAIN']);
  const { record, 'without-record': without } = wanted.flags;
  const key =
    without === true ? NO_RECORD : record === undefined ? undefined : recordKey(readSheet(record, '--record'));
  told(wanted, await ask(wanted, async (store) => present(await store.charts(named, key))), { text: chainChartsText });
}

async function history(wanted: Wanted): Promise<void> {
  const [named] = exactly('history', wanted.words, ['one CHAIN']);
  const { flags, io } = wanted;
  await ask(wanted, async (store) => {
    let first = true;
    for (let before: string | undefined; ; ) {
      const page = present(
        await store.history(named, before === undefined ? { limit: AT_ONCE } : { limit: AT_ONCE, before }),
      );
      if (first) {
        const head = JSON.stringify({ schema: 1, chain: page.chain });
        io.out(
          flags.json === true ? `${head.slice(0, -1)}, "readings": [` : flags.csv === true ? chainHistoryHead() : '',
        );
      }
      if (flags.json === true)
        for (const reading of page.readings) {
          io.out(`${first ? '\n' : ',\n'}${JSON.stringify(reading)}`);
          first = false;
        }
      else io.out(flags.csv === true ? chainHistoryRows(page) : chainHistoryText(page, first));
      first = false;
      if (page.next === undefined) break;
      before = page.next;
    }
    if (flags.json === true) io.out('\n]}\n');
  });
}

async function alarms(wanted: Wanted): Promise<void> {
  exactly('alarms', wanted.words, []);
  const since = wanted.flags.since === undefined ? yesterday() : timeOf(wanted.flags.since);
  told(wanted, await ask(wanted, (store) => store.alarms(since)), { text: alarmsText, csv: alarmsCsv });
}

async function set({ words, flags, file, io }: Wanted): Promise<void> {
  const [name] = exactly('set', words, ['one CHAIN']);
  const parts = Object.fromEntries(
    chainPartNames.flatMap((part) => (flags[part] === undefined ? [] : [[part, flags[part]]])),
  );
  const since = flags.since === undefined ? {} : { since: timeOf(flags.since) };
  const change = chainChangeSchema.safeParse({ name, parts, why: flags.why ?? '', ...since });
  if (!change.success) throw new UsageError(`chain set: ${checkSentence(change.error)}`);
  const chain = await withStore(await openStoreFile(file), ({ chains }) => chains.change(change.data));
  const made = Object.entries(chain.parts).map(([part, what]) => `${part} ${what}`);
  io.out(
    `${chain.name}: ${made.length === 0 ? 'nothing is said of its parts' : made.join(', ')}, from ${chain.states[0].since} on.\n`,
  );
}

async function take({ words, file, io }: Wanted): Promise<void> {
  const [named, job] = exactly('take', words, ['a CHAIN', 'a JOB']);
  await withStore(await openExistingStore(file), async (store) =>
    present(await store.chains.setJob(present(await store.findJob(job)), named)),
  );
  io.out(`The recordings of job ${job} are readings of ${named}.\n`);
}

async function release({ words, file, io }: Wanted): Promise<void> {
  const [job] = exactly('release', words, ['one JOB']);
  await withStore(await openExistingStore(file), async (store) =>
    present(await store.chains.setJob(present(await store.findJob(job)), null)),
  );
  io.out(`The recordings of job ${job} are readings of no chain.\n`);
}

async function fingerprintOf(recording: string): Promise<string> {
  try {
    const source = await openFileSource(recording);
    try {
      return await fileFingerprint(source.file);
    } finally {
      await source.close();
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    throw new UsageError(`${recording}: cannot be read (${whyUnread(error as NodeJS.ErrnoException)})`);
  }
}

async function addReference({ words, flags, file, io }: Wanted): Promise<void> {
  const [recording] = exactly('reference add', words, ['one RECORDING']);
  if (flags.record === undefined) throw new UsageError('chain reference add needs --record FILE: its certificate');
  if (flags.expires === undefined) throw new UsageError('chain reference add needs --expires DAY');
  const sheet = readSheet(flags.record, '--record');
  const wanted = newReferenceSchema.safeParse({
    fingerprint: await fingerprintOf(recording),
    name: flags.name ?? sheet.name,
    record: { key: recordKey(sheet), name: sheet.name },
    certificate: flags.certificate ?? '',
    expires: flags.expires,
  });
  if (!wanted.success) throw new UsageError(`chain reference add: ${checkSentence(wanted.error)}`);
  await withStore(await openStoreFile(file), ({ chains }) => chains.addReference(wanted.data));
  io.out(
    `${wanted.data.name} is known by ${wanted.data.fingerprint}; its certificate holds until ${wanted.data.expires}.\n`,
  );
}

async function listReferences(wanted: Wanted): Promise<void> {
  exactly('reference list', wanted.words, []);
  const today = new Date().toLocaleDateString('sv-SE');
  told(wanted, await ask(wanted, (store) => store.references(today)), { text: referencesText, csv: referencesCsv });
}

async function removeReference({ words, file, io }: Wanted): Promise<void> {
  const [fingerprint] = exactly('reference remove', words, ['one FINGERPRINT']);
  await withStore(await openExistingStore(file), async ({ chains }) => {
    const gone = await chains.removeReference(fingerprint);
    if (gone.outcome === 'not-found') throw new CannotError(gone.why);
  });
  io.out('It is no reference recording any more; what was measured stays.\n');
}

type Action = (wanted: Wanted) => Promise<void>;

const references: Readonly<Record<string, Action>> = {
  add: addReference,
  list: listReferences,
  remove: removeReference,
};

const reference: Action = async (wanted) => {
  const [name, ...words] = wanted.words;
  const names = Object.keys(references).join(', ');
  if (name === undefined || !Object.hasOwn(references, name))
    throw new UsageError(`chain reference '${name ?? ''}': one of ${names} was expected`);
  await references[name]({ ...wanted, words });
};

const actions: Readonly<Record<string, Action>> = { list, charts, history, alarms, set, take, release, reference };

export const command: Command = {
  name: 'chain',
  summary: 'control charts of what plays, what left its limits, reference recordings',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values: flags, positionals } = readFlags(args);
    const [name, ...words] = positionals;
    const names = Object.keys(actions).join(', ');
    if (name === undefined) throw new UsageError(`chain needs one of: ${names}`);
    if (!Object.hasOwn(actions, name)) throw new UsageError(`chain '${name}': one of ${names} was expected`);
    await actions[name]({ words, flags, file: storeFile(flags.store), io });
    return 0;
  },
};
