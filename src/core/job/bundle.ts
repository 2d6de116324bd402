/**
 * Jobs as one bundle, `*.platterside.zip`: each job as its job file, photographs and recordings beside it as they are, and a
 * list of all of it with sizes and fingerprints. docs/bundle.md is its page.
 */

import { strFromU8, strToU8, type Zippable, zipSync } from 'fflate';
import { z } from 'zod';
import { type Statement, say, statement, stopped } from '../words/statement.ts';
import { checkSentence } from './checkSentence.ts';
import { type JobFile, readJobFile } from './jobFile.ts';
import { jpegOfBase64 } from './plainJpeg.ts';
import { readZip } from './zip.ts';

/** Grows only when a key or a meaning changes. */
const BUNDLE_SCHEMA = 1;
/** bytes of the file, and of what it holds when inflated */
export const MOST_BUNDLE_BYTES = 256 * 2 ** 20;
const MOST_INFLATED_BYTES = 512 * 2 ** 20;
const MOST_FILES = 5000;
/** bytes; a longer recording stays where it is */
export const MOST_RECORDING_BYTES = 64 * 2 ** 20;

const paths =
  /^(bundle\.json|jobs\/[A-Za-z0-9_-]{1,64}\.json|photographs\/[A-Za-z0-9_-]{1,64}\.jpg|recordings\/[0-9a-f]{64}\.(wav|flac))$/;

const listSchema = z.object({
  schema: z.literal(BUNDLE_SCHEMA),
  kind: z.literal('platterside-bundle'),
  madeBy: z.string().max(100),
  exportedAt: z.iso.datetime(),
  /** the owners' names were left out */
  withoutOwners: z.boolean(),
  files: z
    .array(
      z.object({
        path: z.string().regex(paths),
        bytes: z.number().int().min(0),
        sha256: z.string().regex(/^[0-9a-f]{64}$/),
      }),
    )
    .max(MOST_FILES),
});

/** What became of a file that was imported. */
export const importDoneSchema = z.object({
  jobs: z.array(
    z.object({ outcome: z.enum(['imported', 'here-already', 'here-otherwise']), id: z.string(), number: z.number() }),
  ),
  /** that the bundle holds; the command line takes them out */
  recordings: z.number(),
});
export type ImportDone = z.infer<typeof importDoneSchema>;

/** What the platform gives: core has neither. */
export interface Bytes {
  /** SHA-256, hexadecimal */
  fingerprint(bytes: Uint8Array): string;
  toBase64(bytes: Uint8Array): string;
}

export interface BundledRecording {
  /** fingerprint of the recording */
  readonly sha256: string;
  readonly ending: 'wav' | 'flac';
  readonly bytes: Uint8Array;
}

export interface Bundle {
  readonly withoutOwners: boolean;
  readonly jobs: readonly JobFile[];
  readonly recordings: readonly BundledRecording[];
}

export type ReadBundle =
  | { readonly found: true; readonly bundle: Bundle }
  | { readonly found: false; readonly why: Statement };

/** A job file without the owner's name. Notes stay as they were written. */
export const withoutOwner = (file: JobFile): JobFile => ({ ...file, job: { ...file.job, customer: '' } });

const jsonBytes = (value: unknown): Uint8Array => strToU8(`${JSON.stringify(value, null, 1)}\n`);

/** Who wrote it and when (ISO time in UTC) stands in its list. */
export function writeBundle(
  { withoutOwners, jobs, recordings }: Bundle,
  { madeBy, exportedAt }: { readonly madeBy: string; readonly exportedAt: string },
  platform: Bytes,
): Uint8Array {
  const files = new Map<string, Uint8Array>();
  for (const whole of jobs) {
    const file = withoutOwners ? withoutOwner(whole) : whole;
    const photographs = file.photographs.map(({ jpeg, ...photograph }) => {
      files.set(`photographs/${photograph.id}.jpg`, jpegOfBase64(jpeg));
      return photograph;
    });
    files.set(`jobs/${file.job.id}.json`, jsonBytes({ ...file, photographs }));
  }
  for (const { sha256, ending, bytes } of recordings) files.set(`recordings/${sha256}.${ending}`, bytes);
  const list: z.infer<typeof listSchema> = {
    schema: BUNDLE_SCHEMA,
    kind: 'platterside-bundle',
    madeBy,
    exportedAt,
    withoutOwners,
    files: [...files].map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: platform.fingerprint(bytes) })),
  };
  return zipped(list, files);
}

function zipped(list: z.infer<typeof listSchema>, files: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const content: Zippable = { 'bundle.json': jsonBytes(list) };
  for (const [path, bytes] of files) content[path] = [bytes, { level: path.endsWith('.json') ? 6 : 0 }];
  return zipSync(content, { mtime: list.exportedAt });
}

/** What a bundle may hold and be. */
export const bundleBounds = {
  mostFiles: MOST_FILES,
  mostBytes: MOST_INFLATED_BYTES,
  mayBe: (path: string) => paths.test(path),
};

/** A bundle that was just written, with recordings beside what is in it. @throws Error where it is none */
export function bundleWith(bundle: Uint8Array, recordings: readonly BundledRecording[]): Uint8Array {
  const zip = readZip(bundle, bundleBounds);
  if (!zip.found) throw new Error(stopped(say(zip.why)));
  const files = new Map(zip.files);
  const list = listSchema.parse(jsonOf(files.get('bundle.json') ?? new Uint8Array())?.value);
  files.delete('bundle.json');
  const listed = new Map(list.files.map((file) => [file.path, file]));
  for (const { sha256, ending, bytes } of recordings) {
    const path = `recordings/${sha256}.${ending}`;
    files.set(path, bytes);
    listed.set(path, { path, bytes: bytes.length, sha256 });
  }
  return zipped({ ...list, files: [...listed.values()] }, files);
}

const wrong = (why: Statement) => ({ found: false, why }) as const;

function jsonOf(bytes: Uint8Array): { readonly value: unknown } | null {
  try {
    return { value: JSON.parse(strFromU8(bytes)) };
  } catch {
    return null;
  }
}

/** Nothing is taken of a bundle in which anything is wrong. */
export function readBundle(bytes: Uint8Array, platform: Bytes): ReadBundle {
  const zip = readZip(bytes, bundleBounds);
  if (!zip.found) return zip;
  const head = jsonOf(zip.files.get('bundle.json') ?? new Uint8Array())?.value as
    | { schema?: unknown }
    | null
    | undefined;
  if (head === undefined) return wrong(statement('bundle-no-list'));
  if (typeof head?.schema === 'number' && head.schema > BUNDLE_SCHEMA)
    return wrong(statement('bundle-newer', { schema: head.schema, most: BUNDLE_SCHEMA }));
  const list = listSchema.safeParse(head);
  if (!list.success) return wrong(statement('bundle-list-odd', { what: checkSentence(list.error) }));
  const listed = new Set(list.data.files.map(({ path }) => path));
  const unlisted = [...zip.files.keys()].find((path) => path !== 'bundle.json' && !listed.has(path));
  if (unlisted !== undefined) return wrong(statement('bundle-unlisted', { path: unlisted }));
  for (const { path, bytes: size, sha256 } of list.data.files) {
    const content = zip.files.get(path);
    if (content === undefined) return wrong(statement('bundle-listed-missing', { path }));
    if (content.length !== size || platform.fingerprint(content) !== sha256)
      return wrong(statement('bundle-changed', { path }));
  }
  const jobs: JobFile[] = [];
  const recordings: BundledRecording[] = [];
  for (const [path, content] of zip.files) {
    const ending = path.slice(path.lastIndexOf('.') + 1);
    if (ending === 'wav' || ending === 'flac') {
      const sha256 = path.slice('recordings/'.length, -ending.length - 1);
      if (platform.fingerprint(content) !== sha256) return wrong(statement('bundle-fingerprint', { path }));
      recordings.push({ sha256, ending, bytes: content });
    }
    if (!path.startsWith('jobs/')) continue;
    const json = jsonOf(content);
    if (json === null) return wrong(statement('bundle-not-json', { path }));
    const read = readJobFile(withPhotographs(json.value, zip.files, platform));
    if (!read.found) return wrong(statement('bundle-job-refused', { path, why: read.why }));
    jobs.push(read.file);
  }
  return jobs.length === 0
    ? wrong(statement('bundle-empty'))
    : { found: true, bundle: { withoutOwners: list.data.withoutOwners, jobs, recordings } };
}

/** The job file with its photographs in it again; one that is missing is left to the reader of job files to refuse. */
function withPhotographs(value: unknown, files: ReadonlyMap<string, Uint8Array>, platform: Bytes): unknown {
  const file = value as { photographs?: unknown };
  if (typeof value !== 'object' || value === null || !Array.isArray(file.photographs)) return value;
  const photographs = file.photographs.map((photograph: { id?: unknown } | null) => {
    const jpeg = files.get(`photographs/${String(photograph?.id)}.jpg`);
    return jpeg === undefined ? photograph : { ...photograph, jpeg: platform.toBase64(jpeg) };
  });
  return { ...value, photographs };
}
