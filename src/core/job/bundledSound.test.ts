import { createHash } from 'node:crypto';
import { strToU8, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import { type Bytes, writeBundle } from './bundle.ts';
import { soundIn } from './bundledSound.ts';
import { demoJob } from './demoJob.ts';
import { jobsFromFile } from './jobsFromFile.ts';
import { tiltedSide } from './side.fixture.ts';

const platform: Bytes = {
  fingerprint: (bytes) => createHash('sha256').update(bytes).digest('hex'),
  toBase64: (bytes) => Buffer.from(bytes).toString('base64'),
};
const at = '2026-03-04T09:00:00.000Z';
const made = { madeBy: 'x', exportedAt: at };
const [first, second] = ['RIFF one', 'fLaC two'].map((text) => strToU8(text));
const recordings = [
  { sha256: platform.fingerprint(first), ending: 'wav' as const, bytes: first },
  { sha256: platform.fingerprint(second), ending: 'flac' as const, bytes: second },
];
const jobWith = (file: string) => {
  const capture = { ...tiltedSide.capture, file, sha256: recordings[0].sha256 };
  return demoJob({ at, madeBy: 'x', sides: [{ document: { ...tiltedSide, capture }, station: 'tilt', heardAt: at }] });
};
const bundle = (file: string) =>
  writeBundle({ withoutOwners: false, jobs: [jobWith(file)], recordings }, made, platform);

it('sound goes by the name that its job knows it by, never a path; else by its fingerprint', () => {
  const other = { name: `${recordings[1].sha256.slice(0, 16)}.flac`, bytes: second };
  for (const file of ['side one.wav', 'C:\\music/../old\\side one.wav'])
    expect(soundIn(bundle(file)), file).toEqual([{ name: 'side one.wav', bytes: first }, other]);
});

it('nothing comes of what is no bundle, nor names of what is no job', () => {
  expect(soundIn(strToU8('hello'))).toEqual([]);
  const path = `recordings/${recordings[0].sha256}.wav`;
  const odd = zipSync({ 'jobs/a.json': strToU8('{"captures":1}'), 'bundle.json': strToU8('[]'), [path]: first });
  expect(soundIn(odd)).toEqual([{ name: `${recordings[0].sha256.slice(0, 16)}.wav`, bytes: first }]);
});

const read = (bytes: Uint8Array) => {
  const jobs = jobsFromFile(bytes, platform);
  return jobs.found ? jobs.bundle : say(jobs.why);
};

it('jobs are read from a bundle and from the file of one job', () => {
  const file = jobWith('a.wav');
  expect(read(strToU8(JSON.stringify(file)))).toEqual({ withoutOwners: false, jobs: [file], recordings: [] });
  expect(read(bundle('a.wav'))).toMatchObject({ jobs: [{ job: { id: 'demo' } }], recordings });
});

it('a file that holds no jobs is refused as what it seems to be', () => {
  expect(read(strToU8('hello'))).toBe('neither a bundle nor JSON; a file that job export wrote was expected');
  expect(read(strToU8('{}'))).toContain('not a job file');
  expect(read(strToU8('PK and more'))).toBe('not a zip file, or its end is missing');
  for (const text of ['P', 'PX', 'XK']) expect(read(strToU8(text))).toContain('neither a bundle nor JSON');
});
