import { describe, expect, it, test } from 'vitest';
import { say } from '../words/statement.ts';
import { jpegOfBase64, plainJpeg } from './plainJpeg.ts';

const segment = (marker: number, ...body: number[]): number[] => [0xff, marker, 0, body.length + 2, ...body];
const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
const frameOf = (marker: number, height = [0, 3], width = [0, 4]): number[] =>
  segment(marker, 8, ...height, ...width, 1, 1, 0x11, 0);
const start = [0xff, 0xd8];
const frame = frameOf(0xc0);
const scan = [...segment(0xda, 1, 1, 0, 0, 63, 0), 0x12, 0xff, 0x00, 0x34, 0xff, 0xd9];
const app0 = segment(0xe0, ...letters('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0);

/** Width, height and bytes; or why not. */
const read = (bytes: readonly number[]) => {
  const plain = plainJpeg(Uint8Array.from(bytes));
  return plain.found ? { width: plain.width, height: plain.height, bytes: [...plain.bytes] } : say(plain.why);
};

test('place, remarks, thumbnails and what stands behind the picture are left out; pixels and size stay', () => {
  const given = [
    ...start,
    ...app0,
    ...segment(0xe1, ...letters('Exif\0\0GPS 52.0')),
    ...segment(0xed, 1, 2),
    ...segment(0xfe, ...letters('owner')),
    ...frame,
    ...scan,
    ...letters('GPS again'),
  ];
  expect(read(given)).toEqual({ width: 4, height: 3, bytes: [...start, ...app0, ...frame, ...scan] });
});

test('what a camera may write stays out; what draws the picture stays in', () => {
  const stays = (marker: number) => {
    const one = segment(marker, 1, 2);
    const all = read([...start, ...frame, ...one, ...scan]);
    if (typeof all === 'string') throw new Error(all);
    return all.bytes.length === start.length + frame.length + one.length + scan.length;
  };
  const markers = Array.from({ length: 0x40 }, (_, i) => 0xc0 + i).filter((marker) => {
    const frames = marker < 0xd0 && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    return !frames && marker !== 0xda && marker !== 0xff;
  });
  // ITU-T T.81 table B.1: APP0 to APP15 and COM; APP0 says the shape of a pixel, APP14 the colours
  const left = markers.filter((marker) => !stays(marker));
  expect(left).toEqual([...Array.from({ length: 13 }, (_, i) => 0xe1 + i), 0xef, 0xfe]);
});

test('the size stands in the frame, of whatever kind of coding; tables are none', () => {
  for (let marker = 0xc0; marker <= 0xcf; marker++) {
    const isTable = [0xc4, 0xc8, 0xcc].includes(marker);
    const bytes = [...start, ...frameOf(marker, [2, 3], [1, 4]), ...scan];
    expect(read(bytes), marker.toString(16)).toEqual(isTable ? 'it has no size' : { width: 260, height: 515, bytes });
  }
  for (const marker of [0xbf, 0xd0]) expect(read([...start, ...frameOf(marker), ...scan])).toBe('it has no size');
  expect(read([...start, ...frameOf(0xc0, [0, 0]), ...scan])).toBe('it has no size');
  expect(read([...start, ...frameOf(0xc0, [0, 3], [0, 0]), ...scan])).toBe('it has no size');
});

test('a marker may be filled up, and a segment be long or empty', () => {
  const long = [0xff, 0xdb, 1, 4, ...Array.from({ length: 258 }, () => 7)];
  const bytes = [...start, ...long, ...frame, ...scan];
  expect(read(bytes)).toEqual({ width: 4, height: 3, bytes });
  expect(read([...start, 0xff, 0xff, ...frame, ...scan])).toEqual({
    width: 4,
    height: 3,
    bytes: [...start, ...frame, ...scan],
  });
  const empty = [...start, ...segment(0xdb), ...frame, ...scan];
  expect(read(empty)).toEqual({ width: 4, height: 3, bytes: empty });
});

describe('what is no whole JPEG', () => {
  it('is refused with its reason', () => {
    for (const bytes of [
      letters('<svg onload=x>'),
      [0xff, 0xd9, ...frame, ...scan],
      [0xfe, 0xd8, ...frame, ...scan],
      [],
    ])
      expect(read(bytes)).toBe('it is not a JPEG');
    expect(read(start)).toBe('there is no picture in it');
    expect(read([...start, ...frame])).toBe('there is no picture in it');
    expect(read([...start, ...frame, ...scan.slice(0, -2)])).toBe('it ends before its picture does');
    expect(read([...start, ...frame, ...scan.slice(0, -1)])).toBe('it ends before its picture does');
    expect(read([...start, 0xff, 0xe1, 0xff, 0xff, 1])).toBe('it breaks off at byte 2');
    expect(read([...start, ...frame, 0xfe, 0xe1, 0, 2, ...scan])).toBe(`it breaks off at byte ${2 + frame.length}`);
    expect(read([...start, 0xff, 0xdb, 0, 1, ...frame, ...scan])).toBe('it breaks off at byte 2');
    expect(read([...start, ...scan])).toBe('it has no size');
    for (let cut = 0; cut < frame.length + scan.length; cut++) {
      expect(typeof read([...start, ...frame, ...scan].slice(0, 2 + cut))).toBe('string');
    }
  });

  it('has a frame with room for a size', () => {
    const damaged = segment(0xc0, 8, 0, 3, 0, 4);
    expect(read([...start, ...damaged.slice(0, 3), 7, ...damaged.slice(4, -1), ...scan])).toBe('its frame is damaged');
    const least = segment(0xc0, 8, 0, 3, 0, 4, 1);
    expect(read([...start, ...least, ...scan])).toEqual({ width: 4, height: 3, bytes: [...start, ...least, ...scan] });
  });

  it('may end with its last segment, and not a byte before', () => {
    const last = segment(0xdb, 1, 2, 3);
    expect(read([...start, ...last])).toBe('there is no picture in it');
    expect(read([...start, ...last.slice(0, -1)])).toBe('it breaks off at byte 2');
  });
});

// RFC 4648, section 10
test.each([
  ['', ''],
  ['Zg==', 'f'],
  ['Zm8=', 'fo'],
  ['Zm9v', 'foo'],
  ['Zm9vYg==', 'foob'],
  ['Zm9vYmE=', 'fooba'],
  ['Zm9vYmFy', 'foobar'],
  ['Zm9v!YmFy', 'foo'],
])('base64 %s', (text, bytes) => {
  expect([...jpegOfBase64(text)]).toEqual(letters(bytes));
  expect([...jpegOfBase64('/9j/2w==')]).toEqual([0xff, 0xd8, 0xff, 0xdb]);
});

test('base64 of every byte in every place comes back', () => {
  const bytes = Uint8Array.from({ length: 769 }, (_, i) => (i * 167) % 256);
  for (const length of [767, 768, 769])
    expect(jpegOfBase64(Buffer.from(bytes.slice(0, length)).toString('base64'))).toEqual(bytes.slice(0, length));
});
