import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readDeck } from '../core/deck/deck.ts';
import { demoDeck, demoSheet } from '../core/deck/demo.ts';
import { readSheet } from '../core/deck/sheet.ts';
import { simulateSide } from '../core/deck/simulate.ts';
import { heardStreams } from './heard.fixture.ts';
import { command } from './simulate.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'simulate-'));
  writeFileSync(join(folder, 'deck.json'), JSON.stringify({ name: 'test deck', cartridge: { tiltDeg: 1 }, side }));
  writeFileSync(join(folder, 'short.json'), JSON.stringify({ name: 'short', bands: [shortBand] }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** little groove about the band, so that it is soon played */
const side = { beforeDropS: 0.1, leadInS: 0.1, gapS: 0.1, leadOutS: 0.1, afterLiftS: 0.1 };
const shortBand = { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, durationS: 0.3 };
const at = (name: string) => join(folder, name);

async function run(...args: string[]) {
  const heard = heardStreams();
  const status = await command.run(args, heard.io);
  return { status, err: heard.err };
}

test('writes the capture and the truth beside it, the same for the same seed', async () => {
  const flags = [
    '--deck',
    at('deck.json'),
    '--record',
    at('short.json'),
    '--seed',
    '5',
    '--bits',
    '16',
    '--rate',
    '44100',
  ];
  const { status, err } = await run(...flags, '-o', at('a.wav'), '--truth', at('a.truth.json'));
  expect(status).toBe(0);
  expect(err).toContain('short on test deck');
  await run(...flags, '--output', at('b.wav'));
  const bytes = readFileSync(at('a.wav'));
  expect(readFileSync(at('b.wav')).equals(bytes)).toBe(true);
  const truth = JSON.parse(readFileSync(at('a.truth.json'), 'utf8'));
  expect(truth.capture.sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
  expect(truth.capture).toMatchObject({ sampleRateHz: 44100, bits: 16 });
  expect(truth.figures.find((one: { quantity: string }) => one.quantity === 'azimuth-error').value).toBeCloseTo(1, 9);
  expect(bytes.length).toBe(44 + Math.round(truth.capture.durationS * 44100) * 4);
  expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

test('refuses to write over an input, by whatever name', async () => {
  symlinkSync(at('deck.json'), at('alias.json'));
  const before = readFileSync(at('deck.json'), 'utf8');
  await expect(run('--deck', at('deck.json'), '-o', at('alias.json'))).rejects.toThrow('which this command reads');
  await expect(run('--deck', at('deck.json'), '-o', at('x.wav'), '--truth', at('deck.json'))).rejects.toThrow(
    'which this command reads',
  );
  await expect(run('-o', at('x.wav'), '--truth', at('x.wav'))).rejects.toThrow('expected two files');
  expect(readFileSync(at('deck.json'), 'utf8')).toBe(before);
});

test('what is wrong is said in one sentence that names the file or the flag', async () => {
  writeFileSync(at('broken.json'), '{"cartridge": ');
  writeFileSync(at('wild.json'), '{"cartridge": {"tiltDeg": 90}}');
  const refused: [string[], string][] = [
    [[], '-o FILE.wav is missing'],
    [['--deck', at('nowhere.json'), '-o', at('x.wav')], 'nowhere.json: cannot be read (there is no such file)'],
    [['--deck', at('broken.json'), '-o', at('x.wav')], 'broken.json: is not JSON'],
    [
      ['--deck', at('wild.json'), '-o', at('x.wav')],
      'wild.json: cartridge.tiltDeg: 90 given, expected a number from -20 to 20',
    ],
    [['--seed', 'x', '-o', at('x.wav')], "--seed: 'x' given, expected an integer from 0 to 4294967295"],
    [['--rate', '12', '-o', at('x.wav')], "--rate: '12' given, expected an integer from 32000 to 384000"],
    [['--bits', '20', '-o', at('x.wav')], "--bits: '20' given, expected 16, 24, 32 or float"],
    [['--record', at('short.json'), '-o', join(folder, 'no', 'x.wav')], 'x.wav: cannot be written'],
    [['--rate', '32000', '-o', at('x.wav')], 'House test side: bands[5]: 20000 Hz given, expected less than 16000 Hz'],
    [['--loud', '-o', at('x.wav')], "Unknown option '--loud'"],
  ];
  for (const [args, sentence] of refused) {
    const failure = await run(...args).then(
      () => null,
      (error: Error) => error.message,
    );
    expect(failure, args.join(' ')).toContain(sentence);
  }
  expect(readdirSync(folder)).not.toContain('x.wav');
});

const examples = join(import.meta.dirname, '..', '..', 'examples');

test('every example deck is one, the sheet is the demo side and bench deck 3 the demo deck', () => {
  const files = readdirSync(examples);
  const decks = files.filter((name) => name.endsWith('.deck.json'));
  expect(decks.length).toBeGreaterThanOrEqual(5);
  for (const name of decks) readDeck(JSON.parse(readFileSync(join(examples, name), 'utf8')));
  const sheet = JSON.parse(readFileSync(join(examples, 'house-test-side.record.json'), 'utf8'));
  expect(readSheet(sheet)).toEqual(readSheet(demoSheet));
  const deck = JSON.parse(readFileSync(join(examples, 'bench-deck-3.deck.json'), 'utf8'));
  expect(readDeck(deck)).toEqual(readDeck(demoDeck));
});

test('the examples have the fault that they are named for', () => {
  const truthOf = (name: string) =>
    simulateSide(JSON.parse(readFileSync(join(examples, `${name}.deck.json`), 'utf8')), demoSheet, {
      sampleRateHz: 48000,
      seed: 1,
    }).truth;
  const hidden = truthOf('equal-separations-hide-a-tilt').crosstalk;
  expect(Math.abs(hidden.separationLeftToRightDb - hidden.separationRightToLeftDb)).toBeLessThan(0.3);
  expect(hidden.azimuthErrorDeg).toBeGreaterThan(1.5);
  const swapped = truthOf('swapped-leads');
  expect(swapped.figures.find(({ quantity }) => quantity === 'channel-order')?.value).toBe('swapped');
  expect(truthOf('one-channel-inverted').figures.find(({ quantity }) => quantity === 'polarity')?.value).toBe(
    'antiphase',
  );
  const hole = truthOf('off-centre-hole').bands.filter(({ flutter }) => (flutter?.fromHolePercent ?? 0) > 0.3);
  expect(hole.length).toBeGreaterThan(3);
  expect(Math.abs(truthOf('well-set').crosstalk.azimuthErrorDeg)).toBeLessThan(0.1);
  expect(truthOf('noisy-old-deck').noise.aWeightedDbfs.left).toBeGreaterThan(
    truthOf('well-set').noise.aWeightedDbfs.left + 10,
  );
});
