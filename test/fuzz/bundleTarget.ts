/** Bundles of jobs that a stranger sends: the zip itself damaged, or a sound zip around a list or a job that is not. */
import { createHash } from 'node:crypto';
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { type Bytes, readBundle, writeBundle } from '../../src/core/job/bundle.ts';
import { soundIn } from '../../src/core/job/bundledSound.ts';
import { demoJob } from '../../src/core/job/demoJob.ts';
import { jobsFromFile } from '../../src/core/job/jobsFromFile.ts';
import { say } from '../../src/core/words/statement.ts';
import { cameraJpeg } from '../../src/store/jpeg.fixture.ts';
import { oneOf, type Random, woundedBytes, woundedJson } from './mutate.ts';

const platform: Bytes = {
  fingerprint: (bytes) => createHash('sha256').update(bytes).digest('hex'),
  toBase64: (bytes) => Buffer.from(bytes).toString('base64'),
};
const at = '2026-01-02T03:04:05.000Z';
const demo = demoJob({ at, madeBy: 'test' });
const photograph = { id: 'p1', station: 'intake' as const, at, note: '', width: 4, height: 3, jpeg: cameraJpeg(4, 3) };
const sound = strToU8('RIFF and so on');
const original = writeBundle(
  {
    withoutOwners: false,
    jobs: [{ ...demo, photographs: [photograph] }],
    recordings: [{ sha256: platform.fingerprint(sound), ending: 'wav', bytes: sound }],
  },
  { madeBy: 'test', exportedAt: at },
  platform,
);

/** One JSON file in it wounded; the list then names what is there, or is itself the wounded one. */
function woundedInside(random: Random): Uint8Array {
  const files = unzipSync(original);
  const path = oneOf(
    random,
    Object.keys(files).filter((one) => one.endsWith('.json')),
  );
  const wounded = strToU8(JSON.stringify(woundedJson(JSON.parse(strFromU8(files[path]!)), random)));
  const list = JSON.parse(strFromU8(files['bundle.json']!));
  const told = list.files.map((file: { path: string }) =>
    file.path === path ? { path, bytes: wounded.length, sha256: platform.fingerprint(wounded) } : file,
  );
  const content: Zippable = { ...files, 'bundle.json': strToU8(JSON.stringify({ ...list, files: told })) };
  content[path] = wounded;
  return zipSync(content);
}

export const damagedBundle = (random: Random): Uint8Array =>
  random() < 0.5 ? woundedBytes(original, random) : woundedInside(random);

/** @returns what it says where it refuses, null where it reads */
export function readDamagedBundle(bytes: Uint8Array): string | null {
  for (const read of [readBundle(bytes, platform), jobsFromFile(bytes, platform)]) {
    if (!read.found) return say(read.why);
  }
  for (const { name } of soundIn(bytes))
    if (/[/\\]/.test(name)) throw new Error(`a recording named as a path: ${name}`);
  return null;
}
