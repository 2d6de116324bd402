import { expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import { jpegOfBase64, plainJpeg } from './plainJpeg.ts';

const segment = (marker: number, ...body: number[]): number[] => [0xff, marker, 0, body.length + 2, ...body];
const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
const frame = segment(0xc0, 8, 0, 3, 0, 4, 1, 1, 0x11, 0);
const scan = [...segment(0xda, 1, 1, 0, 0, 63, 0), 0x12, 0xff, 0x00, 0x34, 0xff, 0xd9];
const app0 = segment(0xe0, ...letters('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0);

test('place, remarks, thumbnails and what stands behind the picture are left out; pixels and size stay', () => {
  const given = [
    0xff,
    0xd8,
    ...app0,
    ...segment(0xe1, ...letters('Exif\0\0GPS 52.0')),
    ...segment(0xed, 1, 2),
    ...segment(0xfe, ...letters('owner')),
    ...frame,
    ...scan,
    ...letters('GPS again'),
  ];
  const plain = plainJpeg(Uint8Array.from(given));
  expect(plain).toMatchObject({ found: true, width: 4, height: 3 });
  expect(plain.found && [...plain.bytes]).toEqual([0xff, 0xd8, ...app0, ...frame, ...scan]);
});

test('what is no whole JPEG is refused with its reason', () => {
  const why = (bytes: number[]): string | null => {
    const plain = plainJpeg(Uint8Array.from(bytes));
    return plain.found ? null : say(plain.why);
  };
  expect(why(letters('<svg onload=x>'))).toBe('it is not a JPEG');
  expect(why([0xff, 0xd8, ...frame])).toBe('there is no picture in it');
  expect(why([0xff, 0xd8, ...frame, ...scan.slice(0, -2)])).toBe('it ends before its picture does');
  expect(why([0xff, 0xd8, 0xff, 0xe1, 0xff, 0xff, 1])).toBe('it breaks off at byte 2');
  expect(why([0xff, 0xd8, ...scan])).toBe('it has no size');
  for (let cut = 0; cut < frame.length + scan.length; cut++) {
    expect(plainJpeg(Uint8Array.from([0xff, 0xd8, ...frame, ...scan].slice(0, 2 + cut))).found).toBe(false);
  }
});

// RFC 4648, section 10
test.each([
  ['', ''],
  ['Zg==', 'f'],
  ['Zm8=', 'fo'],
  ['Zm9v', 'foo'],
  ['Zm9vYmE=', 'fooba'],
])('base64 %s', (text, bytes) => {
  expect([...jpegOfBase64(text)]).toEqual(letters(bytes));
  expect([...jpegOfBase64('/9j/2w==')]).toEqual([0xff, 0xd8, 0xff, 0xdb]);
});
