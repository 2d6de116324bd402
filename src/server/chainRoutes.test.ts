import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { batchStatusSchema } from '../core/job/api.ts';
import { alarmListSchema, chainChartsSchema, chainListSchema, chainSchema } from '../core/job/chains/chain.ts';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { readCsv } from '../core/words/csv.ts';
import { type BatchStore, openBatches } from '../store/batch/batchStore.ts';
import { play, testRecord } from '../store/chain/chains.fixture.ts';
import { countingOrigin, given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { chainRoutes } from './chainRoutes.ts';
import { Refusal } from './refusal.ts';

let folder: ReturnType<typeof scratchFolder>;
let store: Store;
let batch: BatchStore;
beforeEach(async () => {
  folder = scratchFolder();
  const place = join(folder.path, 's.sqlite');
  store = await openStore(place);
  batch = await openBatches(place, { ...countingOrigin(), now: () => new Date().toISOString() });
  for (let day = 0; day < 12; day++) {
    const at = new Date(Date.UTC(2026, 2, 1 + day)).toISOString();
    const speed = day === 11 ? 2 : [0, 0.1, -0.1][day % 3];
    await play(batch, { chain: 'studio, "2"', record: testRecord(138), at, speed, method: METHOD_VERSION });
  }
});
afterEach(async () => {
  await Promise.all([store.close(), batch.close()]);
  folder.remove();
});

const asked = async (path: string, method = 'GET', body?: unknown) => {
  let refused: unknown;
  const routes = chainRoutes(store);
  routes.onError((error, c) => {
    refused = error;
    return c.text('', 500);
  });
  const sent = { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) };
  const answer = await routes.request(path, { method, ...(body === undefined ? {} : sent) });
  if (refused !== undefined) throw refused;
  return answer;
};
const json = async (path: string) => (await asked(path)).json();

describe('chains over HTTP', () => {
  it('are changed, once however often it is sent, and take the recordings of a job', async () => {
    const change = { id: 'change-1', name: 'studio, "2"', parts: { deck: 'bench deck 3' }, why: 'new belt' };
    for (let sent = 0; sent < 2; sent++) {
      const chain = chainSchema.parse(await (await asked('/chains', 'POST', change)).json());
      expect(chain).toMatchObject({ parts: { deck: 'bench deck 3' }, states: [{ why: 'new belt' }] });
    }
    const job = given(await store.createJob({ deck: { name: 'deck' } }));
    expect(await (await asked(`/jobs/${job.id}/chain`, 'PUT', { chain: change.name })).json()).toEqual({
      chain: change.name,
    });
    expect(given(await store.chains.chain(change.name)).jobs).toEqual([job.number]);
    await asked(`/jobs/${job.id}/chain`, 'PUT', { chain: null });
    expect(given(await store.chains.chain(change.name)).jobs).toEqual([]);
    await expect(asked(`/jobs/${job.id}/chain`, 'PUT', { chain: 'none' })).rejects.toThrow('There is no chain none.');
    await expect(asked('/chains', 'POST', { ...change, parts: { needle: 'x' } })).rejects.toThrow(Refusal);
  });

  it('are listed, charted and gone through in pages', async () => {
    const { chains } = chainListSchema.parse(await json('/chains'));
    expect(chains.map(({ name }) => name)).toEqual(['studio, "2"']);
    const [{ id }] = chains;
    const charts = chainChartsSchema.parse(await json(`/chains/${id}/charts`));
    expect(charts.figures[0]).toMatchObject({ quantity: 'speed-error', behind: 12 });
    const page = await json(`/chains/${id}/history?limit=5`);
    expect(page.readings).toHaveLength(5);
    const rest = await json(`/chains/${id}/history?limit=500&before=${encodeURIComponent(page.next as string)}`);
    expect([rest.readings.length, rest.next]).toEqual([7, undefined]);
    // four watched figures are in each document, speed once and hum twice
    const rows = readCsv(await (await asked(`/chains/${id}/history.csv`)).text()).lines;
    expect(rows).toHaveLength(1 + 12 * 3);
    expect(readCsv(await (await asked('/chains.csv')).text()).lines[1].cells[0]).toBe('studio, "2"');
  });

  it('what left its limits is told as JSON and as CSV, a sentence each', async () => {
    const { alarms } = alarmListSchema.parse(await json('/alarms'));
    expect(alarms.map(({ kind, value }) => [kind, value])).toEqual([['beyond', 2]]);
    const answer = await asked('/alarms.csv');
    expect(answer.headers.get('content-type')).toContain('text/csv');
    const [head, row] = readCsv(await answer.text()).lines.map(({ cells }) => cells);
    expect(row[head.indexOf('sentence')]).toBe(alarms[0].sentence);
    expect(Number(row[head.indexOf('outside_by')])).toBeCloseTo(alarms[0].by, 9);
    expect(alarmListSchema.parse(await json('/alarms?since=2100-01-01T00:00:00.000Z')).alarms).toEqual([]);
  });

  it('refuse what is no chain, no time and no page, in a sentence', async () => {
    for (const path of ['/chains/none/charts', '/chains/none/history.csv', '/alarms?since=x', '/chains?limit=0'])
      await expect(asked(path), path).rejects.toThrow(Refusal);
  });

  it('how far the batches are', async () => {
    expect(batchStatusSchema.parse(await json('/batches')).sides).toMatchObject({ done: 12, open: 0 });
    expect(await json('/references')).toEqual({ references: [] });
  });
});
