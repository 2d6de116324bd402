// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** Files that are no side of a test record: one sentence each, and the page goes on. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, dropFiles, openBench } from './bench.ts';
import { settled, soon } from './settled.ts';

let bench: Bench;
let page: Page;
beforeAll(async () => {
  bench = await openBench();
  page = await bench.page(bench.station('run'));
  await page.getByText('Pick a recording').waitFor();
});
afterAll(() => bench?.close());

/** 16-bit WAV at 48 kHz. @param promised frames that the header claims */
function wav(
  channels: number,
  frames: number,
  sample: (n: number, channel: number) => number,
  promised = frames,
): Uint8Array {
  const bytes = Buffer.alloc(44 + frames * channels * 2);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(36 + promised * channels * 2, 4);
  bytes.write('WAVEfmt ', 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(channels, 22);
  bytes.writeUInt32LE(48_000, 24);
  bytes.writeUInt32LE(48_000 * channels * 2, 28);
  bytes.writeUInt16LE(channels * 2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(promised * channels * 2, 40);
  for (let n = 0; n < frames; n++) {
    for (let c = 0; c < channels; c++) {
      bytes.writeInt16LE(Math.round(32_000 * sample(n, c)), 44 + (n * channels + c) * 2);
    }
  }
  return bytes;
}

const sine = (n: number): number => 0.2 * Math.sin((2 * Math.PI * 1000 * n) / 48_000);

const refused: readonly [string, string, Uint8Array, RegExp][] = [
  [
    'text',
    'letter.wav',
    Buffer.from('Dear sir or madam, this is no recording at all.'),
    /letter\.wav is not a recording/,
  ],
  ['nothing', 'empty.wav', new Uint8Array(0), /empty\.wav is empty/],
  [
    'lossy coding',
    'song.mp3',
    Buffer.concat([Buffer.from('ID3\x04\0\0\0\0\0\0'), Buffer.alloc(4000, 0xff)]),
    /song\.mp3 is .*WAV or FLAC/,
  ],
];

test.each(refused)('%s is refused in one sentence', async (_, name, bytes, sentence) => {
  await dropFiles(page, [{ name, bytes }]);
  const alert = page.getByRole('alert').filter({ hasText: name });
  await alert.waitFor();
  await soon(() => alert.innerText()).toMatch(sentence);
  const text = await alert.innerText();
  expect(text).not.toMatch(/\bat .*:\d+:\d+|undefined|NaN|\[object/);
});

test.each([
  ['table.csv', 'frequency_hz,db\n20,0\n', /^table\.csv is no recording\. A table of a response is chosen at Run/],
  ['job 41.platterside.zip', 'PK', /^job 41\.platterside\.zip is no recording\. A bundle of a job is imported/],
  ['tip.jpg', 'x', /^tip\.jpg is a picture, no recording\. Add it under “Photographs”/],
])('%s is told where it is read', async (name, text, sentence) => {
  await dropFiles(page, [{ name, bytes: Buffer.from(text) }]);
  await page.getByRole('status').filter({ hasText: sentence }).waitFor();
});

const told: readonly [string, string, Uint8Array, RegExp][] = [
  ['one channel', 'mono.wav', wav(1, 96_000, sine), /one channel/],
  ['silence', 'silent.wav', wav(2, 96_000, () => 0), /silent/],
  ['a copied channel', 'copied.wav', wav(2, 192_000, sine), /Right is a copy of left/],
  [
    'a recording cut short',
    'cut short.wav',
    wav(2, 96_000, (n, c) => sine(n) * (c === 0 ? 1 : 0.02) + 1e-3 * Math.sin(n * (c + 1.7)), 480_000),
    /header promises 10(\.00)? s but the file holds 2(\.00)? s/,
  ],
];

test.each(told)(
  '%s is told in one sentence, and what cannot be trusted is not shown',
  async (_, name, bytes, sentence) => {
    await dropFiles(page, [{ name, bytes }]);
    await soon(() => page.locator('main').innerText()).toMatch(sentence);
    await settled(page);
    const text = await page.locator('main').innerText();
    expect(text).toContain(name);
    expect(text).not.toMatch(/NaN|Infinity|undefined|\[object/);
    // neither of them lets one channel be held against the other
    expect(text).not.toMatch(/(separation|azimuth|balance)[^\n]*\s+[−+]?\d+(\.\d+)?\s?(dB|°)/i);
  },
);

test('a sheet that is no sheet is named with what is wrong in it, and is not kept', async () => {
  await dropFiles(page, [
    { name: 'side.wav', bytes: wav(2, 96_000, sine) },
    { name: 'house.record.json', bytes: Buffer.from('{"schema": 1, "rpm": 33.333}') },
  ]);
  const alert = page.getByRole('alert').filter({ hasText: 'house.record.json' });
  await alert.waitFor();
  await soon(() => alert.innerText()).toMatch(/not used[\s\S]*bands/);
  // nor does it stand in the way: the recording is read without it, and the next one too
  await page.getByText(/side\.wav is read/).waitFor({ state: 'attached' });
  expect(await page.getByLabel('Record file', { exact: true }).inputValue()).toBe('');
});

test('the page met no error of its own', () => {
  expect(bench.errors).toEqual([]);
});
