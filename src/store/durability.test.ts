import { rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error a script without types
import { killAgainAndAgain, run, writer } from '../../bench/kills.mjs';
import { given, scratchFolder } from './scratch.fixture.ts';
import { openStore } from './store.ts';

let child: string;
// on a disk, whose waits are part of what is proved
const folder = scratchFolder(tmpdir());
beforeAll(async () => {
  child = await writer();
});
afterAll(() => {
  folder.remove();
  rmSync(child, { force: true });
});

describe('a program killed outright', () => {
  it('loses nothing that it acknowledged', async () => {
    const { acknowledged, lost, logs, file } = await killAgainAndAgain(child, folder.path, 5);
    expect(lost).toEqual([]);
    expect(acknowledged.length).toBeGreaterThan(50);
    // the log that the killed process left behind has to be read at the next start
    expect(logs).toBe(5);
    const store = await openStore(file);
    const { jobs } = await store.jobs();
    expect(jobs.map((job) => job.number)).toEqual([5, 4, 3, 2, 1]);
    expect(given(await store.findJob('3'))).toBe(jobs[2].id);
    await store.close();
  });

  it('and the check would notice: what no store holds is told as lost', async () => {
    const file = join(folder.path, 'killed.sqlite');
    const store = await openStore(file);
    const [{ id }] = (await store.jobs()).jobs;
    await store.close();
    const never = [`capture ${id} none`, `typed ${id} 99999999`, `fitting ${id} none`, 'job none -'];
    expect(await run(child, file, 'check', { input: never.join('\n') })).toEqual(never);
  });
});

describe('two programs on one store', () => {
  it('start together on a new file and lose nothing of each other', async () => {
    const file = join(folder.path, 'shared.sqlite');
    const [first, second]: string[][] = await Promise.all([run(child, file, 25), run(child, file, 25)]);
    expect([first.at(-1), second.at(-1)]).toEqual(['closed', 'closed']);
    expect([first.length, second.length]).toEqual([27, 27]);
    expect(await run(child, file, 'check', { input: [...first, ...second].join('\n') })).toEqual([]);
    const store = await openStore(file);
    expect((await store.jobs()).jobs.map((job) => [job.number, job.captures])).toEqual([
      [2, 12],
      [1, 12],
    ]);
    await store.close();
  });
});
