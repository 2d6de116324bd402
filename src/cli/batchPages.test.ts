/** Answers that come page by page: every page is asked for after the last row of the one before, and told once. */
import { beforeEach, expect, it, vi } from 'vitest';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { command } from './batch.ts';
import { heardStreams } from './heard.fixture.ts';

const row = (i: number) => ({
  ...{ id: `id-${i}`, root: 'archive', path: `${i}.wav`, record: 'r', chain: '', fingerprint: 'f', method: '1' },
  ...{ state: 'done', measuredAt: null, why: '', figures: [] },
});
const store = vi.hoisted(() => ({ rows: 0, asked: [] as unknown[][], closed: 0, opened: 7 }));
vi.mock('../store/batch/batchStore.ts', () => ({
  openBatches: async () => ({
    async report(...asked: [string, string | null, number]) {
      store.asked.push(asked);
      const from = asked[1] === null ? 0 : Number(asked[1].slice(3)) + 1;
      return Array.from({ length: Math.min(asked[2], store.rows - from) }, (_, i) => row(from + i));
    },
    async moved(...asked: [string, string | null, number]) {
      store.asked.push(asked);
      const page = asked[1] === null ? 0 : Number(asked[1]);
      return { moved: [], next: page < 2 ? String(page + 1) : null };
    },
    async again(...asked: unknown[]) {
      store.asked.push(asked);
      return store.opened;
    },
    async close() {
      store.closed += 1;
    },
  }),
}));
beforeEach(() => Object.assign(store, { rows: 0, asked: [], closed: 0 }));

async function batch(...args: string[]): Promise<string> {
  const heard = heardStreams();
  expect(await command.run(args, heard.io)).toBe(0);
  expect(store.closed).toBe(1);
  return heard.out;
}

it.each([
  [0, [null]],
  [499, [null]],
  [500, [null, 'id-499']],
  [1001, [null, 'id-499', 'id-999']],
])('a report of %i recordings', async (rows, after) => {
  store.rows = rows;
  const { recordings } = JSON.parse(await batch('report', '--json'));
  expect(recordings.map(({ path }: { path: string }) => path)).toEqual(
    Array.from({ length: rows }, (_, i) => `${i}.wav`),
  );
  expect(store.asked).toEqual(after.map((one) => [METHOD_VERSION, one, 500]));
  Object.assign(store, { closed: 0, asked: [] });
  const [head, ...lines] = (await batch('report')).trimEnd().split('\r\n');
  expect(head).toMatch(/^root,path,/);
  expect(lines.map((line) => line.split(',')[1])).toEqual(recordings.map(({ path }: { path: string }) => path));
  expect(store.asked).toHaveLength(after.length);
});

it('what moved is asked for until there is no next page', async () => {
  expect((await batch('again', '--moved')).trimEnd().split('\r\n')).toHaveLength(1);
  expect(store.asked).toEqual([null, '1', '2'].map((after) => [METHOD_VERSION, after, 500]));
});

it('again asks for the version as a number', async () => {
  expect(await batch('again', '--older-than', '2')).toMatch(/^7 sides are to be measured/);
  expect(store.asked).toEqual([[2, METHOD_VERSION]]);
});
