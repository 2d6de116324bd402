/** What `record learn` says of what was learned, and where it writes it; learning has tests of its own. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { recordKey } from '../core/record/recordKey.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { readSheet } from './readSheet.ts';
import { command } from './record.ts';

const told = vi.hoisted(() => ({ learned: null as object | null, asked: [] as unknown[], closed: 0 }));
vi.mock('./storeFlag.ts', async (original) => ({
  ...(await original<typeof import('./storeFlag.ts')>()),
  openToRead: async (place: string) => ({
    async learned(key: string) {
      told.asked.push([place, key]);
      if (told.learned instanceof Error) throw told.learned;
      return { learned: told.learned, decks: 7 };
    },
    async close() {
      told.closed += 1;
    },
  }),
}));
let folder: ReturnType<typeof scratchFolder>;
let heard: Heard;
const at = (name: string) => join(folder.path, name);
beforeEach(() => {
  folder = scratchFolder();
  heard = heardStreams();
  Object.assign(told, { learned: null, asked: [], closed: 0 });
  const band = { signal: 'tone', motion: 'left', frequencyHz: 1000 };
  writeFileSync(at('h.json'), JSON.stringify({ schema: 1, name: 'House side', rpm: 33.333, bands: [band] }));
});
afterEach(() => folder.remove());
const learn = (...more: string[]) =>
  command.run(['learn', at('h.json'), '-o', at('l.json'), '--store', at('s'), ...more], heard.io);
const zero = { re: 0, im: 0 };
const base = { schema: 1, kind: 'learned-record', record: { name: 'as it was', key: 'k' }, decks: 12 };
const leaks = {
  mean: { leftIntoRight: zero, rightIntoLeft: zero },
  // the tangent of half a degree, squared
  variance: { tilt: Math.tan(Math.PI / 360) ** 2, common: 1e-6, quadrature: 1e-6 },
};

it('writes what was learned under the record file’s own name', async () => {
  told.learned = {
    ...base,
    leaks: { ...leaks, decks: 12, spread: { tilt: 0.01 } },
    speedPercent: { mean: 0.1, uncertainty: 0.0123 },
  };
  expect(await learn()).toBe(0);
  const text = readFileSync(at('l.json'), 'utf8');
  expect(text).toBe(`${JSON.stringify({ ...told.learned, record: { name: 'House side', key: 'k' } }, null, 2)}\n`);
  expect(told.asked).toEqual([[at('s'), recordKey(readSheet(at('h.json'), '--record'))]]);
  expect(told.closed).toBe(1);
  const [first, second, ...rest] = heard.err.split('\n');
  expect(first).toBe('platterside: learned from 12 decks: tilt to ±1.00°, speed to ±0.012 %');
  expect(second).toMatch(/^platterside: .*12/);
  expect([rest, heard.out]).toEqual([[''], '']);
});

it('says only what was learned', async () => {
  told.learned = { ...base, speedPercent: { mean: 0.1, uncertainty: 0.0123 } };
  await learn();
  expect(heard.err).toBe('platterside: learned from 12 decks: speed to ±0.012 %\n');
  heard = heardStreams();
  told.learned = { ...base, leaks };
  await learn();
  expect(heard.err).toBe('platterside: learned from 12 decks: tilt to ±1.00°\n');
});

it('writes nothing where nothing can be learned, and closes the store however it ends', async () => {
  await expect(learn()).rejects.toThrow(CannotError);
  await expect(learn()).rejects.toThrow(/^nothing can be learned of h\.json: .*7 decks/);
  told.learned = new Error('the store is gone');
  await expect(learn()).rejects.toThrow('the store is gone');
  expect(told.closed).toBe(3);
  expect(readdirSync(folder.path)).toEqual(['h.json']);
});

it('goes over no input, and over no recording unless told', async () => {
  told.learned = base;
  for (const file of ['h.json', 's', 's-wal'])
    await expect(
      command.run(['learn', at('h.json'), '-o', at(file), '--store', at('s'), '--replace'], heard.io),
    ).rejects.toThrow('which this command reads');
  writeFileSync(at('l.json'), 'RIFF a recording');
  await expect(learn()).rejects.toThrow('a recording is there and is kept');
  expect(await learn('--replace')).toBe(0);
});

it.each([
  [[], "record: '' was found; learn was expected"],
  [['teach', 'x'], "record: 'teach' was found; learn was expected"],
  [['learn'], 'record learn: one record file was expected'],
  [['learn', 'x', 'y', '-o', 'z'], 'record learn: one record file was expected'],
  [['learn', 'x'], 'record learn needs -o FILE to write to'],
  [['learn', 'x', '-o', ''], 'record learn needs -o FILE to write to'],
  [['learn', '/nowhere/x', '-o', '/tmp/never.json'], '/nowhere/x: cannot be read'],
])('refuses %j', async (args, sentence) => {
  await expect(command.run(args, heard.io)).rejects.toThrow(UsageError);
  await expect(command.run(args, heard.io)).rejects.toThrow(sentence);
});
