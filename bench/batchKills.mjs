// Very many short recordings through several workers, some killed outright in the middle; then whether each content was measured
// once and nothing was lost. `node bench/batchKills.mjs [COUNT] [WORKERS] [KILLS] [ALONE]` prints, on PostgreSQL; a test runs a few.
// ALONE: how many one worker measures first, for its throughput; all of them when left out. On standard error it tells how far it is.
import { execFile, spawn } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build } from 'esbuild';
import { asProgram, bundled } from './bundled.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const RATE = 44_100;
const QUIET_S = 0.4;
const TONE_S = 1.2;
/** what a killed worker had is free after so long; shorter, and one that a busy machine keeps waiting loses its own */
const LEASE_S = 20;

/** The command line with its threads, in a folder of its own. @returns path of the program; the caller removes its folder */
export async function program() {
  mkdirSync(join(root, '.tmp'), { recursive: true });
  const outdir = mkdtempSync(join(root, '.tmp', 'batch-'));
  await build({
    ...asProgram,
    entryPoints: { cli: join(root, 'src/cli/main.ts'), batchThread: join(root, 'src/cli/batchThread.ts') },
    outdir,
    outExtension: { '.js': '.mjs' },
    splitting: true,
  });
  return join(outdir, 'cli.mjs');
}

/** Processor time of the programs begun here that have ended, s: Linux counts it, killed ones included; null elsewhere. */
function processorOfEnded() {
  try {
    const [, ticks, system] = /\) (?:\S+ ){13}(\d+) (\d+) /.exec(readFileSync('/proc/self/stat', 'latin1'));
    return (Number(ticks) + Number(system)) / 100;
  } catch {
    return null;
  }
}

/** A tone of 1 kHz on both channels between two rests, 16 bit, as WAV. */
function toneWav() {
  const [quiet, tone] = [Math.round(QUIET_S * RATE), Math.round(TONE_S * RATE)];
  const frames = tone + 2 * quiet;
  const bytes = Buffer.alloc(44 + frames * 4);
  bytes.write('RIFF', 0, 'latin1');
  bytes.writeUInt32LE(36 + frames * 4, 4);
  bytes.write('WAVEfmt ', 8, 'latin1');
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(2, 22);
  bytes.writeUInt32LE(RATE, 24);
  bytes.writeUInt32LE(RATE * 4, 28);
  bytes.writeUInt16LE(4, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36, 'latin1');
  bytes.writeUInt32LE(frames * 4, 40);
  for (let at = 0; at < tone; at++) {
    const value = Math.round(6000 * Math.sin((2 * Math.PI * 1000 * at) / RATE));
    for (const channel of [0, 2]) bytes.writeInt16LE(value, 44 + (quiet + at) * 4 + channel);
  }
  return bytes;
}

const RECORD = {
  schema: 1,
  name: 'Very short side',
  rpm: 33.333,
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000, peakVelocityCmS: 5, radiusMm: 140, durationS: TONE_S },
  ],
};

/** `count` recordings of as many contents, a few of them once more under another name, and one that is none. */
export function writeSides(folder, count) {
  mkdirSync(join(folder, 'sides'));
  const bytes = toneWav();
  const contents = new Set();
  for (let place = 0; place < count; place++) {
    // a step of one in one sample of the rest tells them apart
    bytes.writeUInt16LE(1 + (place & 0x3), 44 + 4 * (place >> 2));
    contents.add(createHash('sha256').update(bytes).digest('hex'));
    writeFileSync(join(folder, 'sides', `${String(place).padStart(6, '0')}.wav`), bytes);
    if (place % 50 === 0) writeFileSync(join(folder, 'sides', `${String(place).padStart(6, '0')} again.wav`), bytes);
    bytes.writeUInt16LE(0, 44 + 4 * (place >> 2));
  }
  writeFileSync(join(folder, 'sides', 'none.wav'), 'dear diary');
  writeFileSync(join(folder, 'side.record.json'), JSON.stringify(RECORD));
  return contents;
}

/**
 * @param options `kills`: workers killed outright while they have work, each when a share of the sides is measured that chance has
 *   chosen; others take their place; `statusOf`: asks for the status; `patience`: ms without a side that is done, after which it is given up
 * @returns what became of it, at how many sides the kills came, seconds, and the workers' processor time, s
 */
export async function measureAll(
  cli,
  place,
  folder,
  { workers, kills, lease, statusOf, patience = 300_000, told = () => {} },
) {
  const run = promisify(execFile);
  const ask = async (...args) =>
    (await run(process.execPath, [cli, 'batch', ...args, '--store', place], { maxBuffer: 2 ** 30 })).stdout;
  await ask('add', join(folder, 'sides'), '--record', join(folder, 'side.record.json'));
  const running = new Set();
  let badly = 0;
  const begin = () => {
    const args = [cli, 'batch', 'work', '--threads', '1', '--lease', String(lease), '--store', place];
    const child = spawn(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
    const ended = new Promise((resolve) => child.on('close', resolve));
    const one = { child, ended };
    running.add(one);
    void ended.then((code) => {
      running.delete(one);
      // null: killed here
      if (code !== 0 && code !== null) badly += 1;
    });
    return one;
  };
  const [from, processorBefore] = [performance.now(), processorOfEnded()];
  const at = [];
  let [when, done, since] = [null, 0, performance.now()];
  try {
    for (let place = 0; place < workers; place++) begin();
    while (running.size > 0) {
      await new Promise((resolve) => setTimeout(resolve, at.length < kills ? 150 : 500));
      const status = await statusOf();
      told(status, at);
      if (badly > 0) throw new Error('a worker ended badly');
      if (status.sides.done > done) [done, since] = [status.sides.done, performance.now()];
      if (performance.now() - since > patience)
        throw new Error(`nothing was measured for ${patience} ms: ${JSON.stringify(status)}`);
      if (at.length === kills || status.files.open + status.sides.open === 0) continue;
      // not before the first is measured, and while there is work left for whoever takes the place
      when ??= Math.max(at.length + 1, done + Math.random() * 0.5 * status.files.open);
      if (done < when) continue;
      // whoever has work at this moment
      const busy = [...running].find(({ child }) =>
        status.workers.some(({ worker }) => worker.endsWith(` ${child.pid}`)),
      );
      if (busy === undefined) continue;
      busy.child.kill('SIGKILL');
      await busy.ended;
      when = null;
      at.push(done);
      begin();
    }
  } finally {
    for (const { child } of running) child.kill('SIGKILL');
  }
  const seconds = (performance.now() - from) / 1000;
  const processor = processorBefore === null ? null : processorOfEnded() - processorBefore;
  const report = JSON.parse(await ask('report', '--json'));
  return { at, seconds, processor, status: await statusOf(), recordings: report.recordings };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [count, workers, kills] = [10_000, 4, 2].map((usual, place) => Number(process.argv[2 + place] ?? usual));
  const alone = Number(process.argv[5] ?? count);
  const folder = mkdtempSync(join(tmpdir(), 'platterside-batch-'));
  const parts = [];
  const part = async (source) => {
    parts.push(await bundled(source));
    return import(parts.at(-1));
  };
  const cli = await program();
  const { startCluster } = await part('src/store/cluster.fixture.ts');
  const { openBatches } = await part('src/store/batch/batchStore.ts');
  const { METHOD_VERSION } = await part('src/core/measure/methodVersion.ts');
  const cluster = await startCluster([]);
  try {
    for (const [name, number, how] of [
      ['one', alone, { workers: 1, kills: 0 }],
      ['several', count, { workers, kills }],
    ]) {
      const place = await cluster.empty();
      const sides = join(folder, name);
      mkdirSync(sides);
      const contents = writeSides(sides, number);
      const store = await openBatches(place, { now: () => new Date().toISOString(), newId: randomUUID });
      let shown = performance.now();
      const { at, seconds, processor, status, recordings } = await measureAll(cli, place, sides, {
        ...how,
        lease: LEASE_S,
        statusOf: () => store.status(METHOD_VERSION),
        told({ sides: { done } }, killedAt) {
          if (performance.now() - shown < 60_000) return;
          shown = performance.now();
          console.error(
            `${name}: ${done} measured${killedAt.length === 0 ? '' : `, one killed at ${killedAt.join(', at ')}`}`,
          );
        },
      });
      await store.close();
      const done = new Set(recordings.filter(({ state }) => state === 'done').map(({ fingerprint }) => fingerprint));
      const lost = [...contents].filter((one) => !done.has(one)).length;
      const database = new URL(place).pathname.slice(1);
      const [sizes] = await cluster.query(
        'select pg_database_size(current_database())::float8 as bytes, (select count(*) from batch_results)::int as results, (select count(*) from batch_figures)::int as figures',
        database,
      );
      console.log(
        `${how.workers} worker${how.workers === 1 ? '' : 's'}, ${at.length} killed${at.length === 0 ? '' : ` (when ${at.join(' and ')} were measured)`}: ${status.sides.done} of ${contents.size} contents measured, ${lost} not (${status.files.open + status.sides.open} still to do), ` +
          `${sizes.results - done.size} measured twice, ${status.sides.poisoned} set aside; ${seconds.toFixed(0)} s, ${(status.sides.done / seconds).toFixed(1)} a second${processor === null ? '' : `, ${(processor / status.sides.done).toFixed(3)} s of processor time each`}; ` +
          `database ${(sizes.bytes / sizes.results / 1000).toFixed(1)} kB and ${(sizes.figures / sizes.results).toFixed(1)} figures a side`,
      );
    }
  } finally {
    await cluster.end();
    rmSync(folder, { recursive: true, force: true });
    rmSync(dirname(cli), { recursive: true, force: true });
    for (const one of parts) rmSync(one, { force: true });
  }
}
