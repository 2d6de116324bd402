import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { demoArm } from '../core/job/demoParts.ts';
import { leafChanges } from '../core/job/leafPaths.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore, type Store } from '../store/store.ts';
import { changeRoutes } from './changeRoutes.ts';

let folder: ReturnType<typeof scratchFolder>;
let here: Store;
let there: Store;
beforeEach(async () => {
  folder = scratchFolder();
  [here, there] = [await openStore(join(folder.path, 's.sqlite')), await openStore(join(folder.path, 's.sqlite'))];
});
afterEach(async () => {
  await Promise.all([here.close(), there.close()]);
  folder.remove();
});

/** Reads events off an answer until it is told to stop. */
async function eventsOf(path: string) {
  const answer = await changeRoutes(here).request(path);
  const reader = (answer.body as ReadableStream<Uint8Array>).getReader();
  let text = '';
  return {
    type: answer.headers.get('content-type'),
    async next(): Promise<{ event: string; data: unknown }> {
      for (;;) {
        const found = /event: (\w+)\ndata: (.*)\n\n/.exec(text);
        if (found !== null) {
          text = text.slice(found.index + found[0].length);
          return { event: found[1], data: JSON.parse(found[2]) };
        }
        text += new TextDecoder().decode((await reader.read()).value);
      }
    },
    end: () => reader.cancel(),
  };
}

it('a job’s time is told at once, and again when another program changed it; changes of other jobs are not', async () => {
  const { id, updatedAt } = given(await there.createJob({ deck: { name: 'deck' } }));
  const other = given(await there.createJob({ deck: { name: 'other' } }));
  const events = await eventsOf(`/changes?job=${id}`);
  expect(events.type).toContain('text/event-stream');
  expect(await events.next()).toEqual({ event: 'job', data: { job: id, updatedAt } });
  await there.setJobAside(other.id, 'a trial');
  const aside = given(await there.setJobAside(id, 'a trial'));
  expect(await events.next()).toEqual({ event: 'job', data: { job: id, updatedAt: aside.updatedAt } });
  await there.deleteJob(id);
  expect(await events.next()).toEqual({ event: 'job', data: { job: id, updatedAt: null } });
  await events.end();
});

it('of the store every change is told', async () => {
  const events = await eventsOf('/changes');
  const first = await events.next();
  expect(first).toEqual({ event: 'store', data: { parts: expect.any(String) } });
  await there.createJob({ deck: { name: 'deck' } });
  expect(await events.next()).toEqual(first);
  const part = { kind: 'arm', id: 'a' } as const;
  await there.changePart(part.kind, part.id, { changes: leafChanges({}, { ...demoArm }) });
  const added = await events.next();
  expect(added.data).not.toEqual(first.data);
  await there.deletePart(part.kind, part.id);
  expect((await events.next()).data).toEqual(first.data);
  await events.end();
});

it('one line tells of a job and of the store', async () => {
  const { id, updatedAt } = given(await there.createJob({ deck: { name: 'deck' } }));
  const events = await eventsOf(`/changes?job=${id}&store=1`);
  expect(await events.next()).toEqual({ event: 'job', data: { job: id, updatedAt } });
  expect((await events.next()).event).toBe('store');
  await there.createJob({ deck: { name: 'other' } });
  expect((await events.next()).event).toBe('store');
  await events.end();
});
