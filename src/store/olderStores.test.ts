/** Stores as earlier versions left them, poison included: opened, brought to today's layout, and read. */

import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { jobListSchema, jobSchema } from '../core/job/api.ts';
import { demoJob } from '../core/job/demoJob.ts';
import { readJobFile } from '../core/job/jobFile.ts';
import { say } from '../core/words/statement.ts';
import { newestLayout } from './migrations.ts';
import { countingOrigin, given, scratchFolder } from './scratch.fixture.ts';
import { openStore, openStoreToRead } from './store.ts';

let folder: ReturnType<typeof scratchFolder>;
let file: string;
beforeEach(() => {
  folder = scratchFolder();
  file = join(folder.path, 'bench.sqlite');
});
afterEach(() => folder.remove());

const forReport = [{ label: 'Tracking force', text: '17.7 ± 0.2 mN' }];

/** A store with two jobs, changed by hand through `change`, and left as an earlier layout had it. */
async function older(
  change: (database: Database.Database, jobs: readonly string[]) => void,
  layout = 1,
): Promise<string[]> {
  const store = await openStore(file, countingOrigin());
  const jobs = [
    given(await store.createJob({ deck: { name: 'one' } })).id,
    given(await store.createJob({ deck: { name: 'two' } })).id,
  ];
  await store.close();
  const database = new Database(file);
  change(database, jobs);
  database.prepare('delete from layout_steps where number > ?').run(layout);
  database.exec(`drop index decks_by_name; drop index decks_by_plain; drop index jobs_by_deck_number;
    alter table decks drop column plain;
    drop table chain_states; drop table chain_jobs; drop table chains; drop table reference_recordings; drop index batch_files_by_chain;
    drop index stations_typed; drop table next_checks; drop index jobs_by_beginning; drop index captures_by_record;
    alter table captures drop column method; alter table captures drop column record_key; alter table captures drop column record_name;
    drop table batch_figures; drop table batch_results; drop table batch_sides; drop table batch_files; drop table batch_records;`);
  // as the first layout had it
  if (layout === 1)
    database.exec(`
    drop table fittings; drop table words; drop table photographs;
    alter table jobs drop column record_file;
    alter table jobs drop column practice; alter table jobs drop column set_aside_at;
    alter table jobs drop column set_aside_why;
    alter table captures drop column practice; alter table captures drop column said_kind;
    alter table captures drop column said_epoch; alter table captures drop column set_aside_at;
    alter table captures drop column set_aside_why;`);
  database.close();
  return jobs;
}

const setData = (database: Database.Database, job: string, station: string, data: unknown) =>
  database
    .prepare('update stations set data_json = ?, status = ? where job_id = ? and station = ?')
    .run(JSON.stringify(data), 'now', job, station);

describe('a store of an earlier version', () => {
  it('keeps everything that was typed and drops lines and figures that are worked out now', async () => {
    const [first] = await older((database, [job]) => {
      setData(database, job, 'weigh', {
        forceUnit: 'g',
        target: '1.8',
        gauge: { reading: '1.82', height: '2' },
        sets: [
          {
            at: '2026-03-04T09:30:00.000Z',
            by: 'gauge',
            mn: 17.7,
            uncertaintyMn: 0.2,
            targetMn: 17.7,
            dialMn: null,
            calibrated: true,
            left: false,
          },
        ],
        forReport,
        notes: 'at record height',
      });
      setData(database, job, 'fit', {
        leads: { white: 'left+', blue: null },
        massBy: 'reckoned',
        set: { screws: '2', screwLength: '8' },
        hardware: { massG: 0.61, uncertaintyG: 0.05, by: 'reckoned' },
        forReport,
      });
    });
    const store = await openStore(file, countingOrigin());
    const { weigh, fit } = given(await store.job(first)).stations;
    expect(weigh.data).toMatchObject({ forceUnit: 'g', target: '1.8', notes: 'at record height' });
    expect(weigh.data.sets).toHaveLength(1);
    expect(fit.data).toMatchObject({
      leads: { white: 'left+', blue: null },
      massBy: 'calculated',
      set: { screws: '2', screwLength: '8' },
    });
    for (const data of [weigh.data, fit.data]) expect(data).not.toHaveProperty('forReport');
    expect(fit.data).not.toHaveProperty('hardware');
    await store.close();
    const copies = readdirSync(folder.path).filter((name) => name.includes('before-layout'));
    expect(copies).toEqual([`bench.sqlite.before-layout-${newestLayout}`]);
    expect(statSync(join(folder.path, copies[0])).mode & 0o777).toBe(0o600);
  });

  it('is read without being brought up to date, by what only reads', async () => {
    const [first] = await older((database, [job]) => {
      setData(database, job, 'weigh', { target: '1.8', forReport });
      setData(database, job, 'hand-over', { dueDate: '2026-06-01' });
    });
    const before = readFileSync(file);
    const store = await openStoreToRead(file, countingOrigin());
    expect(given(await store.job(first)).stations.weigh.data).toEqual({ target: '1.8' });
    // what later layouts keep beside the jobs is worked out of them
    expect((await store.dueList('2026-06-02')).due.map(({ job, state }) => [job.id, state])).toEqual([[first, 'due']]);
    await store.close();
    expect(readFileSync(file).equals(before)).toBe(true);
    expect(readdirSync(folder.path)).toEqual(['bench.sqlite']);
  });

  it('nonsense that was once taken for station data is left out, and lies in the copy', async () => {
    const nonsense = { forceUnit: 42, gauge: 'hello', sets: 'nope', target: '1.8' };
    const [first] = await older((database, [job]) => void setData(database, job, 'weigh', nonsense));
    const store = await openStore(file, countingOrigin());
    expect(given(await store.job(first)).stations.weigh.data).toEqual({ target: '1.8' });
    await store.close();
    const copy = new Database(`${file}.before-layout-${newestLayout}`, { readonly: true });
    const row = copy.prepare("select data_json from stations where station = 'weigh' and job_id = ?").get(first);
    expect(row).toEqual({ data_json: JSON.stringify(nonsense) });
    copy.close();
  });

  it('a title of 212 letters and a job numbered 9007199254740992 are brought within their bounds', async () => {
    const long = `Job 1 · ${'d'.repeat(204)}`;
    await older((database, [first, second]) => {
      database.prepare('update jobs set title = ? where id = ?').run(long, first);
      database
        .prepare('update jobs set number = ?, title = ? where id = ?')
        .run(2 ** 53, `Job ${2 ** 53} · two`, second);
    });
    const store = await openStore(file);
    const list = await store.jobs();
    expect(jobListSchema.parse(list)).toEqual(list);
    expect(list.unreadable).toEqual([]);
    expect(list.jobs.map(({ number, title }) => [number, title.length])).toEqual([
      [2, 'Job 2 · two'.length],
      [1, 200],
    ]);
    expect(given(await store.createJob({ deck: { name: 'three' } })).number).toBe(3);
    const exported = given(await store.exportJob(list.jobs[1].id, 'x'));
    expect(readJobFile(JSON.parse(JSON.stringify(exported))).found).toBe(true);
    await store.close();
  });
});

describe('one bad row', () => {
  it('is listed as unreadable with its reason, and hides no other job', async () => {
    const [first, second] = await older(() => undefined);
    const opened = await openStore(file, countingOrigin());
    await opened.close();
    const database = new Database(file);
    database.prepare("update jobs set created_at = 'yesterday' where id = ?").run(second);
    database.prepare("update stations set data_json = '{' where job_id = ? and station = 'run'").run(second);
    database.close();
    const store = await openStore(file, countingOrigin());
    const list = await store.jobs();
    expect(list.jobs.map((job) => job.id)).toEqual([first]);
    expect(list.unreadable).toEqual([
      { id: second, number: 2, why: 'createdAt: a time is written as 2026-03-04T09:30:00.000Z' },
    ]);
    expect(jobSchema.parse(given(await store.job(first))).number).toBe(1);
    await expect(store.job(second)).rejects.toThrow(/^Job 2 cannot be read: .*The other jobs are not touched by it\.$/);
    await store.close();
  });
});

describe('a job file of an earlier version', () => {
  it('is taken in; what no version wrote is refused with its place', () => {
    const demo = demoJob({ at: '2026-03-04T09:00:00.000Z', madeBy: 'platterside 0.1.0' });
    const withWeigh = (data: unknown) => {
      const copy = JSON.parse(JSON.stringify(demo));
      copy.job.stations.weigh.data = data;
      return readJobFile(copy);
    };
    const read = withWeigh({ target: '1.8', forReport });
    if (!read.found) throw new Error(say(read.why));
    expect(read.file.job.stations.weigh.data).toEqual({ target: '1.8' });
    const refused = withWeigh({ forceUnit: 42, gauge: 'hello', sets: 'nope' });
    expect(refused.found ? '' : say(refused.why)).toContain('at job.stations.weigh.forceUnit: ');
    const set = withWeigh({ sets: [{ at: '2026-03-04T09:30:00.000Z' }] });
    expect(set.found ? '' : say(set.why)).toContain('at job.stations.weigh.sets.0.by: ');
    expect(existsSync(file)).toBe(false);
  });
});

it('reasons that were kept as sentences: a reading typed under those that stand is as good as it was', async () => {
  const said = 'The cartridge was slid in its slots (1 mm forward) at Place: its weight has moved.';
  const moved = 'The deck was levelled: an arm balanced by a weight alone swings with the level of the deck.';
  const mark = {
    move: 'slide',
    station: 'place',
    at: '2026-03-04T09:30:00.000Z',
    was: 'done',
    counts: true,
    because: said,
  };
  const skatingSet = { at: '2026-03-04T09:40:00.000Z', says: 'second notch' };
  const [first, second] = await older((database, jobs) => {
    for (const [place, job] of jobs.entries()) {
      const readUnder = place === 0 ? [said, moved].join('\n') : 'something else';
      setData(database, job, 'weigh', { gauge: { reading: '1.8' }, readUnder, movedHere: moved, skatingSet });
      database
        .prepare("update stations set status = 'stale', stale_because_json = ? where job_id = ? and station = 'weigh'")
        .run(JSON.stringify([mark]), job);
    }
  }, 5);
  const store = await openStore(file, countingOrigin());
  const read = async (id: string) => given(await store.job(id)).stations.weigh;
  expect(await read(first)).toMatchObject({
    status: 'stale',
    staleBecause: [said],
    data: { readUnder: [mark.at, 'earlier'], movedHere: { move: 'level-deck' }, skatingSet },
  });
  const other = await read(second);
  expect(other.data).not.toHaveProperty('readUnder');
  expect(other.data).toMatchObject({ gauge: { reading: '1.8' }, movedHere: { move: 'level-deck' } });
  await store.close();
});
