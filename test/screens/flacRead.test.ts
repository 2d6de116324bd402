/** A FLAC file read in the page: its reader leaps about to find where the stream ends, which files that are read in order never ask of a browser. */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { SideDocument } from '../../src/core/advise/document.ts';
import { type Bench, openBench, platterside } from './bench.ts';
import { settled } from './settled.ts';
import { shortSide } from './shortSide.ts';

/** a way of reading that left half of such files unread was once taken for good after a single try */
const TIMES = 4;

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench?.close());

test('a FLAC file is read to its end each time, with the fingerprint and the figures of the command line', async () => {
  const { path } = await shortSide(bench.folder, 1.5, 1);
  const flac = join(bench.folder, 'side.flac');
  execFileSync('ffmpeg', ['-v', 'error', '-y', '-i', path, '-c:a', 'flac', '-sample_fmt', 's32', flac]);
  const sha256 = createHash('sha256').update(readFileSync(flac)).digest('hex');
  const line: SideDocument = JSON.parse(await platterside('measure', flac, '--json'));
  const page = await bench.page(bench.station('tilt'));
  for (let time = 0; time < TIMES; time++) {
    const asked = page.waitForRequest((request) => /\/captures$/.test(request.url()) && request.method() === 'POST', {
      timeout: 60_000,
    });
    await page.getByLabel('Pick a recording').setInputFiles(flac);
    const { document }: { document: SideDocument } = (await asked).postDataJSON();
    expect(document.capture).toMatchObject({ file: 'side.flac', sha256 });
    expect(document.findings.map(({ quantity }) => quantity)).toEqual(line.findings.map(({ quantity }) => quantity));
    for (const [at, { value }] of document.findings.entries()) {
      const here = line.findings[at]?.value ?? null;
      // the browser's sines and logarithms differ in their last digit
      if (typeof value === 'number' && typeof here === 'number') expect(value).toBeCloseTo(here, 9);
      else expect(value).toBe(here);
    }
    await settled(page);
  }
  expect(bench.errors).toEqual([]);
});
