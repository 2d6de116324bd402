/** What is kept, what is an input under another name, and what is left when writing fails. output.test.ts tells the slips behind it. */
import { existsSync, linkSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { checkOutput, type Output, writeOutput, writeTextOutput } from './output.ts';

let folder: ReturnType<typeof scratchFolder>;
const at = (name: string) => join(folder.path, name);
beforeEach(() => {
  folder = scratchFolder();
});
afterEach(() => folder.remove());
const output = (name: string, more: Partial<Output> = {}): Output => ({
  flag: '-o',
  file: at(name),
  inputs: [],
  ...more,
});

describe('what stands there', () => {
  it.each([
    ...[
      ['RIFF', 'a recording'],
      ['RF64', 'a recording'],
      ['BW64', 'a recording'],
      ['FORM', 'a recording'],
    ],
    ...[
      ['caff', 'a recording'],
      ['riff', 'a recording'],
      ['fLaC', 'a recording'],
      ['OggS', 'a recording'],
    ],
    ...[
      ['ID3', 'a recording'],
      ['SQLite format 3', 'a database'],
    ],
    ...[
      ['7\x7f\x06\x82', 'part of a database'],
      ['7\x7f\x06\x83', 'part of a database'],
    ],
  ])('beginning with %j is kept as %s', (start, kind) => {
    writeFileSync(at('x'), `${start} and more`, 'latin1');
    expect(() => checkOutput(output('x'))).toThrow(UsageError);
    expect(() => checkOutput(output('x'))).toThrow(
      `-o ${at('x')}: ${kind} is there and is kept; give another name, or --replace if it may go`,
    );
    expect(checkOutput(output('x', { replace: true }))).toBe(at('x'));
    // in its middle it says nothing
    writeFileSync(at('x'), ` ${start}`, 'latin1');
    expect(checkOutput(output('x'))).toBe(at('x'));
  });

  it('an empty file, a short one and none at all may be written', () => {
    writeFileSync(at('empty'), '');
    writeFileSync(at('short'), 'RI');
    for (const name of ['empty', 'short', 'none']) expect(checkOutput(output(name))).toBe(at(name));
  });

  it('beside a database is part of it; beside anything else it is a file like others', () => {
    const beside = ['x.sqlite-wal', 'x.sqlite-shm', 'x.sqlite-journal', 'x.sqlite.key'];
    for (const name of beside) writeFileSync(at(name), 'anything');
    for (const name of beside) expect(checkOutput(output(name))).toBe(at(name));
    writeFileSync(at('x.sqlite'), 'no database');
    for (const name of beside) expect(checkOutput(output(name))).toBe(at(name));
    writeFileSync(at('x.sqlite'), 'RIFF a recording');
    for (const name of beside) expect(checkOutput(output(name))).toBe(at(name));
    writeFileSync(at('x.sqlite'), 'SQLite format 3\0');
    for (const name of beside) expect(() => checkOutput(output(name))).toThrow('part of a database is there');
    for (const name of ['x.sqlite-walk', 'x.sqlite-wal.txt', 'x.sqlitekey']) {
      writeFileSync(at(name), 'anything');
      expect(checkOutput(output(name))).toBe(at(name));
    }
    // a recording stays one by whatever name it goes
    writeFileSync(at('z.key'), 'RIFF a recording');
    expect(() => checkOutput(output('z.key'))).toThrow('a recording is there');
    mkdirSync(at('y'));
    writeFileSync(at('y.key'), 'anything');
    expect(checkOutput(output('y.key'))).toBe(at('y.key'));
  });
});

describe('an input', () => {
  const refused = (name: string, ...inputs: (string | undefined)[]) =>
    expect(() => checkOutput(output(name, { inputs, replace: true })));

  it('is refused by whatever name, and by what lies beside it as beside a store', () => {
    writeFileSync(at('in'), '{}');
    symlinkSync('in', at('soft'));
    linkSync(at('in'), at('hard'));
    const sentence = `that is ${at('in')}, which this command reads; another name was expected`;
    for (const name of ['in', 'soft', 'hard', 'in-wal', 'in-shm', 'in-journal', 'in.key'])
      refused(name, undefined, at('other'), at('in')).toThrow(sentence);
    for (const name of ['in2', 'in-wall', 'key']) refused(name, undefined, at('in')).not.toThrow();
  });

  it('that is not there yet is the same place, not the same name', () => {
    mkdirSync(at('real'));
    mkdirSync(at('another'));
    symlinkSync('real', at('link'));
    refused('link/x', at('real/x')).toThrow('which this command reads');
    refused('another/x', at('real/x')).not.toThrow();
    // of two files with one there, they are two
    writeFileSync(at('real/there'), '');
    refused('another/there', at('real/there')).not.toThrow();
    refused('real/there', at('another/there')).not.toThrow();
    refused('x', at('nowhere/x')).not.toThrow();
  });
});

describe('a place that cannot be written to', () => {
  it.each([
    ['folder', 'it is a folder'],
    ['none/x', 'there is no such folder'],
    ['file/x', 'a part of its path is no folder'],
  ])('%s', (name, why) => {
    mkdirSync(at('folder'));
    writeFileSync(at('file'), '');
    expect(() => checkOutput(output(name))).toThrow(`-o ${at(name)}: cannot be written (${why})`);
    expect(() => checkOutput(output(name))).toThrow(UsageError);
  });

  it('is one without a name', () => {
    expect(() => checkOutput({ flag: '--report', file: '', inputs: [] })).toThrow(
      "--report '': the name of a file was expected",
    );
    expect(() => checkOutput({ flag: '-o', file: '/dev/null', inputs: [], replace: true })).toThrow(
      'a pipe or a device',
    );
  });
});

describe('writing', () => {
  it('puts whole bytes in place, piece by piece or a text, through a link to where it leads', () => {
    const bytes = Uint8Array.from({ length: 300_000 }, (_, i) => i % 251);
    mkdirSync(at('real'));
    writeFileSync(at('real/x'), 'old and much longer than the new one is');
    symlinkSync('real/x', at('link'));
    writeOutput(output('link'), (write) => {
      write(bytes);
      write(new Uint8Array(0));
      write(bytes.subarray(0, 3));
    });
    expect(readFileSync(at('real/x')).equals(Buffer.concat([bytes, bytes.subarray(0, 3)]))).toBe(true);
    writeTextOutput(output('link'), 'µ');
    expect(readFileSync(at('real/x'), 'utf8')).toBe('µ');
    writeTextOutput(output('link'), Uint8Array.of(1, 2));
    expect([...readFileSync(at('real/x'))]).toEqual([1, 2]);
    expect(readdirSync(at('real'))).toEqual(['x']);
    expect(readdirSync(folder.path).sort()).toEqual(['link', 'real']);
  });

  it.each([
    ['a refusal', new UsageError('no'), UsageError, 'no'],
    ['a figure out of bounds', Object.assign(new RangeError('1 to 2'), { code: 'ENOSPC' }), RangeError, '1 to 2'],
    ['a fault of the program', new TypeError('x is undefined'), TypeError, 'x is undefined'],
    [
      'a full disk',
      Object.assign(new Error('?'), { code: 'ENOSPC' }),
      UsageError,
      'cannot be written (the disk is full)',
    ],
  ])('that fails by %s leaves nothing behind, and says so', (_, error, kind, sentence) => {
    const write = () =>
      writeOutput(output('x'), (put) => {
        put(new Uint8Array(10));
        throw error;
      });
    expect(write).toThrow(kind);
    expect(write).toThrow(sentence);
    expect(readdirSync(folder.path)).toEqual([]);
    const thrown = () =>
      writeOutput(output('x'), () => {
        throw 'just so';
      });
    expect(thrown).toThrow('just so');
    expect(existsSync(at('x'))).toBe(false);
  });

  it('looks at its place once more when the work is done', () => {
    expect(() => writeOutput(output('x'), () => mkdirSync(at('x')))).toThrow('it is a folder');
    expect(readdirSync(folder.path)).toEqual(['x']);
  });
});
