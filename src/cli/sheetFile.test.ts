/** Sheets and their files, and the commands that draw them: what is drawn has tests of its own. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { CannotError, type Command, UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';
import { readSheetFlags } from './sheetFile.ts';
import { command as strobe } from './strobe.ts';
import { command as template } from './template.ts';

let folder: ReturnType<typeof scratchFolder>;
const at = (name: string) => join(folder.path, name);
beforeEach(() => {
  folder = scratchFolder();
});
afterEach(() => folder.remove());
async function run(command: Command, ...args: string[]): Promise<string> {
  const heard = heardStreams();
  expect(await command.run(args, heard.io)).toBe(0);
  expect(heard.err).toBe('');
  return heard.out;
}
const arm = ['--spindle-to-pivot', '222'];

describe('the flags of a sheet', () => {
  it('are paper, scale, name and format', () => {
    const plain = { paper: 'a4', measured: null, file: 'a.pdf', format: 'pdf', replace: false };
    expect(readSheetFlags({ output: 'a.pdf' })).toEqual(plain);
    expect(readSheetFlags({ output: 'A.SVG', paper: 'letter', replace: true })).toEqual({
      ...{ paper: 'letter', measured: null, file: 'A.SVG', format: 'svg', replace: true },
    });
    expect(readSheetFlags({ output: 'a.pdf', 'measured-100mm': '99' })).toEqual({ ...plain, measured: [99, 99] });
    expect(readSheetFlags({ output: 'a.pdf', 'measured-100mm': '99,101' })).toEqual({ ...plain, measured: [99, 101] });
  });

  it.each([
    [{ output: 'a.pdf', paper: 'a3' }, "--paper: 'a3' was found; a4 or letter was expected"],
    [{ output: 'a.pdf', paper: 'constructor' }, "--paper: 'constructor' was found"],
    [{}, '-o FILE.pdf or -o FILE.svg is needed'],
    [{ output: 'a.png' }, "-o: 'a.png' was found; a name that ends in .pdf or .svg was expected"],
    [{ output: 'pdf' }, "-o: 'pdf' was found"],
    [{ output: 'a.pdf.txt' }, "-o: 'a.pdf.txt' was found"],
    [{ output: 'a.pdf', 'measured-100mm': '1,2,3' }, "--measured-100mm: '1,2,3' has 3 numbers; X,Y was expected"],
  ])('%j are refused', (values, sentence) => {
    expect(() => readSheetFlags(values)).toThrow(UsageError);
    expect(() => readSheetFlags(values)).toThrow(sentence);
  });
});

describe('a template', () => {
  it('is one file, or one for each sheet of a long arm, and says how to print it', async () => {
    const print = 'Print at 100 %, not fitted to the page, and lay a ruler on both 100 mm bars before use.\n';
    expect(await run(template, ...arm, '-o', at('a.svg'))).toBe(`${at('a.svg')}\n${print}`);
    expect(await run(template, '--spindle-to-pivot', '290', '--style', 'arc', '-o', at('b.SVG'))).toBe(
      `${at('b-1.svg')}\n${at('b-2.svg')}\n${print}`,
    );
    expect(await run(template, '--spindle-to-pivot', '290', '--style', 'arc', '-o', at('c.pdf'))).toBe(
      `${at('c.pdf')}\n${print}`,
    );
    expect(readdirSync(folder.path).sort()).toEqual(['a.svg', 'b-1.svg', 'b-2.svg', 'c.pdf']);
    expect(readFileSync(at('c.pdf'), 'latin1')).toMatch(/^%PDF-1\.6/);
    expect(readFileSync(at('a.svg'), 'utf8')).toContain('width="210mm"');
    expect(readFileSync(at('b-2.svg'), 'utf8')).not.toBe(readFileSync(at('b-1.svg'), 'utf8'));
  });

  it('tells its figures, its style and its paper', async () => {
    const told = async (...more: string[]) =>
      JSON.parse(await run(template, ...arm, '-o', at('a.pdf'), '--json', ...more));
    const plain = await told();
    expect(plain).toEqual({
      ...{ schema: 1, files: [at('a.pdf')], style: 'two-point', paper: 'a4', spindleToPivotMm: 222 },
      ...{ effectiveLengthMm: expect.closeTo(239.296, 3), overhangMm: expect.closeTo(17.296, 3) },
      ...{
        offsetDeg: expect.closeTo(22.986, 2),
        nullPointsMm: [expect.closeTo(65.998, 3), expect.closeTo(120.891, 3)],
      },
    });
    expect(await told('--style', 'arc', '--paper', 'letter')).toMatchObject({ style: 'arc', paper: 'letter' });
    expect(await told('--style', 'two-point')).toEqual(plain);
  });

  it('has the criterion, the speed, the groove and the printer’s scale of its arm in it', async () => {
    const drawn = async (...more: string[]) => {
      await run(template, ...arm, '-o', at('a.svg'), ...more);
      return readFileSync(at('a.svg'), 'utf8');
    };
    const plain = await drawn();
    expect(plain).toContain('Löfgren A');
    expect(await drawn('--style', 'two-point')).toBe(plain);
    for (const more of [
      ...[
        ['--criterion', 'lofgren-b'],
        ['--rpm', '45'],
        ['--groove', '60,146'],
        ['--measured-100mm', '99'],
      ],
      ...[
        ['--style', 'arc'],
        ['--paper', 'letter'],
      ],
    ])
      expect(await drawn(...more), more[0]).not.toBe(plain);
  });

  it('never goes over the music that it was drawn for, nor over a recording unless told', async () => {
    writeFileSync(at('music.svg'), 'radius_mm,weight\n60,3\n146,1\n');
    const music = [...arm, '--criterion', 'even-music', '--music', at('music.svg')];
    await expect(run(template, ...music, '-o', at('music.svg'), '--replace')).rejects.toThrow(
      'which this command reads',
    );
    writeFileSync(at('side.pdf'), 'RIFF\x24\x00\x00\x00WAVEfmt ');
    await expect(run(template, ...arm, '-o', at('side.pdf'))).rejects.toThrow('a recording is there and is kept');
    await run(template, ...arm, '-o', at('side.pdf'), '--replace');
    expect(readFileSync(at('side.pdf'), 'latin1')).toMatch(/^%PDF/);
  });

  it('cannot be drawn of every arm', async () => {
    const refused = (...args: string[]) => expect(run(template, ...args, '-o', at('a.pdf'))).rejects;
    await refused('--tangential').toThrow('no template can be drawn for a tangential arm: its tip runs straight');
    await refused('--tangential').toThrow(CannotError);
    await refused('--overhang=-14').toThrow(/^no template can be drawn: /);
    await refused('--overhang=-14').toThrow(CannotError);
    await refused(...arm, '--style', 'spiral').toThrow("--style: 'spiral' was found; two-point or arc was expected");
    expect(readdirSync(folder.path)).toEqual([]);
  });
});

describe('a strobe disc', () => {
  it('has a ring for each speed, by name or in turns a minute', async () => {
    const out = await run(strobe, '-o', at('a.pdf'));
    const [file, ...rings] = out.trimEnd().split('\n');
    expect(file).toBe(at('a.pdf'));
    expect(rings).toHaveLength(3);
    expect(rings[0]).toBe('  33⅓ rpm: 180 bars, exact');
    expect(out.endsWith('\n')).toBe(true);
    const told = async (...more: string[]) => JSON.parse(await run(strobe, '-o', at('b.svg'), '--json', ...more));
    const fifty = await told();
    expect(fifty).toMatchObject({ schema: 1, files: [at('b.svg')], mainsHz: 50, flashesPerSecond: 100 });
    expect(fifty.rings.map(({ nominalRpm }: { nominalRpm: number }) => nominalRpm)).toEqual([
      ...[expect.closeTo(33.333, 2), 45, 78.26],
    ]);
    const sixty = await told('--mains', '60', '--speeds', ' 45 ,16.667 rpm');
    expect(sixty).toMatchObject({ mainsHz: 60, flashesPerSecond: 120 });
    expect(sixty.rings.map(({ nominalRpm }: { nominalRpm: number }) => nominalRpm)).toEqual([45, 16.667]);
  });

  it('is drawn on the paper and to the scale that is asked for', async () => {
    await run(strobe, '-o', at('a.svg'));
    await run(strobe, '-o', at('b.svg'), '--paper', 'letter');
    await run(strobe, '-o', at('c.svg'), '--measured-100mm', '99');
    const [plain, letter, scaled] = ['a', 'b', 'c'].map((name) => readFileSync(at(`${name}.svg`), 'utf8'));
    expect(letter).toContain('width="215.9mm"');
    expect(scaled).not.toBe(plain);
  });

  it('of another mains, or of no speed, is refused', async () => {
    mkdirSync(at('x'));
    await expect(run(strobe, '-o', at('a.pdf'), '--mains', '55')).rejects.toThrow(
      '--mains: 55 was found; 50 or 60 was expected',
    );
    await expect(run(strobe, '-o', at('a.pdf'), '--mains', 'x')).rejects.toThrow('50 or 60 was expected');
    await expect(run(strobe, '-o', at('a.pdf'), '--speeds', 'fast')).rejects.toThrow("'fast' is no number");
  });
});
