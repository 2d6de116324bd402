import { createHash } from 'node:crypto';
import { strToU8, type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { cameraJpeg } from '../../store/jpeg.fixture.ts';
import { say } from '../words/statement.ts';
import { type Bytes, bundleBounds, bundleWith, readBundle, writeBundle } from './bundle.ts';
import { demoJob } from './demoJob.ts';
import { sameJob } from './jobContent.ts';
import { readZip } from './zip.ts';

const platform: Bytes = {
  fingerprint: (bytes) => createHash('sha256').update(bytes).digest('hex'),
  toBase64: (bytes) => Buffer.from(bytes).toString('base64'),
};
const made = { madeBy: 'platterside 0', exportedAt: '2026-03-04T09:00:00.000Z' };
const demo = demoJob({ at: made.exportedAt, madeBy: made.madeBy });
const photograph = {
  ...{ id: 'p1', station: 'intake' as const, at: made.exportedAt, note: 'worn tip' },
  ...{ width: 4, height: 3, jpeg: cameraJpeg(4, 3) },
};
const job = { ...demo, job: { ...demo.job, customer: 'C-9' }, photographs: [photograph] };
const sound = strToU8('RIFF and so on');
const recordings = [{ sha256: platform.fingerprint(sound), ending: 'wav' as const, bytes: sound }];
const bundle = writeBundle({ withoutOwners: false, jobs: [job], recordings }, made, platform);

it('recordings are put beside what a bundle holds, each once, and it reads as if they had been written with it', () => {
  const without = writeBundle({ withoutOwners: true, jobs: [job], recordings: [] }, made, platform);
  const whole = bundleWith(bundleWith(without, recordings), recordings);
  expect(whole).toEqual(writeBundle({ withoutOwners: true, jobs: [job], recordings }, made, platform));
  expect(readBundle(whole, platform)).toMatchObject({ found: true, bundle: { withoutOwners: true, recordings } });
  expect(() => bundleWith(strToU8('no zip'), recordings)).toThrow();
});

const why = (bytes: Uint8Array): string => {
  const read = readBundle(bytes, platform);
  return read.found ? 'read' : say(read.why);
};

/** The bundle with files put in, changed or (null) left out. */
function changed(files: Readonly<Record<string, Uint8Array | null>>): Uint8Array {
  const zip = readZip(bundle, { mostFiles: 10, mostBytes: 1e8, mayBe: () => true });
  if (!zip.found) throw new Error(say(zip.why));
  const content: Zippable = {};
  for (const [path, bytes] of new Map([...zip.files, ...Object.entries(files)]))
    if (bytes !== null) content[path] = bytes;
  return zipSync(content);
}

/** Every size in the directory and before the files that is `from` becomes `to`. */
function lying(bytes: Uint8Array, from: number, to: number): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  for (let at = 0; at + 30 < copy.length; at++) {
    const place = { 67324752: 22, 33639248: 24 }[view.getUint32(at, true)];
    if (place !== undefined && view.getUint32(at + place, true) === from) view.setUint32(at + place, to, true);
  }
  return copy;
}

describe('a bundle', () => {
  it('gives back what was put in, and is the same bytes each time', () => {
    const read = readBundle(bundle, platform);
    if (!read.found) throw new Error(say(read.why));
    expect(read.bundle.jobs).toHaveLength(1);
    expect(sameJob(read.bundle.jobs[0], job)).toBe(true);
    expect(read.bundle.jobs[0].job.id).toBe(job.job.id);
    expect(read.bundle.recordings).toEqual(recordings);
    expect(writeBundle({ withoutOwners: false, jobs: [job], recordings }, made, platform)).toEqual(bundle);
  });

  it('leaves the owner out where it is asked to', () => {
    const nameless = writeBundle({ withoutOwners: true, jobs: [job], recordings: [] }, made, platform);
    const read = readBundle(nameless, platform);
    expect(read.found && [read.bundle.withoutOwners, read.bundle.jobs[0].job.customer]).toEqual([true, '']);
  });

  it('is refused whole, in one clause, where anything in it is wrong', () => {
    const recording = `recordings/${recordings[0].sha256}.wav`;
    const list = (patch: object) => {
      const zip = readZip(bundle, { mostFiles: 10, mostBytes: 1e8, mayBe: () => true });
      const text = zip.found ? new TextDecoder().decode(zip.files.get('bundle.json')) : '';
      return changed({ 'bundle.json': strToU8(JSON.stringify({ ...JSON.parse(text), ...patch })) });
    };
    expect(why(strToU8('hello'))).toBe('not a zip file, or its end is missing');
    expect(why(bundle.slice(0, -30))).toBe('not a zip file, or its end is missing');
    expect(why(changed({ '../evil.json': sound }))).toBe('it holds "../evil.json", which is no file of a bundle');
    expect(why(changed({ '/etc/passwd': sound }))).toContain('which is no file of a bundle');
    expect(why(changed({ 'photographs/..jpg': sound }))).toContain('which is no file of a bundle');
    expect(why(changed({ 'bundle.json': null }))).toBe('its bundle.json is missing or is not JSON');
    expect(why(changed({ 'photographs/p1.jpg': null }))).toBe('photographs/p1.jpg is listed and is not there');
    expect(why(changed({ [recording]: null }))).toBe(`${recording} is listed and is not there`);
    expect(why(changed({ [recording]: strToU8('RIFF and so 0n') }))).toBe(`${recording} is not as it was written`);
    expect(why(changed({ 'photographs/a.jpg': sound }))).toBe(
      'it holds photographs/a.jpg, which its bundle.json does not list',
    );
    expect(why(list({ schema: 2 }))).toContain('a newer Platterside wrote it');
    expect(why(list({ kind: 'other' }))).toContain('bundle.json: at kind');
    expect(why(list({ files: [] }))).toContain('which its bundle.json does not list');
    expect(why(writeBundle({ withoutOwners: false, jobs: [], recordings }, made, platform))).toBe('it holds no job');
  });
});

describe('a zip file from anywhere', () => {
  const bounds = { mostFiles: 10, mostBytes: 1e6, mayBe: () => true };
  const read = (bytes: Uint8Array) => {
    const zip = readZip(bytes, bounds);
    return zip.found ? zip.files : say(zip.why);
  };
  const bomb = zipSync({ a: new Uint8Array(2_000_000) });

  it('inflates nothing beyond its bounds, whatever its directory says', () => {
    expect(read(bomb)).toBe('its files would take more than 1 MB');
    expect(read(lying(bomb, 2_000_000, 100))).toBe('a is larger than its directory says');
    expect(read(lying(zipSync({ a: new Uint8Array(50) }), 50, 60))).toBe('a is cut off');
    const many = Object.fromEntries(Array.from({ length: 11 }, (_, i) => [`f${i}`, sound]));
    expect(read(zipSync(many))).toBe('it lists 11 files, more than 10');
  });

  it('answers every single changed byte with the same content or one clause', () => {
    const whole = zipSync({ a: strToU8('one and one and one and one'), b: [sound, { level: 0 }] });
    let refused = 0;
    for (let at = 0; at < whole.length; at++) {
      for (const bit of [1, 128]) {
        const copy = whole.slice();
        copy[at] ^= bit;
        if (typeof read(copy) === 'string') refused += 1;
      }
    }
    expect(refused).toBeGreaterThan(50);
    for (let length = 0; length < whole.length; length++) expect(typeof read(whole.slice(0, length))).toBe('string');
  });
});

describe('a bundle of several jobs', () => {
  const other = { ...job, job: { ...job.job, id: 'other' }, photographs: [{ ...photograph, id: 'p2' }] };
  const flac = strToU8('fLaC');
  const both = [...recordings, { sha256: platform.fingerprint(flac), ending: 'flac' as const, bytes: flac }];
  const files = (bytes: Uint8Array) => {
    const zip = readZip(bytes, { mostFiles: 10, mostBytes: 1e8, mayBe: () => true });
    if (!zip.found) throw new Error(say(zip.why));
    return zip.files;
  };
  const list = (bytes: Uint8Array) => JSON.parse(new TextDecoder().decode(files(bytes).get('bundle.json')));

  it('lists every file with its size and fingerprint, photographs beside their jobs', () => {
    const whole = writeBundle({ withoutOwners: false, jobs: [job, other], recordings: both }, made, platform);
    const paths = ['photographs/p1.jpg', 'jobs/demo.json', 'photographs/p2.jpg', 'jobs/other.json'].concat(
      both.map(({ sha256, ending }) => `recordings/${sha256}.${ending}`),
    );
    expect(list(whole)).toEqual({
      schema: 1,
      kind: 'platterside-bundle',
      ...made,
      withoutOwners: false,
      files: paths.map((path) => {
        const content = files(whole).get(path)!;
        return { path, bytes: content.length, sha256: platform.fingerprint(content) };
      }),
    });
    const text = new TextDecoder().decode(files(whole).get('jobs/demo.json'));
    expect(text).not.toContain(photograph.jpeg);
    expect(text.endsWith('}\n')).toBe(true);
    const read = readBundle(whole, platform);
    expect(read.found && read.bundle.recordings).toEqual(both);
    expect(read.found && read.bundle.jobs.map((one) => [one.job.id, one.photographs])).toEqual([
      ['demo', [photograph]],
      ['other', [{ ...photograph, id: 'p2' }]],
    ]);
  });

  /** The bundle with one file changed and its line in the list with it. */
  function forged(path: string, content: Uint8Array): Uint8Array {
    const { files: listed, ...head } = list(bundle);
    const line = { path, bytes: content.length, sha256: platform.fingerprint(content) };
    const kept = (listed as { path: string }[]).filter((one) => one.path !== path);
    return changed({ [path]: content, 'bundle.json': strToU8(JSON.stringify({ ...head, files: [...kept, line] })) });
  }

  it('is refused where a listed file is not what its name or its kind says', () => {
    const path = `recordings/${recordings[0].sha256}.wav`;
    expect(why(forged(path, flac))).toBe(`${path} has not the fingerprint of its name`);
    expect(why(forged('jobs/demo.json', strToU8('hello')))).toBe('jobs/demo.json is not JSON');
    for (const odd of ['null', '3', '[]', '{}', '{"photographs":3}'])
      expect(why(forged('jobs/demo.json', strToU8(odd)))).toMatch(/^jobs\/demo\.json: not a job file/);
    const { photographs: _, ...rest } = job;
    const text = (photographs: unknown) => strToU8(JSON.stringify({ ...rest, photographs }));
    expect(why(forged('jobs/demo.json', text([null])))).toMatch(/^jobs\/demo\.json: at photographs\.0: /);
    expect(why(forged('jobs/demo.json', text([{ ...photograph, id: 'gone', jpeg: undefined }])))).toMatch(
      /at photographs\.0\.jpeg/,
    );
    expect(why(forged('jobs/demo.json', text([{ ...photograph, jpeg: undefined }])))).toBe('read');
    // a list of another size, or with another fingerprint
    const odd = (more: object) => {
      const { files: listed, ...head } = list(bundle);
      const changedList = [{ ...listed[0], ...more }, ...listed.slice(1)];
      return why(changed({ 'bundle.json': strToU8(JSON.stringify({ ...head, files: changedList })) }));
    };
    expect(odd({ bytes: 1 })).toBe('photographs/p1.jpg is not as it was written');
    expect(odd({ sha256: 'a'.repeat(64) })).toBe('photographs/p1.jpg is not as it was written');
  });

  it('is refused where its list is none', () => {
    const with_ = (text: string) => why(changed({ 'bundle.json': strToU8(text) }));
    for (const text of ['null', '3', '[]']) expect(with_(text)).toMatch(/^bundle\.json: at /);
    expect(with_('')).toBe('its bundle.json is missing or is not JSON');
    expect(with_('{"schema":1}')).toMatch(/^bundle\.json: at /);
    expect(with_('{"schema":"2"}')).toMatch(/^bundle\.json: at schema: /);
  });

  it('holds files of its own names alone', () => {
    const sha = 'a'.repeat(64);
    const may = [
      'bundle.json',
      'jobs/a-_9.json',
      'photographs/a.jpg',
      `recordings/${sha}.wav`,
      `recordings/${sha}.flac`,
    ];
    const odd = [
      'xbundle.json',
      'bundle.jsonx',
      'jobs/.json',
      'jobs/a/b.json',
      `jobs/${'a'.repeat(65)}.json`,
      'photographs/a.png',
      `recordings/${sha}a.wav`,
    ];
    expect(may.map(bundleBounds.mayBe)).not.toContain(false);
    expect(odd.map(bundleBounds.mayBe)).not.toContain(true);
  });

  it('takes recordings only where it is a bundle itself', () => {
    const other = zipSync({ 'jobs/a.json': strToU8('{}') });
    expect(() => bundleWith(other, recordings)).toThrow();
    expect(() => bundleWith(strToU8('no zip'), [])).toThrow('not a zip file, or its end is missing.');
  });
});
