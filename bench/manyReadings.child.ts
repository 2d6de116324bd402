/** The program of `bench/manyReadings.mjs`: a chain with very many readings on both databases, and how long each question takes. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { testRecord } from '../src/store/chain/chains.fixture.ts';
import { startCluster } from '../src/store/cluster.fixture.ts';
import { openDatabase } from '../src/store/openDatabase.ts';
import { openPostgres } from '../src/store/openPostgres.ts';
import { isPostgresUrl } from '../src/store/postgresPlace.ts';
import { openStore, type Store } from '../src/store/store.ts';

const AT = '2026-03-04T09:00:00.000Z';
const CHAINS = 10;
/** millions of figures in one statement */
const FILLING_MS = 3_600_000;

/** `count` recordings on ten chains, one a minute, measured by one version of the methods, 110 figures each; every one is known since its minute. */
async function fill(place: string, count: number): Promise<void> {
  const now = () => AT;
  const db = await (isPostgresUrl(place)
    ? openPostgres(`${place}&query_timeout=${FILLING_MS}`, now)
    : openDatabase(place, now));
  const time = isPostgresUrl(place)
    ? sql`to_char(timestamp '2026-01-01' + i * interval '1 minute', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`
    : sql`strftime('%Y-%m-%dT%H:%M:%fZ', '2026-01-01', '+' || i || ' minutes')`;
  const to = (last: number) =>
    sql`with recursive n(i) as (select 1 union all select i + 1 from n where i < ${sql.lit(last)})`;
  const record = testRecord(138);
  await db.transaction().execute(async (tx) => {
    await tx
      .insertInto('batch_records')
      .values({ id: record.id, name: record.name, text: record.text, added_at: AT })
      .execute();
    for (let chain = 0; chain < CHAINS; chain++)
      await tx
        .insertInto('chains')
        .values({ id: `c${chain}`, name: `chain ${chain}`, made_at: AT })
        .execute();
    await sql`insert into batch_files (id, state, added_at, root, path, record, chain, bytes, modified_ms, recorded_at, fingerprint)
      ${to(count)} select 'f' || i, 'done', ${AT}, 'r', 'p' || i, ${record.id}, 'chain ' || (i % ${sql.lit(CHAINS)}), 1, 0, ${time}, 'x' || i from n`.execute(
      tx,
    );
    await sql`insert into batch_sides (id, state, added_at, fingerprint, method, record)
      ${to(count)} select 's' || i, 'done', ${AT}, 'x' || i, '3', ${record.id} from n`.execute(tx);
    await sql`insert into batch_results (side_id, measured_at, took_ms, document_json)
      ${to(count)} select 's' || i, ${time}, 1, '{}' from n`.execute(tx);
    // a chain at rest, of which every fiftieth reading lies beyond its limits
    const read = sql`(n.i / ${sql.lit(CHAINS)} * 38 % 101) / 1000.0 + case when n.i / ${sql.lit(CHAINS)} % 50 = 49 then 0.5 else 0 end`;
    const named = sql`case when p.i = 1 then 'speed-error' when p.i = 2 then 'channel-balance' when p.i = 3 then 'azimuth-error' else 'second-harmonic' end`;
    await sql`insert into batch_figures (side_id, place, quantity, value, uncertainty, unit, verdict)
      ${to(count)}, p(i) as (select 1 union all select i + 1 from p where i < 110)
      select 's' || n.i, p.i, ${named}, ${read}, 0.02, '%', 'info' from n, p`.execute(tx);
  });
  if (isPostgresUrl(place)) await sql`analyze`.execute(db);
  await db.destroy();
}

/** ms, by the clock and of this process's processor time: on a busy machine the second tells more */
interface Took {
  readonly ms: number;
  readonly processor: number;
}

async function asked({ chains }: Store): Promise<ReadonlyMap<string, Took>> {
  const page = await chains.history('chain 3', { limit: 100 });
  if (page.outcome !== 'found' || page.value.next === undefined) throw new Error('no second page');
  const { next } = page.value;
  const newest = page.value.readings[0].at;
  const day = new Date(Date.parse(newest) - 86_400_000).toISOString();
  const questions: Readonly<Record<string, () => Promise<unknown>>> = {
    'list of chains': () => chains.list({ limit: 100 }),
    'charts of one chain': () => chains.charts('chain 3'),
    'a page of 100 readings, the newest': () => chains.history('chain 3', { limit: 100 }),
    'the page of 100 after it': () => chains.history('chain 3', { limit: 100, before: next }),
    'alarms of all chains, of one day': () => chains.alarms(day),
  };
  const times = new Map<string, Took>();
  for (const [name, ask] of Object.entries(questions)) {
    const best = { ms: Number.POSITIVE_INFINITY, processor: Number.POSITIVE_INFINITY };
    for (let turn = 0; turn < 5; turn++) {
      const [from, before] = [performance.now(), process.cpuUsage()];
      await ask();
      best.ms = Math.min(best.ms, performance.now() - from);
      const { user, system } = process.cpuUsage(before);
      best.processor = Math.min(best.processor, (user + system) / 1000);
    }
    times.set(name, best);
  }
  return times;
}

const count = Number(process.argv[2] ?? 20_000);
const folder = mkdtempSync(join(tmpdir(), 'platterside-readings-'));
const cluster = await startCluster();
try {
  const times = [];
  for (const place of [join(folder, 'bench.sqlite'), await cluster.empty()]) {
    await fill(place, count);
    const store = await openStore(place);
    times.push(await asked(store));
    await store.close();
  }
  const [file, shared] = times;
  console.log(`${count} readings on ${CHAINS} chains, ms (processor time of the asking process), best of five`);
  console.log(`${' '.repeat(40)}${'SQLite'.padStart(18)}${'PostgreSQL'.padStart(18)}`);
  const shown = (took: Took | undefined) =>
    (took === undefined ? '' : `${took.ms.toFixed(1)} (${took.processor.toFixed(1)})`).padStart(18);
  for (const [name, took] of file) console.log(`${name.padEnd(40)}${shown(took)}${shown(shared.get(name))}`);
} finally {
  await cluster.end();
  rmSync(folder, { recursive: true, force: true });
}
