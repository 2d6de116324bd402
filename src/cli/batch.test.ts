/** The command as it is called, with a store of its own and hands that say what the test wants. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { NamedLimits } from '../core/advise/limitsFile.ts';
import { METHOD_VERSION } from '../core/measure/methodVersion.ts';
import { readCsv } from '../core/words/csv.ts';
import { openBatches } from '../store/batch/batchStore.ts';
import { sideWith, testRecord } from '../store/chain/chains.fixture.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { command } from './batch.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';

const hands = vi.hoisted(() => ({
  started: [] as (NamedLimits | undefined)[],
  ended: 0,
  asked: [] as string[],
  answer: async (_: string): Promise<unknown> => undefined,
}));
vi.mock('./batchHands.ts', () => ({
  startThread(limits?: NamedLimits) {
    hands.started.push(limits);
    return {
      async fingerprint(file: string) {
        const { createHash } = await import('node:crypto');
        return createHash('sha256').update(readFileSync(file)).digest('hex');
      },
      async measure(file: string, text: string, sha256: string) {
        hands.asked.push(file);
        const told = await hands.answer(file);
        if (told !== undefined) return told;
        return { ...sideWith(0.1, null, METHOD_VERSION, sha256), record: { key: text.slice(0, 3), name: 'r' } };
      },
      async end() {
        hands.ended += 1;
      },
    };
  },
}));

let folder: ReturnType<typeof scratchFolder>;
let heard: Heard;
const at = (...names: string[]) => join(folder.path, ...names);
const record = testRecord(138);
beforeEach(() => {
  folder = scratchFolder();
  mkdirSync(at('side', 'b'), { recursive: true });
  for (const name of ['a.wav', 'b/c.flac', 'b/d.wav']) writeFileSync(at('side', name), name);
  writeFileSync(at('house.record.json'), record.text);
  Object.assign(hands, { started: [], ended: 0, asked: [], answer: async () => undefined });
});
afterEach(() => folder.remove());

async function batch(...args: string[]): Promise<string> {
  heard = heardStreams();
  expect(await command.run([...args, '--store', at('bench.sqlite')], heard.io)).toBe(0);
  return heard.out;
}
async function refusal(...args: string[]): Promise<string> {
  const error = await batch(...args).then(
    () => new Error('it was done'),
    (reason: Error) => reason,
  );
  if (!(error instanceof UsageError)) throw error;
  return error.message;
}
const root = () => ['--root', `archive=${folder.path}`];
const add = (...more: string[]) => batch('add', at('side'), '--record', at('house.record.json'), ...root(), ...more);
const csv = async (...args: string[]) => {
  const [{ cells: head }, ...rows] = readCsv(await batch(...args)).lines;
  return rows.map(({ cells }) => Object.fromEntries(head.map((name, i) => [name, cells[i]])));
};

describe('batch add', () => {
  it('tells how many are new, there already, and changed since', async () => {
    expect(await add()).toBe('3 recordings added, 0 there already, 0 changed since and to be measured anew.\n');
    writeFileSync(at('side', 'e.wav'), 'e');
    writeFileSync(at('side', 'a.wav'), 'longer now');
    expect(await add('--chain', ' studio 2 ')).toBe(
      '1 recording added, 2 there already, 1 changed since and to be measured anew.\n',
    );
    await batch('work', ...root());
    const rows = await csv('report');
    expect([...new Set(rows.map(({ path, root: of, chain }) => `${of} ${path} ${chain}`))].sort()).toEqual([
      ...['archive side/a.wav studio 2', 'archive side/b/c.flac studio 2', 'archive side/b/d.wav studio 2'],
      'archive side/e.wav studio 2',
    ]);
  });

  it('knows recordings by this machine where no root is named, and takes single files', async () => {
    await batch('add', at('side', 'a.wav'), at('side', 'b'), '--record', at('house.record.json'));
    const store = await openBatches(at('bench.sqlite'), { now: () => '2026-03-04T09:00:00.000Z', newId: () => 'x' });
    expect((await store.status(METHOD_VERSION)).files.open).toBe(3);
    await store.close();
    await batch('work');
    expect(hands.asked.sort()).toEqual([at('side', 'a.wav'), at('side', 'b', 'c.flac'), at('side', 'b', 'd.wav')]);
    expect((await csv('report'))[0]).toMatchObject({ root: `machine ${hostname()}`, chain: '' });
  });

  it('refuses what it cannot take', async () => {
    const named = ['--record', at('house.record.json')];
    expect(await refusal('add', ...named)).toBe('batch add: one or more folders were expected');
    expect(await refusal('add', at('side'))).toContain('batch add needs --record FILE');
    expect(await refusal('add', at('none'), ...named)).toBe(
      `${at('none')}: cannot be read (there is no such file); a folder was expected`,
    );
    expect(await refusal('add', at('side'), ...named, '--root', 'no')).toBe("--root 'no': NAME=FOLDER was expected");
    expect(await refusal('add', at('side'), ...named, '--root', `archive=${at('side', 'b')}`)).toBe(
      `${at('side', 'a.wav')} lies below no root that was named; --root NAME=FOLDER was expected`,
    );
    expect(await refusal('add', at('side'), '--record', at('none.json'))).toContain('a record file was expected');
  });
});

describe('batch work', () => {
  it('measures each content once, with as many threads as asked for, and ends them', async () => {
    writeFileSync(at('side', 'again.wav'), 'a.wav');
    await add();
    await batch('work', ...root(), '--threads', '3');
    expect(heard.err).toBe('3 sides measured here.\n');
    expect(hands.asked).toHaveLength(3);
    expect(hands.started).toEqual([undefined, undefined, undefined]);
    expect(hands.ended).toBe(3);
    await batch('work', ...root(), '--lease', '3600');
    expect(heard.err).toBe('0 sides measured here.\n');
    expect(hands.started).toHaveLength(4);
  });

  it('judges by the shop’s limits where it has set some', async () => {
    const jobs = await openStore(at('bench.sqlite'));
    await jobs.setShop({ limits: { class: 'archive' } });
    await jobs.close();
    await batch('work');
    expect(hands.started).toEqual([{ deckClass: 'archive', limits: expect.any(Object) }]);
  });

  it('tells what failed in one line, and goes on with the others', async () => {
    await add();
    hands.answer = async (file) => {
      if (file.endsWith('d.wav')) throw new Error('d.wav is\u001bno recording');
    };
    await batch('work', ...root());
    // three tries, and it is set aside
    const told = `platterside: ${at('side', 'b', 'd.wav')}: d.wav is?no recording\n`;
    expect(heard.err).toBe(`${told.repeat(3)}2 sides measured here.\n`);
  });

  it.each(['SIGINT', 'SIGTERM'] as const)('gives back what is under way when it is stopped by %s', async (signal) => {
    await add();
    const others = process.listeners(signal);
    let give = (_: Error): void => undefined;
    hands.answer = async () =>
      new Promise((_, reject) => {
        give = reject;
        process.listeners(signal).find((one) => !others.includes(one))?.(signal);
      });
    const work = batch('work', ...root());
    await vi.waitFor(() => expect(hands.ended).toBe(1), { timeout: 10_000 });
    give(new Error('the thread that worked on it ended'));
    await work;
    expect(heard.err).toBe('Stopping: what is under way is given back.\n0 sides measured here.\n');
    expect(process.listeners(signal)).toEqual(others);
    const [{ claimed, open }] = [JSON.parse(await batch('status', '--json')).sides];
    expect([claimed, open]).toEqual([0, 1]);
  });

  it('shows on a terminal how many were measured, once a second', async () => {
    await add();
    const clock = vi.spyOn(Date, 'now').mockReturnValue(Date.now());
    const from = Date.now();
    let done = 0;
    hands.answer = async () => void clock.mockReturnValue(from + [0, 999, 1000][done++]);
    heard = heardStreams();
    const io = { ...heard.io, progress: true };
    try {
      await command.run(['work', ...root(), '--store', at('bench.sqlite')], io);
    } finally {
      clock.mockRestore();
    }
    expect(heard.err).toBe('\r\u001b[K3 measured here\r\u001b[K3 sides measured here.\n');
  });

  it('leaves no listener behind', async () => {
    const before = [process.listenerCount('SIGINT'), process.listenerCount('SIGTERM')];
    await add();
    await batch('work', ...root());
    expect([process.listenerCount('SIGINT'), process.listenerCount('SIGTERM')]).toEqual(before);
  });

  it('takes 1 to 64 threads and a lease of 1 to 3600 s', async () => {
    for (const threads of ['0', '65', '100', 'x', '1.5', '', '-1'])
      expect(await refusal('work', `--threads=${threads}`)).toBe(
        `--threads '${threads}': a whole number from 1 to 64 was expected`,
      );
    for (const lease of ['0', '3601', '10000', 'x', '1.5', ''])
      expect(await refusal('work', `--lease=${lease}`)).toBe(
        `--lease '${lease}': a whole number of seconds from 1 to 3600 was expected`,
      );
    await batch('work', '--threads', '64', '--lease', '1');
    expect(hands.started.length).toBeGreaterThanOrEqual(64);
  });
});

describe('batch status, report and again', () => {
  it('tell how far it is, and every figure, as text and for programs', async () => {
    expect(await batch('status')).toMatch(/^0 recordings, 0 with a fingerprint, 0 different sides/);
    await add();
    await batch('work', ...root());
    expect(await batch('status')).toMatch(/^3 recordings, 3 with a fingerprint, 3 different sides .*\nmeasured 3, /);
    expect(JSON.parse(await batch('status', '--json'))).toMatchObject({ schema: 1, sides: { done: 3 } });
    const rows = await csv('report');
    expect(rows.length).toBeGreaterThanOrEqual(9);
    expect(rows.filter(({ quantity }) => quantity === 'speed-error').map(({ value }) => value)).toEqual([
      ...['0.1', '0.1', '0.1'],
    ]);
    const { schema, recordings } = JSON.parse(await batch('report', '--json'));
    expect(schema).toBe(1);
    expect(recordings.map(({ path }: { path: string }) => path).sort()).toEqual([
      ...['side/a.wav', 'side/b/c.flac', 'side/b/d.wav'],
    ]);
    expect(recordings[0]).not.toHaveProperty('id');
    expect(heard.out.split('\n').slice(-3)).toEqual([expect.stringMatching(/^\{.*\}$/), ']}', '']);
  });

  it('of nothing are empty, and still a document', async () => {
    expect(JSON.parse(await batch('report', '--json'))).toEqual({ schema: 1, recordings: [] });
    expect(await csv('report')).toEqual([]);
    expect(await csv('again', '--moved')).toEqual([]);
  });

  it('open what earlier versions measured', async () => {
    await add();
    await batch('work', ...root());
    expect(await batch('again', '--older-than', METHOD_VERSION)).toBe(
      `0 sides are to be measured by version ${METHOD_VERSION}; batch work does it, batch again --moved shows what moved.\n`,
    );
    for (const version of ['', 'x', '1.5', '1234567'])
      expect(await refusal('again', `--older-than=${version}`)).toBe(
        `batch again --older-than '${version}': a version of the methods was expected, such as ${METHOD_VERSION}`,
      );
    expect(await refusal('again')).toContain("--older-than ''");
  });
});

it('the command refuses what it does not know, and a store that is none', async () => {
  expect(await refusal()).toBe('batch needs one of: add, work, status, report, again');
  expect(await refusal('polish')).toBe("batch 'polish': one of add, work, status, report, again was expected");
  expect(await refusal('constructor')).toContain("batch 'constructor'");
  for (const name of ['work', 'status', 'report', 'again'])
    expect(await refusal(name, 'x')).toBe(`batch ${name} takes no argument; 'x' was found`);
  writeFileSync(at('text'), 'dear diary');
  await expect(command.run(['status', '--store', at('text')], heardStreams().io)).rejects.toThrow(CannotError);
});
