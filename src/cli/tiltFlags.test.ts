/** What the flags of `tilt` come to, and what is made of the answer; the tilt itself has tests of its own. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { tiltedSide, turnAdvice } from '../core/job/side.fixture.ts';
import { statement } from '../core/words/statement.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { CannotError, UsageError } from './command.ts';
import { type Heard, heardStreams } from './heard.fixture.ts';
import { command } from './tilt.ts';

const told = vi.hoisted(() => ({ asked: [] as unknown[][], answer: (): object => ({ found: true }) }));
vi.mock('../core/advise/voltmeter.ts', () => ({
  tiltFromReadings(...asked: unknown[]) {
    told.asked.push(asked);
    return told.answer();
  },
  tiltFromTwoReadings(...asked: unknown[]) {
    told.asked.push(asked);
    return told.answer();
  },
}));
vi.mock('../core/advise/meterDocument.ts', () => ({
  meterDocument: (_: object, known: object) => {
    told.asked.push([known]);
    return { schema: 1, findings: tiltedSide.findings.slice(0, 1), advice: [turnAdvice] };
  },
}));
const folder = scratchFolder();
afterAll(() => folder.remove());
const at = (name: string) => join(folder.path, name);
let heard: Heard;
beforeEach(() => {
  heard = heardStreams();
  Object.assign(told, { asked: [], answer: () => ({ found: true }) });
});
const run = (...args: string[]) => command.run(args, heard.io);
const pair = ['--left-to-right', '28', '--right-to-left', '24 dB'];
const two = { leftToRightDb: 28, rightToLeftDb: 24, readingUncertaintyDb: undefined };
const csv = 'tilt_deg,left_to_right_db,right_to_left_db\n-2,26.5,22.8\n0,28,24\n';

describe('what is asked', () => {
  it('two readings, with mono sums and an uncertainty where they were given', async () => {
    await run(...pair);
    expect(told.asked[0]).toEqual([two]);
    expect(told.asked[1]).toEqual([{ cut: undefined, learned: undefined, setByMirror: false }]);
    told.asked = [];
    await run(...pair, '--left-mono', '-0.2', '--right-mono', '0', '--reading-uncertainty', '0.5', '--set-by-mirror');
    expect(told.asked[0]).toEqual([{ ...two, readingUncertaintyDb: 0.5, mono: { leftMonoDb: -0.2, rightMonoDb: 0 } }]);
    expect(told.asked[1]).toEqual([{ cut: undefined, learned: undefined, setByMirror: true }]);
  });

  it('readings of a file, in the letters of a spreadsheet too', async () => {
    const wide = Buffer.from(`\uFEFF${csv}`, 'utf16le');
    const swapped = Buffer.from(wide).swap16();
    for (const [name, bytes] of Object.entries({ 'a.csv': csv, 'b.csv': wide, 'c.csv': swapped })) {
      told.asked = [];
      writeFileSync(at(name), bytes);
      await run('--readings', at(name), '--reading-uncertainty', '0.5');
      const [readings, uncertainty] = told.asked[0] as [object[], number];
      expect(readings).toHaveLength(2);
      expect(readings[0]).toMatchObject({ tiltDeg: -2, leftToRightDb: 26.5, rightToLeftDb: 22.8 });
      expect(uncertainty).toBe(0.5);
    }
  });

  it('what a record’s certificate states is allowed for', async () => {
    const band = { signal: 'tone', motion: 'left', frequencyHz: 1000 };
    const cut = { tiltDeg: 1, tiltUncertaintyDeg: 0.1 };
    writeFileSync(at('r.json'), JSON.stringify({ schema: 1, name: 'r', rpm: 33.333, bands: [band], cut }));
    await run(...pair, '--record', at('r.json'));
    expect(told.asked[1]).toMatchObject([{ cut, learned: undefined }]);
    await expect(run(...pair, '--learned', at('r.json'))).rejects.toThrow('--record with the record file');
    await expect(run(...pair, '--record', at('none.json'))).rejects.toThrow('a record file was expected');
  });
});

describe('the answer', () => {
  it('is one document, or figures and advice under each other', async () => {
    expect(await run(...pair, '--json')).toBe(0);
    expect(heard.out).toBe(
      `${JSON.stringify({ schema: 1, findings: tiltedSide.findings.slice(0, 1), advice: [turnAdvice] }, null, 2)}\n`,
    );
    heard = heardStreams();
    expect(await run(...pair)).toBe(0);
    expect(heard.out).toMatch(
      /^ {2}Separation, left into right .*adjust\n\n {2}turn the cartridge: [\s\S]+amplifier\.\n$/,
    );
    heard = heardStreams();
    await command.run(pair, { ...heard.io, colour: true });
    expect(heard.out).toContain('\u001b[33madjust');
  });

  it('is a reason where there is none', async () => {
    told.answer = () => ({ found: false, why: statement('no-chains') });
    await expect(run(...pair)).rejects.toThrow(CannotError);
    await expect(run(...pair)).rejects.toThrow(/^no tilt can be given: /);
  });

  it('figures out of bounds are bad usage, of a file by its name; other faults are not', async () => {
    writeFileSync(at('a.csv'), csv);
    const thrown = (error: Error) => {
      told.answer = () => {
        throw error;
      };
    };
    thrown(new RangeError('left into right is -28'));
    await expect(run(...pair)).rejects.toThrow(UsageError);
    await expect(run(...pair)).rejects.toThrow(/^left into right is -28$/);
    await expect(run('--readings', at('a.csv'))).rejects.toThrow(UsageError);
    await expect(run('--readings', at('a.csv'))).rejects.toThrow(/a\.csv: left into right is -28$/);
    thrown(new TypeError('no such thing'));
    await expect(run(...pair)).rejects.toThrow(TypeError);
    await expect(run('--readings', at('a.csv'))).rejects.toThrow(TypeError);
  });
});

const both = '--left-mono and --right-mono belong together; give both or neither';
const needs = 'tilt needs --left-to-right and --right-to-left, or --readings FILE.csv';
it.each([
  [[], needs],
  [pair.slice(0, 2), needs],
  [pair.slice(2), needs],
  [[...pair, '--left-mono', '0'], both],
  [[...pair, '--right-mono', '0'], both],
  ...['--left-to-right', '--right-to-left', '--left-mono', '--right-mono'].map((flag): [string[], string] => [
    ['--readings', 'x.csv', flag, '1'],
    '--readings and single readings exclude each other; give one of the two',
  ]),
  [['--readings', '/nowhere/x.csv'], 'cannot be read (there is no such file); a CSV file was expected'],
  [
    ['--left-to-right', 'x', '--right-to-left', '24'],
    "--left-to-right: 'x' is no number; a separation in dB such as 28",
  ],
  [
    ['--left-to-right', '28', '--right-to-left', 'x'],
    "--right-to-left: 'x' is no number; a separation in dB such as 28",
  ],
  [[...pair, '--left-mono', 'x', '--right-mono', '0'], "--left-mono: 'x' is no number; a level in dB such as 0.2"],
  [[...pair, '--left-mono', '0', '--right-mono', 'x'], "--right-mono: 'x' is no number; a level in dB such as 0.2"],
  [[...pair, '--reading-uncertainty', 'x'], "--reading-uncertainty: 'x' is no number; dB such as 0.3 was expected"],
])('refuses %j', async (args, sentence) => {
  await expect(run(...args)).rejects.toThrow(UsageError);
  await expect(run(...args)).rejects.toThrow(sentence);
  expect(heard.out).toBe('');
});

it('a table that is none is refused by the file’s name', async () => {
  writeFileSync(at('bad.csv'), 'tilt,left\n0,28\n');
  await expect(run('--readings', at('bad.csv'))).rejects.toThrow(UsageError);
  await expect(run('--readings', at('bad.csv'))).rejects.toThrow(/bad\.csv: /);
});
