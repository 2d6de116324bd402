/** Named after what went wrong: slips that turned recordings into HTML, and a store into one job's JSON through a link. */
import {
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkOutput, type Output, writeOutput, writeTextOutput } from './output.ts';

let folder = '';
const at = (name: string): string => join(folder, name);
const output = (name: string, more: Partial<Output> = {}): Output => ({
  flag: '-o',
  file: at(name),
  inputs: [],
  ...more,
});
const recordings: Readonly<Record<string, string>> = {
  'a.wav': 'RIFF\x24\x00\x00\x00WAVEfmt ',
  'big.wav': 'RF64\xff\xff\xff\xffWAVEds64',
  'a.flac': 'fLaC\x00\x00\x00\x22',
  'no-ending': 'RIFF\x24\x00\x00\x00WAVEfmt ',
};

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-output-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('the gate of every output', () => {
  for (const [name, start] of Object.entries(recordings)) {
    it(`keeps the recording ${name} unless told`, () => {
      writeFileSync(at(name), start, 'latin1');
      expect(() => writeTextOutput(output(name), '<html>')).toThrow(/a recording is there/);
      expect(readFileSync(at(name), 'latin1')).toBe(start);
      writeTextOutput(output(name, { replace: true }), '<html>');
      expect(readFileSync(at(name), 'utf8')).toBe('<html>');
    });
  }

  it('keeps a recording that another name links to', () => {
    writeFileSync(at('a.wav'), recordings['a.wav']);
    symlinkSync('a.wav', at('report.html'));
    expect(() => writeTextOutput(output('report.html'), '<html>')).toThrow(/a recording is there/);
    expect(readFileSync(at('a.wav'), 'latin1')).toBe(recordings['a.wav']);
  });

  it('keeps a database and what lies beside it', () => {
    writeFileSync(at('bench.sqlite'), 'SQLite format 3\0…');
    writeFileSync(at('bench.sqlite-shm'), 'anything');
    writeFileSync(at('bench.sqlite-wal'), Buffer.from([0x37, 0x7f, 0x06, 0x82, 1, 2]));
    writeFileSync(at('bench.sqlite.key'), 'k'.repeat(43));
    for (const name of ['bench.sqlite', 'bench.sqlite-shm', 'bench.sqlite-wal', 'bench.sqlite.key']) {
      expect(() => checkOutput(output(name)), name).toThrow(/database is there/);
    }
  });

  it('never writes over an input, whatever its second name and whatever is asked', () => {
    writeFileSync(at('in.json'), '{}');
    symlinkSync('in.json', at('soft.json'));
    linkSync(at('in.json'), at('hard.json'));
    for (const name of ['in.json', 'soft.json', 'hard.json']) {
      const slip = output(name, { inputs: [undefined, at('in.json')], replace: true });
      expect(() => writeTextOutput(slip, 'new'), name).toThrow(/which this command reads/);
    }
    expect(readFileSync(at('in.json'), 'utf8')).toBe('{}');
  });

  it('never writes over the store through a link, nor beside it where nothing stands yet', () => {
    mkdirSync(at('real'));
    writeFileSync(at('real/bench.sqlite'), 'SQLite format 3\0…');
    symlinkSync('real', at('other'));
    const inputs = [at('real/bench.sqlite')];
    for (const name of ['other/bench.sqlite', 'other/bench.sqlite-wal', 'real/bench.sqlite-journal']) {
      expect(() => checkOutput(output(name, { inputs, replace: true })), name).toThrow(/which this command reads/);
    }
  });

  it('follows a link to an ordinary file and leaves the link', () => {
    writeFileSync(at('page.html'), 'old');
    symlinkSync('page.html', at('latest.html'));
    writeTextOutput(output('latest.html'), 'new');
    expect(readFileSync(at('page.html'), 'utf8')).toBe('new');
    expect(readFileSync(at('latest.html'), 'utf8')).toBe('new');
  });

  it('leaves the old file and nothing else when the work fails half-way', () => {
    writeFileSync(at('page.html'), 'old');
    expect(() =>
      writeOutput(output('page.html'), (write) => {
        write(new Uint8Array(1000));
        throw new RangeError('no more');
      }),
    ).toThrow('no more');
    expect(readdirSync(folder)).toEqual(['page.html']);
    expect(readFileSync(at('page.html'), 'utf8')).toBe('old');
  });

  it('keeps a recording that came to stand there while the work went on', () => {
    expect(() =>
      writeOutput(output('new.html'), (write) => {
        write(new Uint8Array(10));
        writeFileSync(at('new.html'), recordings['a.wav']);
      }),
    ).toThrow(/a recording is there/);
    expect(readFileSync(at('new.html'), 'latin1')).toBe(recordings['a.wav']);
    expect(readdirSync(folder)).toEqual(['new.html']);
  });

  it('says what is no ordinary file: a folder, a device, no name', () => {
    mkdirSync(at('folder'));
    expect(() => checkOutput(output('folder'))).toThrow(/it is a folder/);
    expect(() => checkOutput({ flag: '-o', file: '/dev/null', inputs: [] })).toThrow(/a pipe or a device/);
    expect(() => checkOutput({ flag: '--report', file: '', inputs: [] })).toThrow("--report ''");
    expect(() => checkOutput(output('none/x.html'))).toThrow(/there is no such folder/);
  });
});
