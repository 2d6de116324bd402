/** What a thread of `batch work` answers, asked here in this one. */
import { createHash } from 'node:crypto';
import { appendFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, it, vi } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import type { SideDocument } from '../core/advise/document.ts';
import { CaptureError } from '../core/capture/captureError.ts';
import { testRecord } from '../store/chain/chains.fixture.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import type { BatchReply, BatchRequest } from './batchThread.ts';

const port = vi.hoisted(() => ({
  ask: (_: unknown): void => undefined,
  answered: (_: unknown): void => undefined,
  during: (): void => undefined,
  options: [] as object[],
}));
vi.mock('node:worker_threads', async (original) => ({
  ...(await original<typeof import('node:worker_threads')>()),
  parentPort: {
    on: (_: string, ask: typeof port.ask) => Object.assign(port, { ask }),
    postMessage: (reply: unknown) => port.answered(reply),
  },
}));
vi.mock('../core/side/examineSide.ts', () => ({
  async examineRecording({ format }: { format: { file: string } }, options: object) {
    port.options.push(options);
    port.during();
    return { document: { capture: { file: format.file }, findings: [] } as unknown as SideDocument };
  },
}));

const folder = scratchFolder();
afterAll(() => folder.remove());
const at = (name: string) => join(folder.path, name);
const noise = wave(seededIntegers(400, 16, 5), 16);
const sha256 = createHash('sha256').update(noise).digest('hex');
const { text } = testRecord(138);

beforeEach(async () => {
  port.during = () => undefined;
  port.options = [];
  writeFileSync(at('a.wav'), noise);
  await import('./batchThread.ts');
});
const asked = (request: BatchRequest) =>
  new Promise<BatchReply>((resolve) => {
    port.answered = resolve as typeof port.answered;
    port.ask(request);
  });
const measured = (more: Partial<NonNullable<BatchRequest['measure']>> = {}, file = at('a.wav')) =>
  asked({ file, measure: { record: text, sha256, ...more } });

it('a fingerprint is the SHA-256 of the file', async () => {
  expect(await asked({ file: at('a.wav') })).toEqual({ ok: true, result: sha256 });
  expect(await asked({ file: at('none.wav') })).toEqual({
    ok: false,
    why: 'none.wav cannot be read (there is no such file)',
  });
});

it('a recording is measured by its record file and limits, and its document says where it lies', async () => {
  const limits = { deckClass: 'shop' } as never;
  expect(await measured({ limits })).toEqual({
    ok: true,
    result: { capture: { file: 'a.wav', path: at('a.wav') }, findings: [] },
  });
  expect(port.options).toEqual([{ sheet: expect.objectContaining({ name: 'side at 138 mm' }), sha256, limits }]);
});

it('what another content took the place of is not taken for it', async () => {
  const changed = 'a.wav was changed since its fingerprint was taken; batch add takes it in anew';
  expect(await measured({ sha256: '0'.repeat(64) })).toEqual({ ok: false, why: changed });
  port.during = () => appendFileSync(at('a.wav'), 'more');
  expect(await measured()).toEqual({ ok: false, why: changed });
});

it('why it could not be measured is said in one sentence', async () => {
  expect(await measured({}, at('none.wav'))).toEqual({
    ok: false,
    why: 'none.wav cannot be read (there is no such file)',
  });
  expect(await measured({ record: 'none' })).toMatchObject({ ok: false, why: expect.stringContaining('batch') });
  writeFileSync(at('list.wav'), 'a shopping list');
  expect(await measured({}, at('list.wav'))).toMatchObject({
    why: expect.stringMatching(/^list\.wav is not a recording/),
  });
  port.during = () => {
    throw new CaptureError('changed-while-read', { file: 'a.wav', what: 'it became shorter' });
  };
  expect(await measured()).toMatchObject({ why: expect.stringContaining('it became shorter') });
  port.during = () => {
    throw new RangeError('out of everything');
  };
  expect(await measured()).toEqual({ ok: false, why: 'out of everything' });
});
