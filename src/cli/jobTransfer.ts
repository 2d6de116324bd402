/** `job export` and `job import`: jobs as one bundle, or one job as JSON. */

import { existsSync, readdirSync } from 'node:fs';
import { extname, join } from 'node:path';
import {
  type BundledRecording,
  MOST_BUNDLE_BYTES,
  MOST_RECORDING_BYTES,
  withoutOwner,
  writeBundle,
} from '../core/job/bundle.ts';
import type { JobFile } from '../core/job/jobFile.ts';
import { jobsFromFile } from '../core/job/jobsFromFile.ts';
import { say } from '../core/words/statement.ts';
import { platformBytes } from '../store/fileBytes.ts';
import type { StoreToRead } from '../store/store.ts';
import type { Imported } from '../store/transfer.ts';
import { CannotError, type Streams, UsageError } from './command.ts';
import { whyUnread } from './fileReason.ts';
import { programVersion } from './installation.ts';
import { jsonText, one, outputOf, present, type Wanted, withStore } from './jobWanted.ts';
import { writeOutput, writeTextOutput } from './output.ts';
import { openStoreFile, openToRead } from './storeFlag.ts';
import { readBytes } from './textFile.ts';
import { oneLine } from './usageWords.ts';

/** Files of a folder that are looked through for recordings. */
const MOST_LOOKED_AT = 2000;

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.(wav|flac)$/i.test(entry.name))
      .map(({ name }) => name)
      .sort();
  } catch (error) {
    throw new UsageError(`--recordings ${folder}: cannot be read (${whyUnread(error)}); a folder was expected`);
  }
}

/** Of the recordings that the jobs know by their fingerprint, those that lie in the folder. */
function recordingsOf(jobs: readonly JobFile[], folder: string | undefined): readonly BundledRecording[] {
  if (folder === undefined) return [];
  const wanted = new Set(jobs.flatMap(({ captures }) => captures.map(({ document }) => document.capture.sha256)));
  const found = new Map<string, BundledRecording>();
  for (const name of namesIn(folder).slice(0, MOST_LOOKED_AT)) {
    const path = join(folder, name);
    let bytes: Uint8Array;
    try {
      bytes = readBytes(path, path, 'a recording', MOST_RECORDING_BYTES);
    } catch {
      // larger than a bundle takes, or not to be read: it is counted as missing
      continue;
    }
    const sha256 = platformBytes.fingerprint(bytes);
    if (wanted.has(sha256))
      found.set(sha256, { sha256, ending: extname(name).toLowerCase() === '.flac' ? 'flac' : 'wav', bytes });
  }
  return [...found.values()];
}

async function filesOf(store: StoreToRead, ids: readonly string[]): Promise<readonly JobFile[]> {
  const files: JobFile[] = [];
  for (const id of ids) {
    const file = present(await store.exportJob(present(await store.findJob(id)), `platterside ${programVersion()}`));
    if (!files.some(({ job }) => job.id === file.job.id)) files.push(file);
  }
  return files;
}

const numbersOf = (jobs: readonly JobFile[]): string => {
  const numbers = jobs.map(({ job }) => job.number).join(', ');
  return jobs.length === 1 ? `Job ${numbers}` : `Jobs ${numbers}`;
};

export async function exportJobs(wanted: Wanted, io: Streams): Promise<void> {
  const json = /\.json$/i.test(wanted.output ?? '');
  const ids = json ? [one('export', wanted)] : wanted.ids;
  if (ids.length === 0) throw new UsageError('job export: one job or more was expected');
  const output = outputOf('export', wanted);
  if (json && wanted.recordings !== undefined)
    throw new UsageError(
      '--recordings: a .json file holds no recordings; give -o a name that ends in .platterside.zip',
    );
  const jobs = await withStore(await openToRead(wanted.store), (store) => filesOf(store, ids));
  if (json) {
    const [file] = jobs.map((job) => (wanted.withoutOwner ? withoutOwner(job) : job));
    writeTextOutput(output, `${JSON.stringify(file, null, 1)}\n`);
    io.err(`Job ${file.job.number} written to ${output.file}.\n`);
    return;
  }
  const recordings = recordingsOf(jobs, wanted.recordings);
  const made = { madeBy: jobs[0].madeBy, exportedAt: jobs[0].exportedAt };
  const bytes = writeBundle({ withoutOwners: wanted.withoutOwner, jobs, recordings }, made, platformBytes);
  if (bytes.length > MOST_BUNDLE_BYTES) {
    throw new UsageError(
      `-o ${output.file}: the bundle would have ${Math.round(bytes.length / 2 ** 20)} MB, more than ${MOST_BUNDLE_BYTES / 2 ** 20}; export fewer jobs, or leave --recordings out`,
    );
  }
  writeOutput(output, (write) => write(bytes));
  const known = jobs.reduce((sum, { captures }) => sum + captures.length, 0);
  const along = wanted.recordings === undefined ? '' : ` ${recordings.length} of ${known} recordings are in it.`;
  io.err(`${numbersOf(jobs)} written to ${output.file}.${along}\n`);
}

const told: Readonly<Record<Imported['outcome'], (job: Imported) => string>> = {
  imported: ({ id, number }) => `Job ${number} imported (id ${id}).\n`,
  'here-already': ({ number }) => `Job ${number} is here already, with the same content; nothing was changed.\n`,
  'here-otherwise': ({ number }) => `Job ${number} is here already and differs from the file; it was left as it is.\n`,
};

/** Under a name that says which it is; what stands there is never replaced. */
function takeOut(recordings: readonly BundledRecording[], folder: string, wanted: Wanted, io: Streams): void {
  for (const { sha256, ending, bytes } of recordings) {
    const file = join(folder, `${sha256.slice(0, 16)}.${ending}`);
    if (existsSync(file)) io.err(`${file} is there already and is kept.\n`);
    else writeOutput({ flag: '--recordings', file, inputs: [wanted.store, ...wanted.ids] }, (write) => write(bytes));
  }
  io.err(`${recordings.length} recordings are in ${oneLine(folder)}.\n`);
}

export async function importJobs(wanted: Wanted, io: Streams): Promise<void> {
  const name = one('import', wanted);
  const read = jobsFromFile(readBytes(name, name, 'a bundle or a job file', MOST_BUNDLE_BYTES), platformBytes);
  if (!read.found) throw new UsageError(`${name}: ${say(read.why)}`);
  const { jobs, recordings } = read.bundle;
  const done = await withStore(await openStoreFile(wanted.store), async (store) => {
    const answers: Imported[] = [];
    for (const job of jobs) answers.push(await store.importJob(job, { asNew: wanted.asNew }));
    return answers;
  });
  if (wanted.recordings !== undefined) takeOut(recordings, wanted.recordings, wanted, io);
  else if (recordings.length > 0)
    io.err(`The bundle holds ${recordings.length} recordings; --recordings FOLDER takes them out.\n`);
  // the first one's id and number stand alone too, where a file holds one job
  const [{ id, number }] = done;
  io.out(
    wanted.json ? jsonText({ schema: 1, id, number, jobs: done }) : done.map((one) => told[one.outcome](one)).join(''),
  );
  const other = done.filter(({ outcome }) => outcome === 'here-otherwise').length;
  if (other > 0)
    throw new CannotError(
      `${name}: ${other === 1 ? 'one job' : `${other} jobs`} not imported; --as-new imports them as jobs of their own`,
    );
}
