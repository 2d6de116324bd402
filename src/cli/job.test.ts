import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { jobListSchema, jobSchema } from '../core/job/api.ts';
import { straightSide, tiltedSide } from '../core/job/side.fixture.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { CannotError, UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';
import { command } from './job.ts';

let folder: ReturnType<typeof scratchFolder>;
let store: string;
let heard = heardStreams();

beforeEach(() => {
  folder = scratchFolder();
  store = join(folder.path, 'bench.sqlite');
});
afterEach(() => folder.remove());

async function job(...args: string[]): Promise<string> {
  heard = heardStreams();
  await command.run([...args, '--store', store], heard.io);
  return heard.out;
}

/** What is printed for bad usage (2) or for what cannot be given (1), with the exit status. */
async function refusal(...args: string[]): Promise<[number, string]> {
  const error = await job(...args).then(
    () => new Error(`job ${args.join(' ')} was done`),
    (reason: unknown) => reason as Error,
  );
  const parse = ((error as { code?: string }).code ?? '').startsWith('ERR_PARSE_ARGS');
  if (!(error instanceof UsageError || error instanceof CannotError || parse)) throw error;
  expect(error.message).not.toContain('\n');
  return [error instanceof CannotError ? 1 : 2, error.message];
}

async function fill(): Promise<void> {
  const jobs = await openStore(store);
  const { id } = given(await jobs.createJob({ deck: { name: 'studio deck' }, customer: 'C-9' }));
  await jobs.addCapture(id, { document: tiltedSide, station: 'intake', heardAt: '2026-03-04T09:00:00.000Z' });
  await jobs.addCapture(id, { document: straightSide, heardAt: '2026-03-04T10:00:00.000Z' });
  await jobs.close();
}

describe('job', () => {
  it('lists and shows, for people and for programs', async () => {
    await fill();
    expect(await job('list')).toMatch(/ {2}1 {4}Job 1 · studio deck {2}studio deck {2}0 of 9 done {2}2 recordings/);
    const { schema, ...list } = JSON.parse(await job('list', '--json'));
    expect(schema).toBe(1);
    expect(jobListSchema.parse(list).jobs[0].number).toBe(1);
    const text = await job('show', '1');
    expect(text).toContain('  owner: C-9');
    expect(text).toMatch(/2026-03-0[345] \d\d:\d\d {2}side-b\.wav/);
    expect(text).toMatch(/Separation, left into right +30\.30 ± 0\.10 dB +27\.95 ± 0\.10 dB/);
    expect(text).toContain('predicted 27.9 dB, measured 27.20 ± 0.15 dB, otherwise');
    expect(text).not.toContain('\u001b');
    expect(jobSchema.parse(JSON.parse(await job('show', '1', '--json')).job).captures).toHaveLength(2);
  });

  it("shows a deck's history, stylus hours and what is due, as text, JSON and CSV", async () => {
    await fill();
    const jobs = await openStore(store);
    const id = given(await jobs.findJob('1'));
    await jobs.changeStation(id, 'intake', {
      changes: [
        { path: ['cartridge'], is: '=A' },
        { path: ['stylusHours'], is: '120' },
      ],
    });
    await jobs.changeStation(id, 'hand-over', { changes: [{ path: ['dueDate'], is: '2026-01-01' }] });
    await jobs.close();
    expect(await job('history', '1')).toMatch(/job 1 +2026-03-04 +as received +30\.30 ± 0\.10 dB/);
    expect(JSON.parse(await job('history', '1', '--json'))).toMatchObject({ schema: 1, deck: { name: 'studio deck' } });
    expect(await job('history', '1', '--csv')).toContain("received,30.3,0.1,adjust,'=A,");
    expect(await job('hours')).toMatch(/=A +studio deck +on the deck +120 h/);
    expect(await job('hours', '--csv')).toContain("\r\n'=A,,studio deck,yes,1,");
    expect(await job('due')).toMatch(/due +2026-01-01 +studio deck +C-9 +job 1 +on 2026-01-01/);
    expect(JSON.parse(await job('due', '--json')).due).toHaveLength(1);
    expect(await job('due', '--csv')).toContain('\r\ndue,2026-01-01,studio deck,C-9,1,2026-01-01,,120\r\n');
  });

  it('searches, writes CSV, sets a recording aside and deletes for good', async () => {
    await fill();
    expect(await job('search', 'studi', 'C')).toContain('Job 1 · studio deck');
    expect(await job('search', 'nowhere')).toBe('No job has these words.\n');
    expect(await job('list', '--csv')).toMatch(/^number,title,.*\r\n1,Job 1 · studio deck,studio deck,C-9,0,2,/);
    const { captures } = JSON.parse(await job('show', '1', '--json')).job;
    const aside = await job('set-aside', '1', captures[1].id, '--why', 'wrong deck');
    expect(aside).toBe('side-b.wav is set aside; it stays in the job.\n');
    expect(await job('show', '1')).toContain('Set aside: wrong deck');
    expect(JSON.parse(await job('show', '1', '--json')).job.beforeAfter).toEqual([]);
    expect(await job('set-aside', '1', captures[1].id, '--back')).toBe('side-b.wav counts again.\n');
    expect(JSON.parse(await job('show', '1', '--json')).job.beforeAfter).not.toEqual([]);
    expect(await job('set-aside', '1', '--why', '=test')).toBe('Job 1 is set aside; nothing is deleted.\n');
    expect(await job('list')).toContain('set aside: =test');
    expect(await job('list', '--csv')).toMatch(/,'=test\r\n$/);
    expect(await job('history', '1')).toContain('Nothing was measured in them.');
    expect(await job('set-aside', '1', '--back')).toBe('Job 1 counts again.\n');
    expect(await job('history', '1')).toContain('as received');
    const file = join(folder.path, 'nameless.json');
    await job('export', '1', '-o', file, '--without-owner');
    expect(readFileSync(file, 'utf8')).not.toContain('C-9');
    expect(await job('delete', '1', '--yes')).toContain(
      'Job 1 is deleted, with the figures of 2 recordings and its deck.',
    );
    expect(await job('list')).toBe('There are no jobs yet.\n');
  });

  it('exports a bundle with its recordings, which is told where it is here and comes back with its ids where it is not', async () => {
    await fill();
    const file = join(folder.path, 'job.platterside.zip');
    const sounds = join(folder.path, 'sounds');
    mkdirSync(sounds);
    const jobs = await openStore(store);
    const id = given(await jobs.findJob('1'));
    const sound = Buffer.from('RIFF the very bytes');
    const sha256 = createHash('sha256').update(sound).digest('hex');
    await jobs.addCapture(id, { document: { ...tiltedSide, capture: { ...tiltedSide.capture, sha256 } } });
    await jobs.close();
    writeFileSync(join(sounds, 'a.wav'), sound);
    writeFileSync(join(sounds, 'b.wav'), 'another');
    await job('export', '1', '-o', file, '--recordings', sounds);
    expect(heard.err).toContain('1 of 3 recordings are in it.');
    expect(await job('import', file)).toBe('Job 1 is here already, with the same content; nothing was changed.\n');
    const before = JSON.parse(await job('show', '1', '--json')).job;
    await job('delete', '1', '--yes');
    expect(await job('import', file)).toBe(`Job 1 imported (id ${id}).\n`);
    expect(heard.err).toContain('The bundle holds 1 recordings; --recordings FOLDER takes them out.');
    expect(JSON.parse(await job('show', '1', '--json')).job).toEqual(before);
    const jobsAgain = await openStore(store);
    await jobsAgain.changeJob(id, { changes: [{ path: ['notes'], was: '', is: 'later' }] });
    await jobsAgain.close();
    expect(await refusal('import', file)).toEqual([1, expect.stringContaining('one job not imported; --as-new')]);
    const out = join(folder.path, 'out');
    mkdirSync(out);
    expect(await job('import', file, '--as-new', '--recordings', out)).toMatch(/^Job 2 imported/);
    expect(readFileSync(join(out, `${sha256.slice(0, 16)}.wav`))).toEqual(sound);
    const both = join(folder.path, 'both.platterside.zip');
    await job('export', '1', '2', '-o', both, '--without-owner');
    expect(JSON.parse(await job('import', both, '--json')).jobs).toHaveLength(2);
    expect(readFileSync(both, 'latin1')).not.toContain('C-9');
  });

  it('exports a file that imports as a new job, without loss', async () => {
    await fill();
    const file = join(folder.path, 'job-1.json');
    await job('export', '1', '-o', file);
    const before = JSON.parse(await job('show', '1', '--json')).job;
    expect(await job('import', file, '--as-new')).toMatch(/^Job 2 imported \(id /);
    const after = JSON.parse(await job('show', '2', '--json')).job;
    const figures = (one: typeof after) => [
      one.deck,
      one.stations,
      one.customer,
      one.captures[0].findings,
      one.advice[0].checks,
    ];
    expect(figures(after)).toEqual(figures(before));
    expect(JSON.parse(await job('show', '1', '--json')).job).toEqual(before);
    expect(readdirSync(folder.path).sort()).toEqual(['bench.sqlite', 'job-1.json']);
  });

  it('writes the report as one HTML file', async () => {
    await fill();
    const file = join(folder.path, 'job-1.html');
    await job('report', '1', '-o', file);
    expect(heard.out).toBe('');
    expect(heard.err).toContain(file);
    expect(readFileSync(file, 'utf8')).toContain('<body class="customer">');
    await job('report', '1', '--for', 'technician', '-o', file, '--replace');
    expect(readFileSync(file, 'utf8')).toContain('<body class="technician">');
  });

  it('refuses in one line what it cannot read or do', async () => {
    await fill();
    const broken = join(folder.path, 'broken.json');
    writeFileSync(broken, '{"kind": "platterside-job", "schema": 1}');
    const text = join(folder.path, 'text.json');
    writeFileSync(text, 'hello');
    const out = join(folder.path, 'out.json');
    const cases: [string[], number, string][] = [
      [[], 2, 'job needs one of: list, show, export, import, report'],
      [
        ['polish'],
        2,
        "job 'polish': one of list, show, export, import, report, search, history, hours, due, set-aside, delete was expected",
      ],
      [['constructor'], 2, "job 'constructor'"],
      [['show'], 2, 'job show: one job was expected'],
      [['show', '1', '2'], 2, 'job show: one job was expected'],
      [['list', '1'], 2, 'job list takes no argument'],
      [['show', '7'], 1, 'There is no job 7.'],
      [
        ['set-aside', '1', 'side-b.wav', '--why', 'x'],
        1,
        'has no recording side-b.wav. job show 1 shows those there are.',
      ],
      [['export', '1'], 2, 'job export needs -o FILE'],
      [['export', '1', '-o', out, '--recordings', folder.path], 2, '--recordings: a .json file holds no recordings'],
      [['export', '1', '-o', `${out}.zip`, '--recordings', text], 2, 'cannot be read'],
      [['export', '7', '-o', out], 1, 'There is no job 7.'],
      [['export', '1', '-o', store], 2, 'which this command reads'],
      [['report', '1', '--for', 'nobody', '-o', out], 2, "--for 'nobody': one of customer, technician was expected"],
      [['report', '1', '-o', join(folder.path, 'none', 'x.html')], 2, 'cannot be written (there is no such folder)'],
      [
        ['import', join(folder.path, 'none.json')],
        2,
        'cannot be read (there is no such file); a bundle or a job file was expected',
      ],
      [['import', text], 2, 'text.json: neither a bundle nor JSON'],
      [['import', broken], 2, 'broken.json: at madeBy: '],
      [['list', '--frobnicate'], 2, "Unknown option '--frobnicate'"],
    ];
    for (const [args, status, sentence] of cases) {
      const [found, message] = await refusal(...args);
      expect([args, found]).toEqual([args, status]);
      expect(message).toContain(sentence);
    }
    expect(existsSync(out)).toBe(false);
  });

  it('asks nothing of a store that is not there, and makes none', async () => {
    expect(await refusal('list')).toEqual([1, expect.stringContaining('there are no jobs yet')]);
    expect(readdirSync(folder.path)).toEqual([]);
  });

  it('leaves a store alone that is none', async () => {
    writeFileSync(store, 'not a store');
    expect(await refusal('list')).toEqual([2, expect.stringContaining('is not a store of jobs')]);
    expect(readFileSync(store, 'utf8')).toBe('not a store');
  });
});
