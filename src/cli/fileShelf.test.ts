import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { FileShelf } from './fileShelf.ts';

const folder = mkdtempSync(join(tmpdir(), 'platterside-shelf-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('gives back what was laid away, to another thread too, and leaves no file', () => {
  const shelf = new FileShelf(folder);
  const laid = [3000, 1, 70_000].map((length, i) => Uint8Array.from({ length }, (_, k) => (k * 31 + i) % 256));
  const places = laid.map((bytes) => shelf.put(bytes));
  expect(readdirSync(folder)).toEqual([]);
  const other = new FileShelf(folder);
  for (const i of [2, 0, 1]) expect(other.take(places[i]!)).toEqual(laid[i]);
  other.close();
  shelf.close();
});

it('takes nothing where nothing can be written, and says where it ended', () => {
  expect(new FileShelf(join(folder, 'missing')).put(new Uint8Array(8))).toBeNull();
  const shelf = new FileShelf(folder);
  const place = shelf.put(new Uint8Array(8))!;
  expect(() => shelf.take({ ...place, bytes: 9 })).toThrow('the temporary file ended at 8, before 9 bytes');
  shelf.close();
});
