import { spawn } from 'node:child_process';
import { existsSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { given, scratchFolder } from './scratch.fixture.ts';
import { openStore } from './store.ts';

/** Bundles a TypeScript program so that a child process can run it; it finds packages beside the repository's own. */
async function bundled(source: string, name: string): Promise<string> {
  const root = fileURLToPath(new URL('../../', import.meta.url));
  const outfile = join(root, '.tmp', `${name}-${process.pid}.mjs`);
  await build({
    entryPoints: [join(root, source)],
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

let child: string;
const folder = scratchFolder();
beforeAll(async () => {
  child = await bundled('src/store/durability.child.ts', 'durability');
});
afterAll(() => {
  folder.remove();
  rmSync(child, { force: true });
});

/** Runs the child; kills it outright once it has printed `killAfter` whole lines. @returns the whole lines it printed */
function run(file: string, count: number, killAfter = Number.POSITIVE_INFINITY): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const running = spawn(process.execPath, [child, file, String(count)], { stdio: ['ignore', 'pipe', 'pipe'] });
    let text = '';
    let errors = '';
    running.stderr.on('data', (bytes) => {
      errors += bytes;
    });
    running.stdout.on('data', (bytes) => {
      text += bytes;
      if (text.split('\n').length - 1 >= killAfter) running.kill('SIGKILL');
    });
    running.on('error', reject);
    running.on('close', () => {
      if (errors !== '') reject(new Error(errors));
      else resolve(text.split('\n').slice(0, -1));
    });
  });
}

/** Acknowledged jobs and captures that the store does not hold. */
async function missing(file: string, lines: readonly string[]): Promise<string[]> {
  const store = await openStore(file);
  const lost: string[] = [];
  for (const line of lines) {
    const [kind, job, capture] = line.split(' ');
    const answer =
      kind === 'job' ? await store.job(job) : kind === 'capture' ? await store.capture(job, capture) : null;
    if (answer !== null && answer.outcome !== 'found') lost.push(line);
  }
  await store.close();
  return lost;
}

describe('a program killed outright', () => {
  it('loses nothing that it acknowledged', async () => {
    const file = join(folder.path, 'killed.sqlite');
    const acknowledged: string[] = [];
    let logsLeft = 0;
    for (const killAfter of [1, 7, 20, 33, 48]) {
      const lines = await run(file, 100_000, killAfter);
      expect(lines.length).toBeGreaterThanOrEqual(killAfter);
      expect(lines).not.toContain('closed');
      acknowledged.push(...lines);
      // the log that the killed process left behind has to be read at the next start
      if (existsSync(`${file}-wal`) && statSync(`${file}-wal`).size > 0) logsLeft++;
      expect(await missing(file, acknowledged)).toEqual([]);
    }
    expect(logsLeft).toBe(5);
    const store = await openStore(file);
    const { jobs } = await store.jobs();
    expect(jobs.map((job) => job.number)).toEqual([5, 4, 3, 2, 1]);
    expect(given(await store.findJob('3'))).toBe(jobs[2].id);
    await store.close();
    console.log(`durability: ${acknowledged.length} acknowledged changes over 5 kills, none lost`);
  });
});

describe('two programs on one store', () => {
  it('start together on a new file and lose nothing of each other', async () => {
    const file = join(folder.path, 'shared.sqlite');
    const [first, second] = await Promise.all([run(file, 25), run(file, 25)]);
    expect(first.at(-1)).toBe('closed');
    expect(second.at(-1)).toBe('closed');
    expect(await missing(file, [...first, ...second])).toEqual([]);
    const store = await openStore(file);
    expect((await store.jobs()).jobs.map((job) => [job.number, job.captures])).toEqual([
      [2, 25],
      [1, 25],
    ]);
    await store.close();
  });
});
