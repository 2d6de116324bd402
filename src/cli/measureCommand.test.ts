/** The command around the listener: what it reads, in which order, what it writes and how it ends. The listener says what the test wants. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { seededIntegers, wave } from '../../test/faults/buildWave.ts';
import type { SideDocument } from '../core/advise/document.ts';
import type { Recording } from '../core/capture/recording.ts';
import { tiltedSide } from '../core/job/side.fixture.ts';
import type { ExaminedSide, ExamineOptions } from '../core/side/examineSide.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './measure.ts';

const told = vi.hoisted(() => ({
  document: {} as Partial<SideDocument>,
  options: [] as ExamineOptions[],
  during: (_: ExamineOptions): void => undefined,
}));
vi.mock('../core/side/examineSide.ts', () => ({
  async examineRecording({ format }: Recording, options: ExamineOptions): Promise<ExaminedSide> {
    told.options.push(options);
    told.during(options);
    const capture = { ...tiltedSide.capture, file: format.file };
    return {
      document: { ...tiltedSide, capture, ...told.document },
      overview: null,
      turns: [],
    } as unknown as ExaminedSide;
  },
}));
// each says of which two recordings its document is
const pair = (kind: string, first: SideDocument, second: SideDocument, more: object = {}) => ({
  ...first,
  pair: [kind, first.capture.file, second.capture.file, more],
});
vi.mock('../core/side/withHalfTurn.ts', () => ({
  withHalfTurn: (first: ExaminedSide, second: ExaminedSide) => pair('half', first.document, second.document),
}));
vi.mock('../core/side/withSwappedLeads.ts', () => ({
  withSwappedLeads: (first: SideDocument, second: SideDocument) => pair('leads', first, second),
}));
vi.mock('../core/advise/loading/withAddedCapacitance.ts', () => ({
  withAddedCapacitance: (first: SideDocument, second: SideDocument, added: object) =>
    pair('added', first, second, added),
}));

const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());
const noise = wave(seededIntegers(400, 16, 5), 16);
for (const name of ['one.wav', 'two.wav']) writeFileSync(at(name), noise);
writeFileSync(at('list.wav'), 'a shopping list');

let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
  told.document = {};
  told.options = [];
  told.during = () => undefined;
});
const run = (...args: string[]) => command.run(args, heard.io);

describe('measure', () => {
  it('gives the document of one recording, of several an array, each with its path and fingerprint', async () => {
    expect(await run(at('one.wav'), '--json')).toBe(0);
    const one = JSON.parse(heard.out);
    expect(heard.out.endsWith('}\n')).toBe(true);
    expect(one).toEqual({
      ...tiltedSide,
      capture: {
        ...tiltedSide.capture,
        file: 'one.wav',
        path: at('one.wav'),
        sha256: expect.stringMatching(/^[0-9a-f]{64}$/),
      },
    });
    heard.out = '';
    expect(await run(at('one.wav'), at('two.wav'), '--json')).toBe(0);
    const both = JSON.parse(heard.out) as SideDocument[];
    expect(both.map(({ capture }) => capture.path)).toEqual([at('one.wav'), at('two.wav')]);
    expect(both[0]).toEqual(one);
    expect(heard.err).toBe('');
  });

  it('tells people of each recording, one page after the other', async () => {
    expect(await run(at('one.wav'), at('two.wav'))).toBe(0);
    expect(heard.out).toMatch(/\S\n\n\S+two\.wav: /);
    expect(heard.out.match(/^\S+(one|two)\.wav: 96000 Hz, 24 bit, 42\.5 s$/gm)).toHaveLength(2);
    expect(heard.out).not.toContain('\u001b');
    heard.out = '';
    await command.run([at('one.wav')], { ...heard.io, colour: true });
    expect(heard.out).toContain('\u001b[33madjust');
  });

  it('ends with 1 where a recording has no figure, with 2 where one could not be read', async () => {
    told.document = { findings: [] };
    expect(await run(at('one.wav'))).toBe(1);
    expect(await run(at('one.wav'), at('list.wav'), '--json')).toBe(2);
    expect(heard.err).toMatch(/^platterside: list\.wav is not a recording: .*\n$/);
    expect(await run(at('one.wav'), at('none.wav'))).toBe(2);
    expect(heard.err).toContain('none.wav: cannot be read (there is no such file); a recording was expected');
    await expect(run(at('none.wav'))).rejects.toThrow(UsageError);
    await expect(run(at('list.wav'))).rejects.toThrow('is not a recording');
    let times = 0;
    told.during = () => {
      times += 1;
      told.document = { findings: times === 2 ? [] : tiltedSide.findings };
    };
    expect(await run(at('one.wav'), at('two.wav'))).toBe(1);
  });

  it('a fault of its own is no file that cannot be read: it ends the command, whatever else was asked', async () => {
    told.during = () => {
      throw new TypeError('no such thing');
    };
    await expect(run(at('one.wav'), at('two.wav'))).rejects.toThrow(TypeError);
    expect(heard.err).toBe('');
  });

  it('asks the listener for what the flags say, for the second recording too', async () => {
    await run(at('one.wav'), '--rpm', '45', '--flat', '--half-turn', at('two.wav'));
    expect(told.options).toHaveLength(2);
    for (const options of told.options) {
      expect(options).toMatchObject({ rpm: 45, flat: true, shelf: {}, onProgress: expect.any(Function) });
      expect(options).not.toHaveProperty('passes');
    }
  });

  it.each([
    ['half', ['--half-turn'], {}],
    ['leads', ['--leads-swapped'], {}],
    ['added', ['--added-capacitance', '100', '--capacitance-added'], { addedF: 100 * 1e-12 }],
  ])('the second recording goes with the first: %s', async (kind, flags, more) => {
    expect(await run(at('one.wav'), ...flags, at('two.wav'), '--json')).toBe(0);
    expect(JSON.parse(heard.out).pair).toEqual([kind, 'one.wav', 'two.wav', more]);
    await expect(run(at('one.wav'), ...flags, at('none.wav'))).rejects.toThrow('none.wav: cannot be read');
  });

  it('says that a recording still grew', async () => {
    const { appendFileSync } = await import('node:fs');
    writeFileSync(at('grows.wav'), noise);
    told.during = () => appendFileSync(at('grows.wav'), 'more');
    await run(at('grows.wav'), '--json');
    const { problems } = JSON.parse(heard.out) as SideDocument;
    expect(problems.map(({ code }) => code)).toEqual(['withheld', 'still-growing']);
    expect(problems[1].message).toContain('0.0');
  });
});

describe('what is written', () => {
  it('is the report, and the curves as table or as charts by the name, once or twice', async () => {
    const [report, csv, svg] = [at('r.html'), at('c.csv'), at('c.SVG')];
    expect(await run(at('one.wav'), '--report', report, '--curves', csv, '--curves', svg, '--json')).toBe(0);
    expect(readFileSync(report, 'utf8')).toMatch(/^<!doctype html>/i);
    expect(readFileSync(report, 'utf8')).toContain('one.wav');
    expect(readFileSync(csv, 'utf8')).toMatch(/^quantity,channel.*\r\nfrequency-response,left,/);
    expect(readFileSync(svg, 'utf8')).toMatch(/^<svg /);
    expect(JSON.parse(heard.out).capture.file).toBe('one.wav');
  });

  it('never goes over what is read, and is looked at before anything is measured', async () => {
    writeFileSync(at('limits.json'), '{"schema": 1, "class": "shop"}');
    const read = [
      ['--half-turn', at('two.wav')],
      ['--leads-swapped', at('two.wav')],
      ['--limits', at('limits.json')],
      ['--record', at('limits.json')],
      ['--learned', at('limits.json')],
      ['--calibration', at('two.wav'), '--calibration-volts', '1'],
      ['--capacitance-added', at('two.wav'), '--added-capacitance', '100'],
    ];
    for (const flags of read) {
      await expect(run(at('one.wav'), ...flags, '--report', flags[1], '--replace'), flags[0]).rejects.toThrow(
        'which this command reads',
      );
    }
    await expect(run(at('one.wav'), '--curves', at('one.wav'), '--replace')).rejects.toThrow(
      'which this command reads',
    );
    await expect(run(at('one.wav'), '--report', at('none/r.html'))).rejects.toThrow('there is no such folder');
    expect(told.options).toEqual([]);
    expect(readFileSync(at('two.wav')).equals(noise)).toBe(true);
  });

  it('takes the place of a recording only where that is said', async () => {
    writeFileSync(at('kept.svg'), noise);
    await expect(run(at('one.wav'), '--curves', at('kept.svg'))).rejects.toThrow('a recording is there and is kept');
    expect(await run(at('one.wav'), '--curves', at('kept.svg'), '--replace')).toBe(0);
    expect(readFileSync(at('kept.svg'), 'utf8')).toMatch(/^<svg /);
  });
});

describe('the bar', () => {
  it('is drawn on a terminal, at most ten times a second, and is taken away at the end', async () => {
    const clock = vi.spyOn(Date, 'now').mockReturnValue(1000);
    try {
      told.during = ({ onProgress }) => {
        onProgress?.({ stage: 'finding-bands', fraction: 0.5 });
        clock.mockReturnValue(1099);
        onProgress?.({ stage: 'finding-bands', fraction: 0.6 });
        clock.mockReturnValue(1100);
        onProgress?.({ stage: 'measuring', fraction: 0.5 });
      };
      await command.run([at('one.wav'), '--json'], { ...heard.io, progress: true });
    } finally {
      clock.mockRestore();
    }
    expect(heard.err.split('\r\u001b[K')).toEqual([
      '',
      `${'█'.repeat(6)}${'░'.repeat(18)} 25 % finding the bands · one.wav`,
      `${'█'.repeat(18)}${'░'.repeat(6)} 75 % measuring · one.wav`,
      '',
    ]);
  });

  it('is not drawn, nor taken away, where nobody sees it', async () => {
    told.during = ({ onProgress }) => onProgress?.({ stage: 'measuring', fraction: 0.5 });
    await run(at('one.wav'), '--json');
    expect(heard.err).toBe('');
    told.during = () => undefined;
    await command.run([at('one.wav'), '--json'], { ...heard.io, progress: true });
    expect(heard.err).toBe('');
  });
});
