/** The `job` commands one by one: what each refuses, and what its flags do. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { readCsv } from '../core/words/csv.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './job.ts';

const folder = scratchFolder();
const store = join(folder.path, 'bench.sqlite');
let heard: Heard;
beforeAll(async () => {
  const jobs = await openStore(store);
  const { id } = given(await jobs.createJob({ deck: { name: 'studio deck' }, customer: 'C-9' }));
  await jobs.addCapture(id, { document: tiltedSide, station: 'intake', heardAt: '2026-03-04T09:00:00.000Z' });
  await jobs.addCapture(id, { document: straightSide, heardAt: '2026-03-04T10:00:00.000Z' });
  await jobs.close();
});
afterAll(() => folder.remove());
async function job(...args: string[]): Promise<string> {
  heard = heardStreams();
  expect(await command.run([...args, '--store', store], heard.io)).toBe(0);
  return heard.out;
}

describe('as text, JSON and CSV', () => {
  it.each(['list', 'hours', 'due'])('%s', async (name) => {
    expect(await job(name)).not.toMatch(/^[{[]/);
    expect(JSON.parse(await job(name, '--json'))).toMatchObject({ schema: 1 });
    expect(readCsv(await job(name, '--csv')).lines[0].cells.length).toBeGreaterThan(3);
    // JSON goes over CSV
    expect(JSON.parse(await job(name, '--csv', '--json'))).toMatchObject({ schema: 1 });
    await expect(job(name, 'x')).rejects.toThrow(`job ${name} takes no argument; 'x' was found`);
  });

  it('shows in colours where a terminal does', async () => {
    heard = heardStreams();
    await command.run(['show', '1', '--store', store], { ...heard.io, colour: true });
    expect(heard.out).toContain('\u001b[33madjust');
  });

  it('a search that is no word is refused, one that finds nothing says so', async () => {
    for (const words of [[], ['  '], [',;']])
      await expect(job('search', ...words)).rejects.toThrow('job search: words to look for were expected');
    expect(await job('search', 'nowhere')).toBe('No job has these words.\n');
    expect(JSON.parse(await job('search', 'studio', 'deck', '--json')).jobs).toHaveLength(1);
    expect(JSON.parse(await job('search', 'studio', 'arm', '--json')).jobs).toHaveLength(0);
  });
});

describe('set aside', () => {
  it.each([
    [['set-aside'], 'one job, and one of its recordings where only that is meant, were expected'],
    [['set-aside', '1', 'a', 'b', '--back'], 'one job, and one of its recordings'],
    [['set-aside', '1'], 'job set-aside needs --why TEXT, or --back'],
    [['set-aside', '1', '--why', ' '], 'job set-aside needs --why TEXT, or --back'],
    [['set-aside', '1', '--why', 'x', '--back'], 'job set-aside needs --why TEXT, or --back'],
    [['set-aside', '1', '--why', 'x'.repeat(5000)], 'job set-aside: --why: '],
  ])('refuses %j', async (args, sentence) => {
    await expect(job(...args)).rejects.toThrow(UsageError);
    await expect(job(...args)).rejects.toThrow(sentence);
  });

  it('a job or a recording goes and comes back, and one that is not there is told with where to look', async () => {
    expect(await job('set-aside', '1', '--why', 'a test')).toBe('Job 1 is set aside; nothing is deleted.\n');
    expect(JSON.parse(await job('show', '1', '--json')).job.setAside.why).toBe('a test');
    expect(await job('set-aside', '1', '--back')).toBe('Job 1 counts again.\n');
    expect(JSON.parse(await job('show', '1', '--json')).job.setAside).toBeNull();
    const [, { id }] = JSON.parse(await job('show', '1', '--json')).job.captures;
    expect(await job('set-aside', '1', id, '--why', 'x')).toBe('side-b.wav is set aside; it stays in the job.\n');
    expect(await job('set-aside', '1', id, '--back')).toBe('side-b.wav counts again.\n');
    await expect(job('set-aside', '1', 'none', '--back')).rejects.toThrow('job show 1 shows those there are.');
    await expect(job('set-aside', '9', '--back')).rejects.toThrow('There is no job 9. job list shows those there are.');
    await expect(job('set-aside', '9', '--back')).rejects.toThrow(CannotError);
  });
});

it.each([
  [[], 'job needs one of: list, show, export, import, report, search'],
  [['toString'], "job 'toString': one of list, show"],
  [['list', '--for', 'customer'], '--for belongs to job report'],
  [['report', '1', '--for', 'nobody', '-o', 'x'], "--for 'nobody': one of customer, technician was expected"],
  [['report', '1'], 'job report needs -o FILE to write to'],
  [['report'], 'job report: one job was expected'],
  [['history'], 'job history: one job was expected'],
  [['show', '1', '2'], 'job show: one job was expected'],
  [['delete', '1'], 'job delete takes a job away for good: add --yes; job export keeps it as a file first'],
  [['delete', '--yes'], 'job delete: one job was expected'],
])('refuses %j', async (args, sentence) => {
  await expect(job(...args)).rejects.toThrow(UsageError);
  await expect(job(...args)).rejects.toThrow(sentence);
});

it('a report takes the place of a recording only where that is said, and photographs are the technician’s', async () => {
  const file = join(folder.path, 'r.html');
  writeFileSync(file, 'RIFF a recording');
  await expect(job('report', '1', '-o', file)).rejects.toThrow('a recording is there and is kept');
  expect(await job('report', '1', '-o', file, '--replace')).toBe('');
  expect(heard.err).toBe(`Report written to ${file}.\n`);
  await job('report', '1', '--for', 'technician', '-o', file);
  expect(heard.err).toBe(`Report written to ${file}.\n`);
});

it('a deck goes with its last job, and stays with the others', async () => {
  const jobs = await openStore(store);
  const first = given(await jobs.createJob({ deck: { name: 'two jobs' } }));
  const deck = given(await jobs.job(first.id)).deck;
  given(await jobs.createJob({ deck: { id: deck.id } } as never));
  await jobs.close();
  expect(await job('delete', '2', '--yes')).toMatch(
    /^Job 2 is deleted, with the figures of 0 recordings\. Kept: the deck/,
  );
  expect(await job('delete', '3', '--yes')).toMatch(/^Job 3 is deleted.* and its deck\./);
});
