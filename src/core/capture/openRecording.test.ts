import { describe, expect, it } from 'vitest';
import { flac } from '../../../test/faults/buildFlac.ts';
import { chunk, ds64, formatChunk, joined, riff, seededIntegers, text, wave } from '../../../test/faults/buildWave.ts';
import { bytesOf } from './bytesOf.ts';
import { CaptureError } from './captureError.ts';
import { openRecording } from './openRecording.ts';
import type { ByteSource } from './recording.ts';

const SAMPLES = seededIntegers(96_000, 16, 1);

describe('the container', () => {
  it('is told by the bytes, whatever the name says', async () => {
    const files: readonly (readonly [string, Uint8Array, string])[] = [
      ['a.flac', wave(SAMPLES, 16), 'wav'],
      ['b.wav', flac(SAMPLES.slice(0, 2_000), { bits: 16 }), 'flac'],
      [
        'c.mp3',
        riff(
          [ds64(192_000), formatChunk({ bits: 16 }), chunk('data', new Uint8Array(192_000), { size: 0xffffffff })],
          'RF64',
        ),
        'rf64',
      ],
    ];
    for (const [name, bytes, container] of files) {
      const recording = await openRecording(bytesOf(bytes, name));
      expect(recording.format).toMatchObject({ container, file: name });
    }
  });

  it.each([
    ['nothing', new Uint8Array(0), 'empty-file', /is empty/],
    ['one byte', Uint8Array.of(0x52), 'not-audio', /begins with/],
    ['text', text('dear sir, here is the recording'), 'not-audio', /'dear sir'/],
    ['zeros', new Uint8Array(5_000), 'not-audio', /bytes 00 00/],
    ['Ogg', text('OggS\0\u0002\0\0\0\0\0\0'), 'other-format', /is an \.ogg file;/],
    ['AIFF', text('FORM\0\0\0\0AIFFCOMM'), 'other-format', /is an \.aif file;/],
    [
      'MP3 with a tag',
      joined(text('ID3'), Uint8Array.of(3, 0, 0, 0, 0, 0, 4), new Uint8Array(4), Uint8Array.of(0xff, 0xfb, 0x90, 0)),
      'other-format',
      /most likely \.mp3;/,
    ],
    ['MP3', Uint8Array.of(0xff, 0xfb, 0x90, 0x64, 0, 0, 0, 0), 'other-format', /MPEG/],
    ['AAC', Uint8Array.of(0xff, 0xf1, 0x50, 0x80, 0, 0, 0, 0), 'other-format', /MPEG/],
    ['a text in UTF-16', Uint8Array.of(0xff, 0xfe, 0x61, 0, 0x3b, 0), 'not-audio', /bytes ff fe/],
    ['M4A', text('\0\0\0 ftypM4A '), 'other-format', /\.m4a/],
    ['ZIP', text('PK\u0003\u0004\0\0\0\0'), 'other-format', /\.zip/],
    ['a coder whose name is not said', text('MAC \u0096\u000f\0\0'), 'other-format', /is an \.ape file;/],
    ['another such', text('wvpk\0\0\0\0'), 'other-format', /is a \.wv file;/],
    ['big-endian', text('RIFX\0\0\0\0WAVE'), 'other-format', /RIFX/],
    [
      'a tag that says it is longer than the file',
      joined(text('ID3'), Uint8Array.of(4, 0, 0, 127, 127, 127, 127)),
      'other-format',
      /tagged/,
    ],
  ])('%s is refused by name', async (_, bytes, code, message) => {
    const error = await openRecording(bytesOf(bytes, 'thing')).catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(CaptureError);
    expect((error as CaptureError).code).toBe(code);
    expect((error as CaptureError).message).toMatch(message);
  });
});

describe('what the format alone tells', () => {
  it.each([
    [44_100, []],
    [48_000, []],
    [88_200, []],
    [96_000, []],
    [176_400, []],
    [192_000, []],
    [22_050, ['rate-unusual']],
    [384_000, ['rate-unusual', 'too-short']],
  ])('%s Hz', async (rateHz, expected) => {
    const recording = await openRecording(
      bytesOf(wave([...SAMPLES, ...SAMPLES, ...SAMPLES, ...SAMPLES, ...SAMPLES], 16, { rateHz }), 'a'),
    );
    expect(recording.problems.map(({ code }) => code)).toEqual(expected);
    expect(recording.format.durationS).toBeCloseTo(240_000 / rateHz, 12);
  });

  it('mono and too short', async () => {
    const recording = await openRecording(bytesOf(wave(SAMPLES.slice(0, 24_000), 16, { channels: 1 }), 'a'));
    expect(recording.problems.map(({ code }) => code)).toEqual(['mono', 'too-short']);
    expect(recording.problems[1]!.message).toContain('0.50 s');
  });
});

describe('a source that fails', () => {
  const whole = wave(SAMPLES, 16);

  it('with a reason of its own', async () => {
    const locked: ByteSource = {
      name: 'locked.wav',
      size: whole.length,
      read: async () => {
        throw new Error('permission denied.\nat somewhere');
      },
    };
    await expect(openRecording(locked)).rejects.toThrow('locked.wav could not be read at byte 0: permission denied.');
  });

  it('by becoming shorter while it is read', async () => {
    let size = whole.length;
    const shrinking: ByteSource = {
      name: 'shrinking.wav',
      size: whole.length,
      read: async (offset, length) => whole.subarray(offset, Math.min(size, offset + length)),
    };
    const recording = await openRecording(shrinking);
    size = 1_044;
    const read = async (): Promise<void> => {
      for await (const block of recording.blocks()) expect(block.frames).toBe(0);
    };
    await expect(read()).rejects.toThrow(/shrinking.wav changed while it was being read .it ended at byte 1044/);
  });

  it('by handing out a few bytes at a time', async () => {
    const slow: ByteSource = {
      name: 'slow.wav',
      size: whole.length,
      read: async (offset, length) => whole.subarray(offset, offset + Math.min(length, 1_001)),
    };
    const recording = await openRecording(slow);
    const seen: number[] = [];
    for await (const { left, right, frames } of recording.blocks({ fromFrame: 0, toFrame: 3_000 })) {
      for (let i = 0; i < frames; i++) seen.push(left[i]! * 32_768, right[i]! * 32_768);
    }
    expect(seen).toEqual(SAMPLES.slice(0, 6_000));
  });

  it('a reader that stops early leaves nothing behind', async () => {
    const recording = await openRecording(bytesOf(whole, 'a'));
    for await (const block of recording.blocks()) {
      expect(block.startFrame).toBe(0);
      break;
    }
    const again = recording.blocks();
    expect((await again.next()).done).toBe(false);
    await again.return();
  });
});
