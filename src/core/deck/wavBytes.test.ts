import { expect, test } from 'vitest';
import { infoChunk } from './infoChunk.ts';
import { wavFrames, wavHeader } from './wavBytes.ts';

const text = (bytes: Uint8Array, at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));

test.each([
  [16, 1, 4],
  [24, 1, 6],
  [32, 1, 8],
] as const)('%i bit: a 44-byte header that tells the truth', (bits, format, frameBytes) => {
  const header = wavHeader({ sampleRateHz: 96000, bits, frames: 1000 });
  const view = new DataView(header.buffer);
  expect(header.length).toBe(44);
  expect([text(header, 0), text(header, 8), text(header, 12), text(header, 36)]).toEqual([
    'RIFF',
    'WAVE',
    'fmt ',
    'data',
  ]);
  expect(view.getUint32(4, true)).toBe(36 + 1000 * frameBytes);
  expect(view.getUint16(20, true)).toBe(format);
  expect(view.getUint16(22, true)).toBe(2);
  expect(view.getUint32(24, true)).toBe(96000);
  expect(view.getUint32(28, true)).toBe(96000 * frameBytes);
  expect(view.getUint16(32, true)).toBe(frameBytes);
  expect(view.getUint16(34, true)).toBe(bits);
  expect(view.getUint32(40, true)).toBe(1000 * frameBytes);
});

test('float: format 3 with a fact chunk', () => {
  const header = wavHeader({ sampleRateHz: 44100, bits: 'float', frames: 10 });
  const view = new DataView(header.buffer);
  expect(view.getUint16(20, true)).toBe(3);
  expect(text(header, 38)).toBe('fact');
  expect(view.getUint32(46, true)).toBe(10);
  expect(text(header, 50)).toBe('data');
  expect(view.getUint32(4, true)).toBe(header.length + 80 - 8);
});

test('beyond 4 GB it is RF64 with its lengths in ds64; just below it is not', () => {
  const most = Math.floor((0xffffffff - 36) / 8);
  expect(text(wavHeader({ sampleRateHz: 192000, bits: 32, frames: most }), 0)).toBe('RIFF');
  const frames = most + 1;
  const header = wavHeader({ sampleRateHz: 192000, bits: 32, frames });
  const view = new DataView(header.buffer);
  expect([text(header, 0), text(header, 12), text(header, 48), text(header, 72)]).toEqual([
    'RF64',
    'ds64',
    'fmt ',
    'data',
  ]);
  expect(view.getUint32(4, true)).toBe(0xffffffff);
  expect(Number(view.getBigUint64(20, true))).toBe(header.length - 8 + 8 * frames);
  expect(Number(view.getBigUint64(28, true))).toBe(8 * frames);
  expect(Number(view.getBigUint64(36, true))).toBe(frames);
  expect(view.getUint32(76, true)).toBe(0xffffffff);
});

test('samples: left before right, little-endian, held within the range', () => {
  const left = Float64Array.of(0.5, -1, 2);
  const right = Float64Array.of(-0.25, 1, -2);
  const of = (bits: 16 | 24 | 32 | 'float') => new DataView(wavFrames(left, right, 3, bits).buffer);
  const short = of(16);
  expect([0, 1, 2, 3, 4, 5].map((i) => short.getInt16(2 * i, true))).toEqual([
    16384, -8192, -32768, 32767, 32767, -32768,
  ]);
  const int24 = of(24);
  const at = (i: number) => int24.getUint8(3 * i) | (int24.getUint8(3 * i + 1) << 8) | (int24.getInt8(3 * i + 2) << 16);
  expect([0, 1, 2, 3].map(at)).toEqual([0x400000, -0x200000, -0x800000, 0x7fffff]);
  const long = of(32);
  expect([0, 1, 2, 3].map((i) => long.getInt32(4 * i, true))).toEqual([2 ** 30, -(2 ** 29), -(2 ** 31), 2 ** 31 - 1]);
  expect(of('float').getFloat32(16, true)).toBe(2);
});

test('what cannot be is refused by name', () => {
  expect(() => wavHeader({ sampleRateHz: 48000.5, bits: 16, frames: 1 })).toThrow('sampleRateHz: 48000.5 given');
  expect(() => wavHeader({ sampleRateHz: 48000, bits: 16, frames: Number.NaN })).toThrow('frames: NaN given');
});

// the same bytes were read by ffprobe 5.1.9 (title, date, encoder, the comment as it is here); soxi 14.4.2 read their frames and rate
test('what a file says of itself is a LIST chunk of a fixed length before the samples', () => {
  const comment = { input: 'Line “2” ä', sampleRateHz: 48000, lostFrames: null };
  const told = { title: 'job 41 pass 1', date: '2026-03-01', software: 'Platterside', comment };
  const info = infoChunk(told, 400);
  const header = wavHeader({ sampleRateHz: 48000, bits: 'float', frames: 2, info });
  const view = new DataView(header.buffer);
  const entries: Record<string, string> = {};
  let at = 12;
  const seen: string[] = [];
  while (at + 8 <= header.length) {
    const [name, size] = [text(header, at), view.getUint32(at + 4, true)];
    seen.push(name);
    if (name === 'LIST') {
      expect(text(header, at + 8)).toBe('INFO');
      for (let sub = at + 12; sub < at + 8 + size; ) {
        const length = view.getUint32(sub + 4, true);
        const bytes = header.subarray(sub + 8, sub + 8 + length);
        expect(bytes[length - 1]).toBe(0);
        entries[text(header, sub)] = String.fromCharCode(...bytes.subarray(0, bytes.indexOf(0)));
        sub += 8 + length + (length % 2);
        expect(sub % 2).toBe(at % 2);
      }
    }
    at += 8 + (name === 'data' ? 0 : size);
  }
  expect(seen).toEqual(['fmt ', 'fact', 'LIST', 'data']);
  expect(at).toBe(header.length);
  expect(entries).toMatchObject({ INAM: 'job 41 pass 1', ICRD: '2026-03-01', ISFT: 'Platterside' });
  expect(entries.ICMT).toMatch(/^[\x20-\x7e]+$/);
  expect(JSON.parse(entries.ICMT)).toEqual(comment);
  expect(view.getUint32(4, true)).toBe(header.length + 16 - 8);
  // written over at the end: the same length whatever it says
  const later = infoChunk({ ...told, comment: { ...comment, lostFrames: 12 } }, 400);
  expect(later.length).toBe(info.length);
  expect(() => infoChunk(told, 100)).toThrow(/size: 100 given/);
});
