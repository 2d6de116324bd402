/**
 * The one gate through which every command writes a file.
 *
 * An output is never an input of the same command, never the store or what lies beside it, never (unless `--replace` says so)
 * a recording or a database that stands there already. It is written whole beside its place, under a name of its own that
 * nobody else can hold, and then put in place: a reader sees the old file or the new one, never half of either. Links are
 * followed first, so that a file has no second name here.
 */
import { randomBytes } from 'node:crypto';
import {
  closeSync,
  fsyncSync,
  openSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { UsageError } from './command.ts';
import { whyUnwritten } from './fileReason.ts';

export interface Output {
  /** as typed: `-o`, `--report`, `--truth` */
  readonly flag: string;
  readonly file: string;
  /** what this command reads; also the store that it has open */
  readonly inputs: readonly (string | undefined)[];
  /** a recording or a database that stands there may go */
  readonly replace?: boolean;
}

export const replaceOption = { replace: { type: 'boolean' } } as const;
export const replaceHelp =
  '  --replace      let the output take the place of a recording or database that has its name (never of an input)';

/** First bytes of what must not be lost by a slip of the hand. */
const KEPT: readonly (readonly [start: string, what: string])[] = [
  ['RIFF', 'a recording'],
  ['RF64', 'a recording'],
  ['BW64', 'a recording'],
  ['FORM', 'a recording'],
  ['caff', 'a recording'],
  ['riff', 'a recording'],
  ['fLaC', 'a recording'],
  ['OggS', 'a recording'],
  ['ID3', 'a recording'],
  ['SQLite format 3', 'a database'],
  ['7\x7f\x06\x82', 'part of a database'],
  ['7\x7f\x06\x83', 'part of a database'],
];

const BESIDE_A_DATABASE = /(-(wal|shm|journal)|\.key)$/;

function startOf(path: string, bytes: number): string {
  const handle = openSync(path, 'r');
  try {
    const start = Buffer.alloc(bytes);
    return start.toString('latin1', 0, readSync(handle, start, 0, bytes, 0));
  } finally {
    closeSync(handle);
  }
}

/** "a recording", "a database", or null for what may be replaced. */
function keptKind(path: string): string | null {
  const start = startOf(path, 16);
  const kind = KEPT.find(([mark]) => start.startsWith(mark))?.[1] ?? null;
  if (kind !== null || !BESIDE_A_DATABASE.test(path)) return kind;
  const database = path.replace(BESIDE_A_DATABASE, '');
  const there = statSync(database, { throwIfNoEntry: false });
  return there?.isFile() === true && keptKind(database) === 'a database' ? 'part of a database' : null;
}

/** The place itself: links followed, also those of a folder above a file that is not there yet. */
function placeOf(file: string): string {
  if (statSync(file, { throwIfNoEntry: false }) !== undefined) return realpathSync(file);
  return join(realpathSync(dirname(resolve(file))), basename(file));
}

/** Whether two names mean one file: the same place, or one file under two hard links. */
function sameFile(one: string, other: string): boolean {
  const [a, b] = [one, other].map((path) => statSync(path, { throwIfNoEntry: false, bigint: true }));
  if (a !== undefined && b !== undefined) return a.dev === b.dev && a.ino === b.ino;
  if (a !== undefined || b !== undefined) return false;
  try {
    return placeOf(one) === placeOf(other);
  } catch {
    return false;
  }
}

const besideStore = (file: string): string[] => [file, `${file}-wal`, `${file}-shm`, `${file}-journal`, `${file}.key`];

/**
 * Says before the work whether its result may be written there.
 *
 * @returns the place to write to, links followed
 * @throws UsageError naming the flag, the file and the reason
 */
export function checkOutput({ flag, file, inputs, replace }: Output): string {
  const refuse = (why: string) => new UsageError(`${flag} ${file}: ${why}`);
  if (file === '') throw new UsageError(`${flag} '': the name of a file was expected`);
  const input = inputs.find((path) => path !== undefined && besideStore(path).some((each) => sameFile(each, file)));
  if (input !== undefined) throw refuse(`that is ${input}, which this command reads; another name was expected`);
  try {
    const place = placeOf(file);
    const there = statSync(place, { throwIfNoEntry: false });
    if (there?.isDirectory() === true) throw Object.assign(new Error(), { code: 'EISDIR' });
    if (there !== undefined && !there.isFile()) throw Object.assign(new Error(), { code: 'ENOTFILE' });
    const kept = there === undefined || replace === true ? null : keptKind(place);
    if (kept !== null) throw refuse(`${kept} is there and is kept; give another name, or --replace if it may go`);
    if (!statSync(dirname(place)).isDirectory()) throw Object.assign(new Error(), { code: 'ENOTDIR' });
    return place;
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw refuse(`cannot be written (${whyUnwritten(error)})`);
  }
}

/**
 * Writes what `fill` gives, whole or not at all.
 *
 * @throws UsageError when it may not or cannot be written; what stood there is then unharmed
 */
export function writeOutput(output: Output, fill: (write: (bytes: Uint8Array) => void) => void): void {
  const place = checkOutput(output);
  const part = join(dirname(place), `.platterside-${randomBytes(9).toString('hex')}.part`);
  let handle: number | null = null;
  try {
    handle = openSync(part, 'wx');
    const open = handle;
    fill((bytes) => {
      for (let at = 0; at < bytes.length; ) at += writeSync(open, bytes, at);
    });
    fsyncSync(handle);
    closeSync(handle);
    handle = null;
    // something may have come to stand there while the work went on
    checkOutput(output);
    renameSync(part, place);
  } catch (error) {
    if (handle !== null) closeSync(handle);
    rmSync(part, { force: true });
    if (error instanceof UsageError || error instanceof RangeError || !(error instanceof Error) || !('code' in error))
      throw error;
    throw new UsageError(`${output.flag} ${output.file}: cannot be written (${whyUnwritten(error)})`);
  }
}

export const writeTextOutput = (output: Output, text: string | Uint8Array): void =>
  writeOutput(output, (write) => write(typeof text === 'string' ? new TextEncoder().encode(text) : text));
