/** Bundles and job files on their way in and out, case by case; job.test.ts goes the whole way once. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { MOST_RECORDING_BYTES } from '../core/job/bundle.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './job.ts';

let folder: ReturnType<typeof scratchFolder>;
let heard: Heard;
let ids: string[];
const at = (...names: string[]) => join(folder.path, ...names);
const sounds = {
  'a.wav': 'RIFF the first',
  'b.FLAC': 'fLaC the second',
  'c.wav': 'of no job',
  'a copy.wav': 'RIFF the first',
};
const sha = (text: string) => createHash('sha256').update(text).digest('hex');

beforeEach(async () => {
  folder = scratchFolder();
  mkdirSync(at('sounds', 'folder.wav'), { recursive: true });
  for (const [name, text] of Object.entries(sounds)) writeFileSync(at('sounds', name), text);
  writeFileSync(at('sounds', 'a.txt'), sounds['a.wav']);
  const jobs = await openStore(at('bench.sqlite'));
  ids = [];
  for (const [i, sound] of [sounds['a.wav'], sounds['b.FLAC']].entries()) {
    const { id } = given(await jobs.createJob({ deck: { name: `deck ${i}` }, customer: `C-${i}` }));
    const capture = { ...tiltedSide.capture, sha256: sha(sound) };
    await jobs.addCapture(id, { document: { ...tiltedSide, capture }, heardAt: '2026-03-04T09:00:00.000Z' });
    ids.push(id);
  }
  await jobs.close();
});
afterEach(() => folder.remove());

async function job(args: string[], store = 'bench.sqlite'): Promise<string> {
  heard = heardStreams();
  expect(await command.run([...args, '--store', at(store)], heard.io)).toBe(0);
  return heard.out;
}
const bundle = () => at('j.platterside.zip');

describe('export', () => {
  it('of one job or several, each once, into one bundle', async () => {
    expect(await job(['export', '1', '-o', bundle()])).toBe('');
    expect(heard.err).toBe(`Job 1 written to ${bundle()}.\n`);
    await job(['export', '1', '2', ids[0], '-o', bundle()]);
    expect(heard.err).toBe(`Jobs 1, 2 written to ${bundle()}.\n`);
    expect(JSON.parse(await job(['import', bundle(), '--json'], 'new.sqlite')).jobs).toHaveLength(2);
  });

  it('brings along the recordings of the folder that the jobs know', async () => {
    await job(['export', '1', '2', '-o', bundle(), '--recordings', at('sounds')]);
    expect(heard.err).toBe(`Jobs 1, 2 written to ${bundle()}. 2 of 2 recordings are in it.\n`);
    await job(['export', '2', '-o', bundle(), '--recordings', at('sounds')]);
    expect(heard.err).toBe(`Job 2 written to ${bundle()}. 1 of 1 recordings are in it.\n`);
    // one that is larger than a bundle takes counts as missing
    truncateSync(at('sounds', 'b.FLAC'), MOST_RECORDING_BYTES + 1);
    await job(['export', '2', '-o', bundle(), '--recordings', at('sounds')]);
    expect(heard.err).toBe(`Job 2 written to ${bundle()}. 0 of 1 recordings are in it.\n`);
  });

  it('leaves the owners out where that is said, of a bundle and of one job as JSON', async () => {
    for (const file of [bundle(), at('j.JSON')]) {
      await job(['export', '1', '-o', file]);
      expect(readFileSync(file, 'latin1').includes('C-0') || file === bundle()).toBe(true);
      await job(['export', '1', '-o', file, '--without-owner']);
      await job(['import', file], `${file.length}.sqlite`);
      expect(JSON.parse(await job(['show', '1', '--json'], `${file.length}.sqlite`)).job.customer).toBe('');
    }
    expect(heard.err).toBe('');
    await job(['export', '1', '-o', at('j.json')]);
    expect(heard.err).toBe(`Job 1 written to ${at('j.json')}.\n`);
    const text = readFileSync(at('j.json'), 'utf8');
    expect(text).toBe(`${JSON.stringify(JSON.parse(text), null, 1)}\n`);
    expect(JSON.parse(text).job.customer).toBe('C-0');
    expect(JSON.parse(text).madeBy).toMatch(/^platterside /);
  });

  it.each([
    [['export', '-o', 'x.zip'], 'job export: one job or more was expected'],
    [['export', '-o', 'x.json'], 'job export: one job was expected'],
    [['export', '1', '2', '-o', 'x.json'], 'job export: one job was expected'],
    [['export', '1'], 'job export needs -o FILE to write to'],
    [['export', '1', '-o', ''], 'job export needs -o FILE to write to'],
    [['export', '1', '-o', 'x.json', '--recordings', '.'], '--recordings: a .json file holds no recordings'],
    [['export', '1', '-o', '/tmp/x.zip', '--recordings', '/nowhere'], '--recordings /nowhere: cannot be read'],
    [['import'], 'job import: one file was expected'],
    [['import', 'a', 'b'], 'job import: one file was expected'],
    [['import', '/nowhere/a'], 'a bundle or a job file was expected'],
  ])('refuses %j', async (args, sentence) => {
    await expect(job(args)).rejects.toThrow(UsageError);
    await expect(job(args)).rejects.toThrow(sentence);
  });
});

describe('import', () => {
  const sounded = () => job(['export', '1', '2', '-o', bundle(), '--recordings', at('sounds')]);
  const out = () => at('out');

  it('tells of each job whether it is new here, here already, or here otherwise', async () => {
    await sounded();
    const imported = ids.map((id, i) => `Job ${i + 1} imported (id ${id}).\n`).join('');
    expect(await job(['import', bundle()], 'new.sqlite')).toBe(imported);
    expect(heard.err).toBe('The bundle holds 2 recordings; --recordings FOLDER takes them out.\n');
    const same = (number: number) => `Job ${number} is here already, with the same content; nothing was changed.\n`;
    expect(await job(['import', bundle()])).toBe(same(1) + same(2));
    const told = JSON.parse(await job(['import', bundle(), '--json']));
    expect(told).toEqual({
      ...{ schema: 1, id: ids[0], number: 1 },
      jobs: ids.map((id, i) => ({ id, number: i + 1, outcome: 'here-already' })),
    });
    const jobs = await openStore(at('bench.sqlite'));
    await jobs.changeJob(ids[1], { changes: [{ path: ['notes'], was: '', is: 'later' }] });
    await jobs.close();
    const refused = job(['import', bundle()]);
    await expect(refused).rejects.toThrow(CannotError);
    await expect(refused).rejects.toThrow(
      `${bundle()}: one job not imported; --as-new imports them as jobs of their own`,
    );
    expect(heard.out).toBe(`${same(1)}Job 2 is here already and differs from the file; it was left as it is.\n`);
    const again = await openStore(at('bench.sqlite'));
    await again.changeJob(ids[0], { changes: [{ path: ['notes'], was: '', is: 'later' }] });
    await again.close();
    await expect(job(['import', bundle()])).rejects.toThrow(': 2 jobs not imported; --as-new');
    expect(await job(['import', bundle(), '--as-new'])).toMatch(/^Job 3 imported \(id \S+\)\.\nJob 4 imported/);
  });

  it('takes the recordings out under names of their own, and keeps what is there', async () => {
    await sounded();
    mkdirSync(out());
    await job(['import', bundle(), '--recordings', out()]);
    const names = [`${sha(sounds['a.wav']).slice(0, 16)}.wav`, `${sha(sounds['b.FLAC']).slice(0, 16)}.flac`];
    expect(heard.err).toBe(`2 recordings are in ${out()}.\n`);
    expect(readdirSync(out()).sort()).toEqual([...names].sort());
    expect(readFileSync(join(out(), names[1]), 'utf8')).toBe(sounds['b.FLAC']);
    writeFileSync(join(out(), names[0]), 'mine');
    await job(['import', bundle(), '--recordings', out()]);
    expect(heard.err).toBe(
      `${names.map((name) => `${join(out(), name)} is there already and is kept.\n`).join('')}2 recordings are in ${out()}.\n`,
    );
    expect(readFileSync(join(out(), names[0]), 'utf8')).toBe('mine');
  });

  it('of a bundle without recordings says nothing of them', async () => {
    await job(['export', '1', '-o', bundle()]);
    await job(['import', bundle()]);
    expect(heard.err).toBe('');
    writeFileSync(at('text'), 'dear diary');
    await expect(job(['import', at('text')])).rejects.toThrow(/text: neither a bundle nor JSON/);
  });
});
