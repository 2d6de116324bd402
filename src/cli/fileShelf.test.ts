import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
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

it('once nothing could be written it takes nothing more, and an empty piece is a piece', () => {
  const missing = join(folder, 'later');
  const shelf = new FileShelf(missing);
  expect(shelf.put(new Uint8Array(8))).toBeNull();
  mkdirSync(missing);
  expect(shelf.put(new Uint8Array(8))).toBeNull();
  shelf.close();
  const other = new FileShelf(folder);
  const [nothing, some] = [other.put(new Uint8Array(0))!, other.put(Uint8Array.of(1, 2))!];
  expect([nothing.at, nothing.bytes, some.at, some.bytes]).toEqual([0, 0, 0, 2]);
  expect(other.take(nothing)).toEqual(new Uint8Array(0));
  expect(other.take({ ...some, at: 1, bytes: 1 })).toEqual(Uint8Array.of(2));
  expect(() => other.take({ ...some, at: 1, bytes: 3 })).toThrow('the temporary file ended at 2, before 4 bytes');
  other.close();
  // closed, it is begun anew, and closing twice does no harm
  other.close();
  expect(other.put(Uint8Array.of(3))).not.toBeNull();
  other.close();
});
