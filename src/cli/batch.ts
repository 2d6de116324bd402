/** `platterside batch`: very many recordings, measured by any number of workers, each content once. */
import { createHash, randomUUID } from 'node:crypto';
import { hostname } from 'node:os';
import { parseArgs } from 'node:util';
import { movedCsv, movedHead, reportCsv, reportHead, statusText } from '../batch/batchCsv.ts';
import { findRecordings } from '../batch/findRecordings.ts';
import { ownRoot, placeOf, type Root, rootOf } from '../batch/roots.ts';
import { workOn } from '../batch/work.ts';
import type { NamedLimits } from '../core/advise/limitsFile.ts';
import { limitsOf } from '../core/job/shop.ts';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import type { FoundFile } from '../store/batch/addWork.ts';
import { type BatchStore, openBatches } from '../store/batch/batchStore.ts';
import { StoreError } from '../store/storeError.ts';
import { startThread } from './batchHands.ts';
import { CannotError, type Command, type ExitStatus, type Streams, UsageError } from './command.ts';
import { whyUnread } from './fileReason.ts';
import { jsonText } from './jobWanted.ts';
import { readSheet } from './readSheet.ts';
import { storeFile, storeHelp } from './storeFlag.ts';
import { readText } from './textFile.ts';
import { oneLine } from './usageWords.ts';

const help = `
platterside batch add FOLDER… --record RECORD.json [--chain NAME] [--root NAME=FOLDER]…
platterside batch work [--threads N] [--lease SECONDS] [--root NAME=FOLDER]…
platterside batch status [--json]
platterside batch report [--json]
platterside batch again --older-than VERSION [--moved]

Add puts the recordings below the folders among what is to be measured; they stay where they are and are only read. Repeated, it takes in what
came since. Work measures on this machine until nothing is left, each content once for a record file and a version of the methods,
however many machines work at the same time; Ctrl-C gives back what is under way. A recording that failed three times is set aside with its reason.
Report writes every figure as CSV. Again opens what earlier versions of the methods measured for this one (this one is ${METHOD_VERSION});
with --moved it writes, as CSV, the figures that this version read otherwise.

${storeHelp}
  --record FILE     what is cut on the record
  --chain NAME      deck, cartridge, preamp and converter that played, under one name
  --root NAME=FOLDER  where a named root lies on this machine; recordings are known below it, and a worker that lacks it passes over them
  --threads N       recordings measured at once; 1 when left out
  --lease SECONDS   how long the work of a worker that fell silent stays its own; 60 when left out
  --older-than VERSION  a version of the methods
  --json            one JSON document on standard output
`;

const options = {
  store: { type: 'string' },
  record: { type: 'string' },
  chain: { type: 'string' },
  root: { type: 'string', multiple: true },
  threads: { type: 'string' },
  lease: { type: 'string' },
  'older-than': { type: 'string' },
  moved: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

const readFlags = (args: readonly string[]) => parseArgs({ args: [...args], allowPositionals: true, options });
type Flags = ReturnType<typeof readFlags>['values'];

interface Wanted {
  readonly places: readonly string[];
  readonly flags: Flags;
  readonly store: BatchStore;
  readonly io: Streams;
}

const FILES_AT_ONCE = 500;
const ROWS_AT_ONCE = 500;
const MOST_THREADS = 64;

function rootsOf({ root = [] }: Flags): readonly Root[] {
  const roots = root.map((text) => {
    const read = rootOf(text);
    if (read === null) throw new UsageError(`--root '${text}': NAME=FOLDER was expected`);
    return read;
  });
  return roots.length > 0 ? roots : [ownRoot()];
}

async function add({ places, flags, store, io }: Wanted): Promise<ExitStatus> {
  if (places.length === 0) throw new UsageError('batch add: one or more folders were expected');
  if (flags.record === undefined) throw new UsageError('batch add needs --record FILE: what is cut on the record');
  const sheet = readSheet(flags.record, '--record');
  const text = readText(`--record ${flags.record}`, flags.record, 'a record file');
  const id = createHash('sha256').update(text).digest('hex');
  const roots = rootsOf(flags);
  await store.addRecord({ id, name: sheet.name, text });
  const total = { added: 0, there: 0, changed: 0 };
  let some: FoundFile[] = [];
  const put = async (): Promise<void> => {
    const counts = await store.addFiles(id, flags.chain?.trim() ?? '', some);
    for (const name of ['added', 'there', 'changed'] as const) total[name] += counts[name];
    some = [];
  };
  for (const place of places) {
    try {
      for (const { file, bytes, modifiedMs } of findRecordings(place)) {
        const at = placeOf(file, roots);
        if (at === null)
          throw new UsageError(`${file} lies below no root that was named; --root NAME=FOLDER was expected`);
        some.push({ ...at, bytes, modifiedMs });
        if (some.length === FILES_AT_ONCE) await put();
      }
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === undefined) throw error;
      throw new UsageError(
        `${place}: cannot be read (${whyUnread(error as NodeJS.ErrnoException)}); a folder was expected`,
      );
    }
  }
  await put();
  io.out(
    `${total.added} ${total.added === 1 ? 'recording' : 'recordings'} added, ${total.there} there already, ${total.changed} changed since and to be measured anew.\n`,
  );
  return 0;
}

function threadCount({ threads = '1' }: Flags): number {
  const count = /^[0-9]{1,2}$/.test(threads) ? Number(threads) : 0;
  if (count >= 1 && count <= MOST_THREADS) return count;
  throw new UsageError(`--threads '${threads}': a whole number from 1 to ${MOST_THREADS} was expected`);
}

function leaseMs({ lease = '60' }: Flags): number {
  const seconds = /^[0-9]{1,4}$/.test(lease) ? Number(lease) : 0;
  if (seconds >= 1 && seconds <= 3600) return seconds * 1000;
  throw new UsageError(`--lease '${lease}': a whole number of seconds from 1 to 3600 was expected`);
}

/** The shop's own, as they are now; undefined where it has set none. */
async function shopLimits(store: BatchStore): Promise<NamedLimits | undefined> {
  const shop = await store.shop();
  if (shop.limits === undefined) return undefined;
  const { deckClass, limits } = limitsOf({ run: {}, shop });
  return { deckClass, limits };
}

async function work({ flags, store, io }: Wanted): Promise<ExitStatus> {
  const limits = await shopLimits(store);
  const hands = Array.from({ length: threadCount(flags) }, () => startThread(limits));
  const signal = { stopped: false };
  const stop = (): void => {
    signal.stopped = true;
    io.err('Stopping: what is under way is given back.\n');
    for (const one of hands) void one.end();
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
  let shown = Date.now();
  let since = 0;
  const progress = (): void => {
    since += 1;
    if (!io.progress || Date.now() - shown < 1000) return;
    shown = Date.now();
    io.err(`\r\u001b[K${since} measured here`);
  };
  try {
    const measured = await workOn({
      store,
      roots: rootsOf(flags),
      hands,
      method: METHOD_VERSION,
      worker: `${hostname()} ${process.pid}`,
      newToken: randomUUID,
      leaseMs: leaseMs(flags),
      signal,
      onDone: progress,
      onFailure: (path, why) => io.err(`platterside: ${oneLine(path)}: ${oneLine(why)}\n`),
      onAway: (away) =>
        io.err(away ? 'The database does not answer; asking again.\n' : 'The database answers again.\n'),
    });
    io.err(`${io.progress ? '\r\u001b[K' : ''}${measured} sides measured here.\n`);
    return 0;
  } finally {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
    for (const one of hands) await one.end();
  }
}

async function status({ flags, store, io }: Wanted): Promise<ExitStatus> {
  const answer = await store.status(METHOD_VERSION);
  io.out(flags.json === true ? jsonText({ schema: 1, ...answer }) : statusText(answer));
  return 0;
}

async function report({ flags, store, io }: Wanted): Promise<ExitStatus> {
  io.out(flags.json === true ? '{"schema": 1, "recordings": [' : reportHead());
  let first = true;
  for (let after: string | null = null; ; ) {
    const rows = await store.report(METHOD_VERSION, after, ROWS_AT_ONCE);
    if (flags.json !== true) io.out(reportCsv(rows));
    else
      for (const { id: _, ...row } of rows) {
        io.out(`${first ? '\n' : ',\n'}${JSON.stringify(row)}`);
        first = false;
      }
    if (rows.length < ROWS_AT_ONCE) break;
    after = rows[rows.length - 1].id;
  }
  if (flags.json === true) io.out('\n]}\n');
  return 0;
}

async function again({ flags, store, io }: Wanted): Promise<ExitStatus> {
  if (flags.moved === true) {
    io.out(movedHead());
    for (let after: string | null = null; ; ) {
      const { moved, next } = await store.moved(METHOD_VERSION, after, ROWS_AT_ONCE);
      io.out(movedCsv(moved));
      if (next === null) return 0;
      after = next;
    }
  }
  const version = flags['older-than'] ?? '';
  if (!/^[0-9]{1,6}$/.test(version)) {
    throw new UsageError(
      `batch again --older-than '${version}': a version of the methods was expected, such as ${METHOD_VERSION}`,
    );
  }
  const opened = await store.again(Number(version), METHOD_VERSION);
  io.out(
    `${opened} sides are to be measured by version ${METHOD_VERSION}; batch work does it, batch again --moved shows what moved.\n`,
  );
  return 0;
}

const actions = { add, work, status, report, again } as const;

export const command: Command = {
  name: 'batch',
  summary: 'measure very many recordings with any number of workers',
  help,
  async run(args, io): Promise<ExitStatus> {
    const { values: flags, positionals } = readFlags(args);
    const [name, ...places] = positionals;
    const list = Object.keys(actions).join(', ');
    if (name === undefined) throw new UsageError(`batch needs one of: ${list}`);
    if (!Object.hasOwn(actions, name)) throw new UsageError(`batch '${name}': one of ${list} was expected`);
    if (name !== 'add' && places.length > 0) {
      throw new UsageError(`batch ${name} takes no argument; '${places[0]}' was found`);
    }
    try {
      const store = await openBatches(storeFile(flags.store), {
        now: () => new Date().toISOString(),
        newId: () => randomUUID(),
      });
      try {
        return await actions[name as keyof typeof actions]({ places, flags, store, io });
      } finally {
        await store.close();
      }
    } catch (error) {
      if (error instanceof StoreError) throw new CannotError(error.message);
      throw error;
    }
  },
};
