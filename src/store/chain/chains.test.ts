import { join } from 'node:path';
import { sql } from 'kysely';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { alarmListSchema, chainChartsSchema } from '../../core/job/chains/chain.ts';
import { alarmsCsv, chainHistoryRows } from '../../core/job/chains/chainCsv.ts';
import { type BatchStore, openBatches } from '../batch/batchStore.ts';
import { type Cluster, startCluster } from '../cluster.fixture.ts';
import { openDatabase } from '../openDatabase.ts';
import { openPostgres } from '../openPostgres.ts';
import { isPostgresUrl } from '../postgresPlace.ts';
import { given, scratchFolder } from '../scratch.fixture.ts';
import { openStore, type Store } from '../store.ts';
import { fingerprintOf, play, sideWith, testRecord } from './chains.fixture.ts';

const folder = scratchFolder();
let cluster: Cluster;
let made = 0;
let open: { close(): Promise<void> }[] = [];
beforeAll(async () => {
  cluster = await startCluster();
});
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
  open = [];
});
afterAll(async () => {
  await cluster?.end();
  folder.remove();
});

const record = testRecord(138);
const other = testRecord(62);
const CALM = [0, 0.1, -0.1, 0.05, -0.05];
const calm = (i: number): number => CALM[i % CALM.length];
/** a reading a day */
const dayAt = (day: number): string => new Date(Date.UTC(2026, 2, 1 + day, 6)).toISOString();

describe.each([
  ['a file', async () => join(folder.path, `${++made}.sqlite`)],
  ['PostgreSQL', () => cluster.fresh()],
])('chains in %s', (_, place) => {
  let now = dayAt(0);
  const begun = async (): Promise<{ store: Store; batch: BatchStore }> => {
    const at = await place();
    let ids = 0;
    const origin = { now: () => now, newId: () => `id-${String(++ids).padStart(5, '0')}` };
    const batch = await openBatches(at, { ...origin, newId: () => `b${origin.newId()}` });
    const store = await openStore(at, origin);
    open.push(batch, store);
    return { store, batch };
  };
  const morning = async (batch: BatchStore, day: number, speed = calm(day), more: object = {}) => {
    now = dayAt(day);
    return play(batch, { chain: 'studio 2', record, at: dayAt(day), speed, ...more });
  };

  it('are there with their first recording; limits stand from eight readings on', async () => {
    const { store, batch } = await begun();
    for (let day = 0; day < 7; day++) await morning(batch, day);
    const { chains } = await store.chains.list({ limit: 10 });
    expect(chains).toMatchObject([{ name: 'studio 2', parts: {}, newest: dayAt(6) }]);
    const few = chainChartsSchema.parse(given(await store.chains.charts('studio 2')));
    // by single bands and twice in a document: not watched
    expect(few.figures.map(({ quantity }) => quantity)).toEqual(['speed-error']);
    expect(few.figures[0].limits).toBeNull();
    expect(few.figures[0].says).toBe('No limits yet: 7 of the 8 readings that they need.');
    await morning(batch, 7);
    const { figures, method } = given(await store.chains.charts(chains[0].id));
    expect([figures[0].behind, figures[0].points.length, method]).toEqual([8, 8, '3']);
    expect((await store.chains.charts('none')).outcome).toBe('not-found');
  });

  it('what left its limits is told by when it became known, with what, how much and where to look', async () => {
    const { store, batch } = await begun();
    for (let day = 0; day < 30; day++) await morning(batch, day);
    expect((await store.chains.alarms(dayAt(0))).says).toEqual(['Nothing left its limits since then.']);
    await morning(batch, 30, 0.9);
    await morning(batch, 31);
    const list = alarmListSchema.parse(await store.chains.alarms(dayAt(30)));
    expect(list.alarms).toHaveLength(1);
    const [alarm] = list.alarms;
    expect(alarm).toMatchObject({ kind: 'beyond', value: 0.9, at: dayAt(30), method: '3', behind: 25, expired: false });
    expect(alarm.by).toBeCloseTo(0.9 - alarm.high, 9);
    expect(alarm.sentence).toMatch(
      /^Speed error of studio 2 read \+0\.900 ± 0\.020 % on 2026-03-31 06:00 UTC: 0\.\d+ % above its limits, −0\.\d+ % to \+?0\.\d+ %\. Look at the belt/,
    );
    expect((await store.chains.alarms(dayAt(31))).alarms).toEqual([]);
    expect(alarmsCsv(list).split('\r\n')[1]).toContain('studio 2,speed-error,,beyond,0.9');
    expect((await store.chains.list({ limit: 1 })).next).toBeUndefined();
  });

  it('the list reads less than the charts, and tells the same', async () => {
    const { store, batch } = await begun();
    // restless: beyond, jumps and runs
    for (let day = 0; day < 130; day++)
      await morning(batch, day, day < 30 ? calm(day) : 0.5 * Math.sin(day * day) + (day % 40 > 25 ? 0.4 : 0));
    const { alarms } = given(await store.chains.charts('studio 2'));
    const told = (list: typeof alarms) => list.map(({ at, kind, value }) => `${at} ${kind} ${value}`).sort();
    expect(new Set(alarms.map(({ kind }) => kind))).toEqual(new Set(['beyond', 'jump', 'run']));
    for (const day of [35, 100, 112, 129]) {
      const list = await store.chains.alarms(dayAt(day));
      expect(told(list.alarms), `day ${day}`).toEqual(told(alarms.filter(({ knownAt }) => knownAt >= dayAt(day))));
    }
  });

  it('a change of the chain begins its charts anew; its first description does not', async () => {
    const { store, batch } = await begun();
    for (let day = 0; day < 10; day++) await morning(batch, day);
    await store.chains.change({ name: 'studio 2', parts: { deck: 'bench deck 3', cartridge: 'A' } });
    expect(given(await store.chains.charts('studio 2')).figures[0].points).toHaveLength(10);
    now = dayAt(9).replace('T06', 'T18');
    const chain = await store.chains.change({ name: 'studio 2', parts: { cartridge: 'B' }, why: 'worn tip' });
    expect(chain.parts).toEqual({ deck: 'bench deck 3', cartridge: 'B' });
    expect(chain.states.map(({ why }) => why)).toEqual(['worn tip', '']);
    await morning(batch, 10, 5);
    const { figures, says, alarms } = given(await store.chains.charts('studio 2'));
    expect([figures[0].points.length, alarms]).toEqual([1, []]);
    expect(says[0]).toBe('The charts begin on 2026-03-10 18:00 UTC, when the chain was last changed.');
    expect(given(await store.chains.history('studio 2', { limit: 100 })).readings).toHaveLength(11);
  });

  it('one version of the methods and one record file a chart; what is left out is told', async () => {
    const { store, batch } = await begun();
    for (let day = 0; day < 9; day++) await morning(batch, day, calm(day), { method: '2' });
    for (let day = 9; day < 12; day++) await morning(batch, day, 7);
    await morning(batch, 12, 1, { record: other });
    const charts = given(await store.chains.charts('studio 2', record.key));
    expect([charts.method, charts.figures[0].points.map(({ value }) => value)]).toEqual(['3', [7, 7, 7]]);
    expect(charts.records.map(({ key }) => key)).toEqual([other.key, record.key]);
    expect(charts.says).toEqual([
      'Of the newest 13 recordings 9 were measured by an earlier version of the methods only and are not drawn beside those of version 3. What lies in batches is measured anew by batch again --older-than 3.',
      'Of the newest 13 recordings 1 was measured by another record file, which has charts of its own.',
    ]);
    expect(given(await store.chains.charts('studio 2')).figures[0].points).toHaveLength(1);
    await batch.again(3, '3');
    for (let left = 0; left < 9; left++) {
      const side = await batch.claimSide({ token: `a${left}`, worker: 'w', leaseMs: 60_000 }, '3', ['archive']);
      if (side === null) throw new Error('nothing to claim');
      await batch.complete(side, sideWith(calm(left), record, '3', side.fingerprint), 1);
    }
    const again = given(await store.chains.charts('studio 2', record.key));
    expect(again.figures[0].points).toHaveLength(12);
    expect(again.says).toHaveLength(1);
    // both versions stay in the history
    const { readings } = given(await store.chains.history('studio 2', { limit: 100 }));
    expect(readings.filter(({ method }) => method === '2')).toHaveLength(9);
  });

  it('history goes by pages, each reading once, whatever lies at one time', async () => {
    const { store, batch } = await begun();
    for (let day = 0; day < 11; day++) await morning(batch, Math.floor(day / 3));
    const twice = fingerprintOf(0xabcdef);
    await morning(batch, 5, 0.1, { fingerprint: twice });
    await morning(batch, 6, 0.1, { fingerprint: twice });
    const all: string[] = [];
    for (let before: string | undefined; ; ) {
      const page = given(
        await store.chains.history('studio 2', before === undefined ? { limit: 2 } : { limit: 2, before }),
      );
      all.push(...page.readings.map(({ id }) => id));
      expect(chainHistoryRows(page).split('\r\n').length).toBeGreaterThan(2);
      if (page.next === undefined) break;
      before = page.next;
    }
    expect([all.length, new Set(all).size]).toEqual([12, 12]);
  });

  it('the recordings of a job are readings too, those that count; a fitting begins anew', async () => {
    const { store, batch } = await begun();
    await morning(batch, 0);
    const job = given(await store.createJob({ deck: { name: 'bench deck 3' } }));
    given(await store.chains.setJob(job.id, 'studio 2'));
    const heard = async (day: number, speed: number, practice = false) => {
      now = dayAt(day);
      const document = sideWith(speed, record, '3', fingerprintOf(0xf000 + day));
      return given(await store.addCapture(job.id, { document, heardAt: dayAt(day), practice }));
    };
    for (let day = 1; day < 5; day++) await heard(day, day / 10);
    await heard(6, 9, true);
    const { added } = await heard(7, 9);
    await store.changeCapture(job.id, added.capture.id, { setAside: { why: 'a trial' } });
    const { chain, figures } = given(await store.chains.charts('studio 2'));
    expect(chain.jobs).toEqual([job.number]);
    expect(figures[0].points.map(({ value }) => value)).toEqual([0, 0.1, 0.2, 0.3, 0.4]);
    now = dayAt(8);
    given(await store.addFitting(job.id, { kind: 'stylus', name: 'S' }));
    await heard(9, 0.5);
    expect(given(await store.chains.charts('studio 2')).figures[0].points.map(({ value }) => value)).toEqual([0.5]);
    given(await store.chains.setJob(job.id, null));
    expect(given(await store.chains.charts('studio 2')).figures[0].points.map(({ value }) => value)).toEqual([0]);
    given(await store.chains.setJob(job.id, 'studio 2'));
    given(await store.deleteJob(job.id));
    expect(given(await store.chains.charts('studio 2')).chain.jobs).toEqual([]);
  });

  it('a store of before there were chains has those that its batches named, and knows how its recordings were measured', async () => {
    const at = await place();
    const batch = await openBatches(at, { now: () => dayAt(0), newId: () => `f${++made}` });
    const store = await openStore(at);
    const job = given(await store.createJob({ deck: { name: 'd' } }));
    const document = sideWith(0.3, record, '2', fingerprintOf(7));
    given(await store.addCapture(job.id, { document, heardAt: dayAt(3) }));
    await play(batch, { chain: 'studio 7', record, at: '2026-03-01T06:00:00.123Z', speed: 0.1 });
    await Promise.all([batch.close(), store.close()]);
    const db = await (isPostgresUrl(at)
      ? openPostgres(at, dayAt.bind(null, 0))
      : openDatabase(at, dayAt.bind(null, 0)));
    for (const table of ['chain_states', 'chain_jobs', 'chains', 'reference_recordings'])
      await sql`drop table ${sql.table(table)}`.execute(db);
    await sql`drop table next_checks`.execute(db);
    for (const index of ['batch_files_by_chain', 'batch_figures_watched', 'jobs_by_beginning', 'captures_by_record'])
      await sql`drop index ${sql.table(index)}`.execute(db);
    await sql`alter table batch_files drop column recorded_at`.execute(db);
    for (const column of ['method', 'record_key', 'record_name'])
      await sql`alter table captures drop column ${sql.ref(column)}`.execute(db);
    await sql`drop index stations_typed`.execute(db);
    await sql`delete from layout_steps where number >= 9`.execute(db);
    await db.destroy();
    const now = await openStore(at);
    open.push(now);
    given(await now.chains.setJob(job.id, 'studio 7'));
    const { readings } = given(await now.chains.history('studio 7', { limit: 10 }));
    expect(readings.map(({ at: time, method, record: of }) => [time, method, of?.key])).toEqual([
      [dayAt(3), '2', record.key],
      ['2026-03-01T06:00:00.123Z', '3', record.key],
    ]);
  });

  it('a reference recording is recognised; past the end of its certificate the figures say so', async () => {
    const { store, batch } = await begun();
    const sha256 = await morning(batch, 0);
    for (let day = 1; day < 12; day++) await morning(batch, day);
    const wanted = { fingerprint: sha256, name: 'house transfer', record, certificate: 'C 12', expires: '2026-03-09' };
    await store.chains.addReference({ ...wanted, record: { key: record.key, name: record.name } });
    const { references } = await store.chains.references('2026-03-04');
    expect(references).toMatchObject([{ name: 'house transfer', state: 'soon', expires: '2026-03-09' }]);
    expect((await store.chains.references('2026-03-10')).references[0].state).toBe('expired');
    const { readings } = given(await store.chains.history('studio 2', { limit: 100 }));
    expect(readings.at(-1)).toMatchObject({ reference: 'house transfer', certificateUntil: '2026-03-09' });
    expect(readings[0].reference).toBeNull();
    const { says } = given(await store.chains.charts('studio 2'));
    expect(says).toEqual([
      'The certificate of side at 138 mm ran out on 2026-03-09: 3 of these readings were recorded after it.',
    ]);
    await morning(batch, 12, 3);
    expect((await store.chains.alarms(dayAt(12))).alarms[0].expired).toBe(true);
    // a certificate that is renewed
    await store.chains.addReference({
      ...wanted,
      record: { key: record.key, name: record.name },
      expires: '2027-03-09',
    });
    expect(given(await store.chains.charts('studio 2')).says).toEqual([]);
    // two benches change it: other fields join, the same one is told with both
    const at = (field: string, was: string, is: string) =>
      store.chains.changeReference(sha256, { changes: [{ path: [field], was, is }] });
    expect(await at('certificate', 'C 12', 'C 13')).toMatchObject({ outcome: 'changed' });
    expect(await at('expires', '2027-03-09', '2028-03-09')).toMatchObject({
      outcome: 'changed',
      value: { certificate: 'C 13', expires: '2028-03-09' },
    });
    expect(await at('certificate', 'C 12', 'C 14')).toMatchObject({
      outcome: 'conflict',
      current: { certificate: 'C 13' },
      conflicts: [{ path: ['certificate'], yours: 'C 14', theirs: 'C 13' }],
    });
    expect(await at('expires', '2028-03-09', '2028-02-30')).toMatchObject({ outcome: 'refused' });
    given(await store.chains.removeReference(sha256));
    expect(await at('certificate', 'C 13', 'C 14')).toMatchObject({ outcome: 'conflict', current: null });
    expect((await store.chains.references('2026-03-04')).references).toEqual([]);
    expect((await store.chains.removeReference(sha256)).outcome).toBe('not-found');
  });
});
