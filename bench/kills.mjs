// Kills a program outright in the middle of writing, again and again, and looks after every fifth time whether everything that it
// had acknowledged is there and the file is whole. `node bench/kills.mjs [KILLS]` prints; the tests run a few.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** kills between two looks; the next run opens the store that the last one left all the same */
const LOOK_EVERY = 5;

/** The program that writes, bundled so that a child process can run it; packages are found beside the repository's own. */
export async function writer() {
  const outfile = join(root, '.tmp', `durability-${process.pid}.mjs`);
  await build({
    entryPoints: [join(root, 'bench/durability.child.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    logLevel: 'silent',
  });
  return outfile;
}

/**
 * Runs the writer. @param killAfter whole lines printed before it is killed outright, @param lateMs and so long after them
 * @returns the whole lines that it printed, and how the log was left
 */
export function run(program, file, what, { killAfter = Number.POSITIVE_INFINITY, lateMs = 0, input = '' } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, file, String(what)], { stdio: ['pipe', 'pipe', 'pipe'] });
    let text = '';
    let errors = '';
    let dying = false;
    child.stderr.on('data', (bytes) => {
      errors += bytes;
    });
    child.stdout.on('data', (bytes) => {
      text += bytes;
      if (dying || text.split('\n').length - 1 < killAfter) return;
      dying = true;
      setTimeout(() => child.kill('SIGKILL'), lateMs);
    });
    child.on('error', reject);
    child.on('close', () => {
      if (errors === '') resolve(text.split('\n').slice(0, -1));
      else reject(new Error(errors));
    });
    child.stdin.end(input);
  });
}

/**
 * @param kills how often; the moment of each is another one of the run, spread by a fixed sequence
 * @param most changes before a kill
 * @returns what was acknowledged, what of it is lost (lines), and how often a log was left that had to be read
 */
export async function killAgainAndAgain(program, folder, kills, most = 24, told = () => {}) {
  const file = join(folder, 'killed.sqlite');
  const acknowledged = [];
  const lost = [];
  let unseen = [];
  let logs = 0;
  for (let kill = 0; kill < kills; kill++) {
    const killAfter = 1 + ((kill * 17) % most);
    const lines = await run(program, file, 1_000_000, { killAfter, lateMs: (kill * 7) % 13 });
    if (lines.includes('closed')) throw new Error('the program came to its end before it was killed');
    if (existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0) logs++;
    acknowledged.push(...lines);
    unseen.push(...lines);
    // all of it is looked at again at the end
    if (kill % LOOK_EVERY === LOOK_EVERY - 1) {
      lost.push(...(await run(program, file, 'check', { input: unseen.join('\n') })));
      unseen = [];
    }
    told({ kill: kill + 1, acknowledged: acknowledged.length, lost: lost.length });
  }
  lost.push(...(await run(program, file, 'check', { input: acknowledged.join('\n') })));
  return { acknowledged, lost, logs, file };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const kills = Number(process.argv[2] ?? 200);
  const folder = mkdtempSync(join(tmpdir(), 'platterside-kills-'));
  const program = await writer();
  try {
    const from = Date.now();
    const { acknowledged, lost, logs } = await killAgainAndAgain(program, folder, kills, 24, (so) => {
      if (so.kill % 25 === 0) console.log(`${so.kill} kills, ${so.acknowledged} changes acknowledged, ${so.lost} lost`);
    });
    console.log(
      `kill -9, ${kills} times in the middle of writing: ${acknowledged.length} acknowledged changes (jobs, recordings, typed values, fittings), ` +
        `${lost.length} lost; a log was left ${logs} times; every page and reference of the file checked after every fifth; ${((Date.now() - from) / 1000).toFixed(0)} s (aim: none lost)`,
    );
    for (const line of lost) console.log(`lost: ${line}`);
    if (lost.length > 0) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
    rmSync(program, { force: true });
  }
}
