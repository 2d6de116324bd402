import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { say } from '../words/statement.ts';
import { readZip, type ZipBounds } from './zip.ts';

// places in the records: APPNOTE.TXT, the zip file format, 4.3.7, 4.3.12 and 4.3.16
const LOCAL = 0x04034b50;
const DIRECTORY = 0x02014b50;
const END = 0x06054b50;

const bounds: ZipBounds = { mostFiles: 10, mostBytes: 3 * 2 ** 20, mayBe: () => true };
const read = (bytes: Uint8Array, more: Partial<ZipBounds> = {}) => {
  const zip = readZip(bytes, { ...bounds, ...more });
  return zip.found ? Object.fromEntries(zip.files) : say(zip.why);
};
const text = strToU8('one and one and one and one');
const sound = strToU8('RIFF');
const whole = zipSync({ a: text, b: [sound, { level: 0 }] });

/** Where the records of a kind begin. */
function places(bytes: Uint8Array, kind: number): number[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  return Array.from({ length: bytes.length - 3 }, (_, at) => at).filter((at) => view.getUint32(at, true) === kind);
}
/** A copy with numbers put in at places counted from the n-th record of a kind. */
function put(bytes: Uint8Array, kind: number, nth: number, at: number, size: 16 | 32, value: number): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  const place = places(copy, kind)[nth] + at;
  if (size === 16) view.setUint16(place, value, true);
  else view.setUint32(place, value, true);
  return copy;
}
const joined = (...parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => [...part]));

describe('what is read', () => {
  it('is every file, packed or stored, whatever comment stands behind and wherever the bytes lie', () => {
    const files = { a: text, b: sound };
    expect(read(whole)).toEqual(files);
    for (const length of [1, 65_535]) {
      const comment = put(joined(whole, new Uint8Array(length)), END, 0, 20, 16, length);
      expect(read(comment), String(length)).toEqual(files);
    }
    expect(read(joined(whole, new Uint8Array(65_536)))).toBe('not a zip file, or its end is missing');
    const shifted = joined(new Uint8Array(7), whole).subarray(7);
    expect(read(shifted)).toEqual(files);
  });

  it('may be nothing, an empty file, or a folder, which is none', () => {
    expect(read(zipSync({}))).toEqual({});
    expect(read(zipSync({ a: [new Uint8Array(), { level: 0 }] }))).toEqual({ a: new Uint8Array() });
    expect(read(zipSync({ 'dir/': new Uint8Array(), b: sound }))).toEqual({ b: sound });
    expect(read(zipSync({ 'dir/': sound }), { mayBe: (path) => path === 'b' })).toBe(
      'it holds "dir/", which is no file of a bundle',
    );
    expect(read(zipSync({ empty: new Uint8Array() }), { mayBe: (path) => path === 'b' })).toContain('"empty"');
  });

  it('is a file packed in many slices', () => {
    // bytes that hardly pack: more than two slices of 16 kB
    let seed = 1;
    const long = Uint8Array.from({ length: 40_000 }, () => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed >> 8;
    });
    const { long: again } = read(zipSync({ long })) as { long: Uint8Array };
    expect(Buffer.compare(again, long)).toBe(0);
  });

  it('has extra fields in the directory and before the file passed over', () => {
    const extra = zipSync({ a: [text, { extra: { 7: Uint8Array.of(1, 2, 3) } }], b: [sound, { comment: 'said' }] });
    expect(read(extra)).toEqual({ a: text, b: sound });
  });
});

describe('what is refused, with its reason', () => {
  it('more files than the bounds allow, and just as many not', () => {
    const files = (count: number) => Object.fromEntries(Array.from({ length: count }, (_, i) => [`f${i}`, sound]));
    expect(Object.keys(read(zipSync(files(10))))).toHaveLength(10);
    expect(read(zipSync(files(11)))).toBe('it lists 11 files, more than 10');
  });

  it('more bytes than the bounds allow together, and just as many not', () => {
    const zip = zipSync({ a: new Uint8Array(1000), b: new Uint8Array(2000) });
    expect(Object.keys(read(zip, { mostBytes: 3000 }))).toEqual(['a', 'b']);
    expect(read(zip, { mostBytes: 2999 })).toBe('its files would take more than 0 MB');
    const large = put(zip, DIRECTORY, 0, 24, 32, 3 * 2 ** 20);
    expect(read(large)).toBe('its files would take more than 3 MB');
  });

  it('names that may not be, that stand twice, or that are too long to be one', () => {
    const may = (path: string) => path !== '../b';
    expect(read(zipSync({ a: text, '../b': sound }), { mayBe: may })).toBe(
      'it holds "../b", which is no file of a bundle',
    );
    const twice = Uint8Array.from(whole);
    for (const kind of [LOCAL, DIRECTORY]) twice[places(twice, kind)[1] + (kind === LOCAL ? 30 : 46)] = 97;
    expect(read(twice)).toBe('it holds "a" twice');
    expect(Object.keys(read(zipSync({ ['n'.repeat(200)]: sound })))).toEqual(['n'.repeat(200)]);
    expect(read(zipSync({ ['n'.repeat(201)]: sound }))).toBe(
      `it holds "${'n'.repeat(80)}", which is no file of a bundle`,
    );
  });

  it('encrypted files, unknown methods, sizes that stand elsewhere', () => {
    expect(read(put(whole, DIRECTORY, 0, 8, 16, 1))).toBe('"a" is encrypted');
    expect(typeof read(put(whole, DIRECTORY, 0, 8, 16, 2))).toBe('object');
    expect(read(put(whole, DIRECTORY, 0, 10, 16, 12))).toBe('"a" is packed by an unknown method 12');
    for (const at of [20, 24, 42]) expect(read(put(whole, DIRECTORY, 0, at, 32, 0xffff_ffff))).toBe('"a" is too large');
  });

  it('a directory that is none, or that runs past the end record', () => {
    expect(read(put(whole, END, 0, 16, 32, 1))).toBe('its directory is damaged');
    expect(read(put(whole, END, 0, 16, 32, whole.length + 5))).toBe('its directory is damaged');
    expect(read(put(whole, END, 0, 10, 16, 3))).toBe('its directory is damaged');
    expect(read(put(whole, DIRECTORY, 0, 0, 32, 0))).toBe('its directory is damaged');
    // the second entry would begin a byte too late
    expect(read(put(whole, DIRECTORY, 0, 32, 16, 1))).toBe('its directory is damaged');
  });

  it('files that are not where or what the directory says', () => {
    expect(read(put(whole, DIRECTORY, 0, 42, 32, 1))).toBe('a is damaged');
    expect(read(put(whole, DIRECTORY, 0, 42, 32, whole.length - 10))).toBe('a is damaged');
    expect(read(put(whole, DIRECTORY, 0, 20, 32, whole.length))).toBe('a is cut off');
    // stored: as long packed as not
    expect(read(put(whole, DIRECTORY, 1, 24, 32, 3))).toBe('b is damaged');
    expect(read(put(whole, DIRECTORY, 0, 24, 32, text.length - 1))).toBe('a is larger than its directory says');
    expect(read(put(whole, DIRECTORY, 0, 24, 32, text.length + 1))).toBe('a is cut off');
    const broken = whole.slice();
    broken[31] = 0xff;
    expect(read(broken)).toBe('a is damaged');
    // no packed bytes at all
    expect(read(put(whole, DIRECTORY, 0, 20, 32, 0))).toBe('a is cut off');
  });

  it('a file may end where the bytes end, and one byte further not', () => {
    const stored = zipSync({ b: [sound, { level: 0 }] });
    const reach = stored.length - 31;
    const upTo = (size: number) => read(put(put(stored, DIRECTORY, 0, 20, 32, size), DIRECTORY, 0, 24, 32, size));
    expect(Object.values(upTo(reach)).map(({ length }) => length)).toEqual([reach]);
    expect(upTo(reach + 1)).toBe('b is cut off');
  });
});

it('what is thrown by the bounds themselves is no fault of the file', () => {
  const mayBe = (): boolean => {
    throw new TypeError('mine');
  };
  expect(() => readZip(whole, { ...bounds, mayBe })).toThrow('mine');
});
