// Very many short recordings through several workers, some killed outright in the middle; then whether each content was measured
// once and nothing was lost. `node bench/batchKills.mjs [COUNT] [WORKERS] [KILLS] [ALONE]` prints, on PostgreSQL; a test runs a few.
// ALONE: how many one worker measures first, for its throughput; all of them when left out.
import { execFile, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
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
 *   chosen; others take their place; `statusOf`: asks for the status without another program
 * @returns what became of it, at how many sides the kills came, and seconds
 */
export async function measureAll(cli, place, folder, { workers, kills, lease = 3, statusOf = null }) {
  const run = promisify(execFile);
  const ask = async (...args) =>
    (await run(process.execPath, [cli, 'batch', ...args, '--store', place], { maxBuffer: 2 ** 30 })).stdout;
  await ask('add', join(folder, 'sides'), '--record', join(folder, 'side.record.json'));
  const look = statusOf ?? (async () => JSON.parse(await ask('status', '--json')));
  const running = new Set();
  const begin = () => {
    const args = [cli, 'batch', 'work', '--threads', '1', '--lease', String(lease), '--store', place];
    const child = spawn(process.execPath, args, { stdio: 'ignore' });
    const ended = new Promise((resolve) => child.on('close', resolve));
    const one = { child, ended };
    running.add(one);
    void ended.then(() => running.delete(one));
    return one;
  };
  const from = performance.now();
  for (let place = 0; place < workers; place++) begin();
  const at = [];
  let killed = 0;
  let when = null;
  while (killed < kills && running.size > 0) {
    await new Promise((resolve) => setTimeout(resolve, 150));
    const status = await look();
    const left = status.files.open + status.sides.open;
    if (left === 0) continue;
    // not before the first is measured, and while there is work left for whoever takes the place
    when ??= Math.max(killed + 1, status.sides.done + Math.random() * 0.5 * status.files.open);
    if (status.sides.done < when) continue;
    // whoever has work at this moment
    const busy = [...running].find(({ child }) =>
      status.workers.some(({ worker }) => worker.endsWith(` ${child.pid}`)),
    );
    if (busy === undefined) continue;
    busy.child.kill('SIGKILL');
    await busy.ended;
    killed += 1;
    when = null;
    at.push(status.sides.done);
    begin();
  }
  while (running.size > 0) await Promise.race([...running].map(({ ended }) => ended));
  const seconds = (performance.now() - from) / 1000;
  const report = JSON.parse(await ask('report', '--json'));
  return { killed, at, seconds, status: await look(), recordings: report.recordings };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [count, workers, kills] = [10_000, 4, 2].map((usual, place) => Number(process.argv[2 + place] ?? usual));
  const alone = Number(process.argv[5] ?? count);
  const folder = mkdtempSync(join(tmpdir(), 'platterside-batch-'));
  const fixture = await bundled('src/store/cluster.fixture.ts');
  const cli = await program();
  const { startCluster } = await import(fixture);
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
      const { killed, at, seconds, status, recordings } = await measureAll(cli, place, sides, how);
      const done = new Set(recordings.filter(({ state }) => state === 'done').map(({ fingerprint }) => fingerprint));
      const lost = [...contents].filter((one) => !done.has(one)).length;
      const database = new URL(place).pathname.slice(1);
      const [sizes] = await cluster.query(
        'select pg_database_size(current_database())::float8 as bytes, (select count(*) from batch_results)::int as results, (select count(*) from batch_figures)::int as figures',
        database,
      );
      console.log(
        `${how.workers} worker${how.workers === 1 ? '' : 's'}, ${killed} killed${killed === 0 ? '' : ` (when ${at.join(' and ')} were measured)`}: ${status.sides.done} of ${contents.size} contents measured, ${lost} lost, ` +
          `${sizes.results - done.size} measured twice, ${status.sides.poisoned} set aside; ${seconds.toFixed(0)} s, ${(status.sides.done / seconds).toFixed(1)} a second; ` +
          `database ${(sizes.bytes / sizes.results / 1000).toFixed(1)} kB and ${(sizes.figures / sizes.results).toFixed(1)} figures a side`,
      );
    }
  } finally {
    await cluster.end();
    rmSync(folder, { recursive: true, force: true });
    rmSync(dirname(cli), { recursive: true, force: true });
    rmSync(fixture, { force: true });
  }
}
