/** What the flags of `simulate` ask the practice deck for, and what is written; the deck plays a few samples here. */
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Deck } from '../core/deck/deck.ts';
import { wavFrames, wavHeader } from '../core/deck/wavBytes.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './simulate.ts';

const played = vi.hoisted(() => ({ asked: [] as [Deck, { name: string }, object][], throws: null as Error | null }));
const FRAMES = 30;
const block = (from: number) => ({
  ...{
    left: Float64Array.from({ length: 10 }, (_, i) => (from + i) / 40),
    right: new Float64Array(10).fill(-0.5),
    frames: 10,
  },
});
vi.mock('../core/deck/simulate.ts', () => ({
  simulateSide(...asked: [Deck, { name: string }, object]) {
    played.asked.push(asked);
    if (played.throws !== null) throw played.throws;
    return {
      ...{ frames: FRAMES, truth: { schema: 1, capture: { bits: 'its own' } } },
      *blocks() {
        for (const from of [0, 10, 20]) yield block(from);
      },
    };
  },
}));

let folder: ReturnType<typeof scratchFolder>;
let heard: Heard;
const at = (name: string) => join(folder.path, name);
beforeEach(() => {
  folder = scratchFolder();
  heard = heardStreams();
  Object.assign(played, { asked: [], throws: null });
  writeFileSync(at('deck.json'), JSON.stringify({ name: 'test deck', converter: { bits: 16 } }));
  const band = { signal: 'tone', motion: 'left', frequencyHz: 1000, peakVelocityCmS: 5, durationS: 0.3 };
  writeFileSync(at('short.json'), `\uFEFF${JSON.stringify({ name: 'short', bands: [band] })}`);
});
afterEach(() => folder.remove());
const run = (...args: string[]) => command.run([...args, '-o', at('a.wav')], heard.io);
const own = () => ['--deck', at('deck.json'), '--record', at('short.json')];
const asked = async (...args: string[]) => {
  expect(await run(...args, '--replace')).toBe(0);
  const [deck, sheet, how] = played.asked.at(-1) as (typeof played.asked)[number];
  return [deck.name, deck.converter.bits, sheet.name, how];
};

describe('what is played', () => {
  it('is the house’s side on bench deck 3 where nothing else was said', async () => {
    expect(await asked()).toEqual(['bench deck 3', 24, 'House test side', { sampleRateHz: 48_000, seed: 1 }]);
  });

  it('is the deck and the record of files, byte order mark or not, at seed and rate up to their bounds', async () => {
    expect(await asked(...own())).toEqual(['test deck', 16, 'short', { sampleRateHz: 48_000, seed: 1 }]);
    expect((await asked('--seed', '0', '--rate', '32000'))[3]).toEqual({ sampleRateHz: 32_000, seed: 0 });
    expect((await asked('--seed', '4294967295', '--rate', '384000'))[3]).toEqual({
      sampleRateHz: 384_000,
      seed: 4294967295,
    });
  });

  it('is in the sample format that is asked for, instead of the deck’s own', async () => {
    for (const bits of [16, 24, 32, 'float'] as const) {
      expect((await asked(...own(), '--bits', String(bits)))[1]).toBe(bits);
      const told = bits === 'float' ? '32 bit float' : `${bits} bit`;
      expect(heard.err).toContain(`: short on test deck, 0.0 s at 48000 Hz, ${told}, seed 1\n`);
    }
  });
});

describe('what is written', () => {
  it('is every block under a header, and the truth with the recording’s fingerprint', async () => {
    expect(await run(...own(), '--truth', at('a.json'), '--rate', '44100', '--seed', '5')).toBe(0);
    const bytes = readFileSync(at('a.wav'));
    const parts = [0, 10, 20].map((from) => wavFrames(block(from).left, block(from).right, 10, 16).slice());
    const expected = [wavHeader({ sampleRateHz: 44_100, bits: 16, frames: FRAMES }), ...parts];
    expect(bytes.equals(Buffer.concat(expected))).toBe(true);
    expect(JSON.parse(readFileSync(at('a.json'), 'utf8'))).toEqual({
      ...{
        schema: 1,
        capture: { bits: 'its own', file: at('a.wav'), sha256: createHash('sha256').update(bytes).digest('hex') },
      },
    });
    expect(heard.err).toBe(`${at('a.wav')}: short on test deck, 0.0 s at 44100 Hz, 16 bit, seed 5\n`);
    expect(heard.out).toBe('');
  });

  it('shows how far it is on a terminal', async () => {
    await command.run(['-o', at('a.wav')], { ...heard.io, progress: true });
    expect(heard.err).toMatch(/^\rsimulate 33 %\rsimulate 66 %\rsimulate 100 %\r {16}\r\S+a\.wav: /);
  });

  it('goes over no input and over no recording, unless told; and truth and recording are two files', async () => {
    for (const name of ['deck.json', 'short.json']) {
      await expect(command.run([...own(), '-o', at(name), '--replace'], heard.io)).rejects.toThrow(
        'which this command reads',
      );
      await expect(run(...own(), '--truth', at(name), '--replace')).rejects.toThrow('which this command reads');
    }
    await run();
    await expect(run()).rejects.toThrow('a recording is there and is kept');
    await expect(run('--truth', at('a.wav'), '--replace')).rejects.toThrow(
      'given both as recording and as --truth, expected two files',
    );
    await expect(command.run([...own(), '-o', at('b.wav'), '--truth', at('a.wav')], heard.io)).rejects.toThrow(
      'is kept',
    );
    expect(existsSync(at('b.wav'))).toBe(false);
  });
});

describe('what is refused', () => {
  it.each([
    ...['-1', '4294967296', '1.5', 'x', '', ' '].map((seed) => [
      `--seed=${seed}`,
      `--seed: '${seed}' given, expected an integer from 0 to`,
    ]),
    ...['31999', '384001', 'x'].map((rate) => [
      `--rate=${rate}`,
      `--rate: '${rate}' given, expected an integer from 32000 to 384000`,
    ]),
    ...['8', '20', 'Float', ''].map((bits) => [
      `--bits=${bits}`,
      `--bits: '${bits}' given, expected 16, 24, 32 or float`,
    ]),
  ])('%s', async (flag, sentence) => {
    await expect(run(flag)).rejects.toThrow(UsageError);
    await expect(run(flag)).rejects.toThrow(sentence);
    expect(existsSync(at('a.wav'))).toBe(false);
  });

  it('what only deck and record together show is said under the name of the one that it is about', async () => {
    played.throws = new RangeError('bands[5]: too high');
    await expect(run()).rejects.toThrow('House test side: bands[5]: too high');
    await expect(run()).rejects.toThrow(UsageError);
    await expect(run(...own())).rejects.toThrow(`${at('short.json')}: bands[5]: too high`);
    played.throws = new RangeError('arm.geometry: too long');
    await expect(run()).rejects.toThrow('bench deck 3: arm.geometry: too long');
    await expect(run(...own())).rejects.toThrow(`${at('deck.json')}: arm.geometry: too long`);
    played.throws = new TypeError('no such thing');
    await expect(run()).rejects.toThrow(TypeError);
  });

  it('a file that is no JSON, or no deck, is named', async () => {
    writeFileSync(at('broken.json'), '{"cartridge": ');
    writeFileSync(at('wild.json'), '{"cartridge": {"tiltDeg": 90}}');
    for (const name of ['broken.json', 'wild.json']) await expect(run('--deck', at(name))).rejects.toThrow(UsageError);
    await expect(run('--deck', at('broken.json'))).rejects.toThrow(/broken\.json: is not JSON: [^\n]+$/);
    await expect(run('--deck', at('wild.json'))).rejects.toThrow('wild.json: cartridge.tiltDeg: 90 given');
    await expect(run('--record', at('none.json'))).rejects.toThrow('none.json: cannot be read (there is no such file)');
    await expect(command.run([], heard.io)).rejects.toThrow('-o FILE.wav is missing');
    await expect(run('side.wav')).rejects.toThrow("Unexpected argument 'side.wav'");
  });
});
