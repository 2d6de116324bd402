/** Learning a record from stored jobs, and measuring with what was learned, as the commands are called. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import type { SideDocument } from '../core/advise/document.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import { recordKey } from '../core/record/recordKey.ts';
import { parseSheet } from '../core/record/sheet.ts';
import { say } from '../core/words/statement.ts';
import { given, scratchFolder } from '../store/scratch.fixture.ts';
import { openStore } from '../store/store.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command as measure } from './measure.ts';
import { command } from './record.ts';

const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());
let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
});

const sheetText = JSON.stringify({
  schema: 1,
  name: 'House test side',
  rpm: 33.333,
  bands: [{ signal: 'tone', motion: 'left', frequencyHz: 1000 }],
});
const parsed = parseSheet(sheetText, 'house.record.json');
if (!parsed.ok) throw new Error(say(parsed.why));
const key = recordKey(parsed.sheet);

/** What a deck heard of the record: its own tilt beside the record's 0.02. */
function heardBy(deck: number, recordedAs = key): SideDocument {
  const own = 0.01 * (((deck * 7) % 11) - 5) * 0.2;
  const separation = (quantity: string, re: number) => ({
    quantity,
    value: 28,
    unit: 'dB',
    uncertainty: 1,
    bands: [0],
    note: '',
    verdict: 'info' as const,
    complex: { re, im: 0.001 * deck },
  });
  return {
    ...tiltedSide,
    capture: { ...tiltedSide.capture, sha256: null, file: `deck ${deck}.wav` },
    record: { name: 'House test side', key: recordedAs },
    findings: [
      separation('separation-left-to-right', 0.03 - 0.02 - own),
      separation('separation-right-to-left', 0.03 + 0.02 + own),
    ],
    advice: [],
  };
}

beforeAll(async () => {
  writeFileSync(at('house.record.json'), sheetText);
  writeFileSync(at('other.record.json'), sheetText.replace('House', 'Other'));
  writeFileSync(at('noise.wav'), wave(seededIntegers(240_000, 16, 5), 16));
  const jobs = await openStore(at('bench.sqlite'));
  for (let deck = 0; deck < 12; deck++) {
    const { id } = given(await jobs.createJob({ deck: { name: `deck ${deck}` } }));
    await jobs.addCapture(id, { document: heardBy(deck), heardAt: '2026-03-04T09:00:00.000Z' });
    // after the turn: not as found, so it teaches nothing
    await jobs.addCapture(id, { document: heardBy(deck + 500), heardAt: '2026-03-04T10:00:00.000Z' });
    await jobs.addCapture(id, { document: heardBy(deck + 900, 'another'), heardAt: '2026-03-04T08:00:00.000Z' });
  }
  await jobs.close();
});

const learn = (record: string, output: string) =>
  command.run(['learn', at(record), '-o', at(output), '--store', at('bench.sqlite')], heard.io);

describe('record learn', () => {
  it('finds what all decks have in common, the first recording of each', async () => {
    expect(await learn('house.record.json', 'learned.json')).toBe(0);
    const learned = JSON.parse(readFileSync(at('learned.json'), 'utf8'));
    expect(learned).toMatchObject({ schema: 1, kind: 'learned-record', decks: 12, record: { key } });
    const { leftIntoRight, rightIntoLeft } = learned.leaks.mean;
    expect((rightIntoLeft.re - leftIntoRight.re) / 2).toBeCloseTo(0.02, 2);
    // the second recordings have imaginary parts of 0.5
    expect(leftIntoRight.im).toBeLessThan(0.02);
    expect(heard.err).toContain('learned from 12 decks');
    expect(heard.out).toBe('');
  });

  it('says from how few nothing can be learned', async () => {
    await expect(learn('other.record.json', 'none.json')).rejects.toThrow(CannotError);
    await expect(learn('other.record.json', 'none.json')).rejects.toThrow(/played on 0 decks; at least 10/);
  });

  it('measures with it for the record it was learned of, and for no other', async () => {
    await learn('house.record.json', 'again.json');
    const run = (...args: string[]) => measure.run([at('noise.wav'), '--learned', at('again.json'), ...args], heard.io);
    expect(await run('--record', at('house.record.json'), '--json')).toBeLessThan(2);
    expect(JSON.parse(heard.out).record).toEqual({ name: 'House test side', key });
    await expect(run('--record', at('other.record.json'))).rejects.toThrow(/learned of "House test side"/);
    await expect(run()).rejects.toThrow(/--record with the record file/);
  });

  it.each([
    [['teach', 'x'], /'teach' was found; learn was expected/],
    [['learn', 'x.json'], /needs -o FILE/],
    [['learn', '-o', 'x.json'], /one record file was expected/],
  ])('refuses %s', async (args, words) => {
    await expect(command.run(args, heard.io)).rejects.toThrow(UsageError);
    await expect(command.run(args, heard.io)).rejects.toThrow(words);
  });
});

describe('measure --limits', () => {
  it('judges by the file, tells so in the document, and refuses what is no limits file', async () => {
    writeFileSync(at('own.limits.json'), '{"schema": 1, "class": "archive"}');
    writeFileSync(at('bad.limits.json'), '{"schema": 1, "class": "home"}');
    await measure.run([at('noise.wav'), '--limits', at('own.limits.json'), '--json'], heard.io);
    expect(JSON.parse(heard.out).limits).toMatchObject({
      deckClass: 'archive',
      limits: { 'speed-error': { good: 0.1, bad: 0.3, source: 'house rule' } },
    });
    await expect(measure.run([at('noise.wav'), '--limits', at('bad.limits.json')], heard.io)).rejects.toThrow(
      /bad\.limits\.json: class: one of "shop"/,
    );
  });
});
