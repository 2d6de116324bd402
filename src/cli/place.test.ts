import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CannotError, type Command, UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';
import { command as place } from './place.ts';
import { command as strobe } from './strobe.ts';
import { command as template } from './template.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-place-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function run(command: Command, line: string): Promise<string> {
  const heard = heardStreams();
  expect(await command.run(line.split(' ').filter(Boolean), heard.io)).toBe(0);
  return heard.out;
}
const json = async (line: string) => JSON.parse(await run(place, `${line} --json`));

describe('place', () => {
  test('--json has the contract’s keys and the textbook’s figures', async () => {
    const answer = await json('--spindle-to-pivot 222 --groove 60.325,146.05 --criterion lofgren-a');
    for (const key of [
      'schema',
      'effectiveLengthMm',
      'overhangMm',
      'offsetDeg',
      'linearOffsetMm',
      'nullPointsMm',
      'groove',
      'peakDistortionPercent',
      'rmsDistortionPercent',
      'at10CmS',
      'curve',
      'tolerance',
      'moves',
    ]) {
      expect(answer).toHaveProperty(key);
    }
    expect(answer.effectiveLengthMm).toBeCloseTo(239.296, 3);
    expect(answer.nullPointsMm[0]).toBeCloseTo(65.998, 3);
    expect(answer.nullPointsMm[1]).toBeCloseTo(120.891, 3);
    expect(Object.keys(answer.curve[0])).toEqual(['radiusMm', 'trackingErrorDeg', 'secondHarmonicPercent']);
  });

  test('any one length gives the same arm', async () => {
    const one = await json('--spindle-to-pivot 222');
    const other = await json(`--effective-length ${one.effectiveLengthMm}`);
    const third = await json(`--overhang ${one.overhangMm}`);
    const pair = await json(`--effective-length ${one.effectiveLengthMm} --overhang ${one.overhangMm}`);
    for (const answer of [other, third, pair]) expect(answer.spindleToPivotMm).toBeCloseTo(222, 6);
  });

  test('--fix: length, offset, overhang', async () => {
    const length = await json('--spindle-to-pivot 222 --effective-length 238 --fix length');
    expect(length.effectiveLengthMm).toBe(238);
    expect(length.limits.heldBy).toEqual(['effective length fixed at 238.00 mm']);
    const offset = await json('--spindle-to-pivot 222 --offset 0 --fix offset');
    expect(offset.offsetDeg).toBe(0);
    expect(offset.overhangMm).toBeLessThan(0);
    const overhang = await json('--spindle-to-pivot 222 --overhang 16 --fix overhang');
    expect(overhang.overhangMm).toBeCloseTo(16, 9);
    const slots = await json('--spindle-to-pivot 222 --slots 230,238.5');
    expect(slots.effectiveLengthMm).toBe(238.5);
    const underhung = await json('--overhang -14 --offset 0 --fix offset');
    expect(underhung.overhangMm).toBeCloseTo(-14, 9);
  });

  test('stated figures are how the arm stands: a move comes out', async () => {
    const answer = await json('--spindle-to-pivot 222 --effective-length 237.5 --offset 23');
    expect(answer.effectiveLengthMm).toBeCloseTo(239.296, 3);
    expect(answer.asItStands.effectiveLengthMm.value).toBeCloseTo(237.5, 6);
    expect(answer.moves[0]).toMatchObject({ action: 'slide', direction: 'forward', unit: 'mm' });
    expect(Object.keys(answer.moves[0])).toEqual(expect.arrayContaining(['amount', 'predicts', 'why', 'uncertainty']));
  });

  test('readings: point, twists, square radii, ruler', async () => {
    const point = await json('--spindle-to-pivot 222 --read-point 66,-1,0,1.5');
    expect(point.moves.map(({ action }: { action: string }) => action)).toEqual(['slide', 'twist']);
    expect(point.moves[1].direction).toBe('anticlockwise-from-above');
    const twists = await json('--spindle-to-pivot 222 --read-twist 66,1 --read-twist 121,1');
    // a little over 1°: turned about the screws, the tip swings and the line to the pivot with it
    expect(Math.abs(twists.moves[1].amount - 1)).toBeLessThan(0.1);
    expect(twists.moves[1].direction).toBe('anticlockwise-from-above');
    const square = await json('--spindle-to-pivot 222 --square-at 62,130');
    expect(square.asItStands.overhangMm.value).toBeCloseTo(Math.sqrt(222 ** 2 + 62 * 130) - 222, 4);
    const ruler = await json('--spindle-to-pivot 222 --ruler-overhang 15.5');
    expect(ruler.moves.length).toBe(1);
    expect(ruler.withheld[0].quantity).toBe('twist');
    const filled = await json('--spindle-to-pivot 222 --ruler-overhang 15.5 --offset 23');
    expect(filled.moves.length).toBe(2);
    const sharper = await json(
      '--spindle-to-pivot 222 --read-point 66,-1,0,1.5 --read-mm-within 0.1 --read-deg-within 0.2 --pivot-within 0.1',
    );
    expect(sharper.moves[0].uncertainty).toBeLessThan(point.moves[0].uncertainty / 1.5);
    expect(sharper.moves[1].uncertainty).toBeLessThan(point.moves[1].uncertainty / 2);
    const held = await json('--spindle-to-pivot 222 --read-point 66,-3,0,0 --slots-left 0.5,3 --turn-left 3');
    expect(held.asItStands.heldBy.length).toBe(1);
    const another = await json('--spindle-to-pivot 222 --read-point 66,-1,0,1.5 --sheet-for 215,232.8');
    expect(another.asItStands.effectiveLengthMm.value).not.toBeCloseTo(point.asItStands.effectiveLengthMm.value, 1);
  });

  test('music by file or by its ends', async () => {
    const file = join(folder, 'music.csv');
    writeFileSync(file, 'radius_mm,weight\n60,3\n146,1\n');
    const byFile = await json(`--spindle-to-pivot 222 --criterion even-music --music ${file} --groove 60,146`);
    const byEnds = await json('--spindle-to-pivot 222 --criterion even-music --music-weight 3,1 --groove 60,146');
    expect(byFile.nullPointsMm).toEqual(byEnds.nullPointsMm);
  });

  test('--csv and the readable page', async () => {
    const csv = await run(place, '--spindle-to-pivot 222 --csv --step 10');
    expect(csv.split('\r\n')[0].startsWith('radius_mm,lofgren_a_tracking_error_deg')).toBe(true);
    const page = await run(
      place,
      '--spindle-to-pivot 222 --measured-spindle-to-pivot 223 --effective-length 239.3 --offset 23',
    );
    for (const part of [
      'null points',
      'With the pivot where it is',
      'slide only',
      'What to do',
      'matters most',
      'RIAA 1963',
    ]) {
      expect(page).toContain(part);
    }
    expect(page).not.toMatch(/NaN|undefined|null (mm|%)/);
  });

  test('held by its slots, Löfgren B says that A’s linear offset is not held', async () => {
    const held = await run(place, '--spindle-to-pivot 222 --criterion lofgren-b --slots 239,239.7');
    expect(held).toContain('the linear offset of A is not held');
    expect(await run(place, '--spindle-to-pivot 222 --criterion lofgren-b')).not.toContain('is not held');
    expect(await run(place, '--spindle-to-pivot 222 --criterion lofgren-a --slots 239,239.2')).not.toContain('is not');
  });

  test.each([
    ['', UsageError, 'give --spindle-to-pivot, --effective-length or --overhang in mm'],
    ['--spindle-to-pivot twelve', UsageError, "--spindle-to-pivot: 'twelve' is no number"],
    ['--spindle-to-pivot 20', UsageError, '--spindle-to-pivot: 20 mm was given; it must lie between 100 and 1000 mm'],
    ['--spindle-to-pivot 222 --groove 60,60', RangeError, 'the groove span from 60 to 60 mm is 0 mm wide'],
    ['--spindle-to-pivot 222 --groove 146,60', RangeError, 'the groove span from 146 to 60 mm is -86 mm wide'],
    ['--spindle-to-pivot 222 --groove 60', RangeError, "groove span '60'"],
    ['--spindle-to-pivot 222 --groove 60,x', RangeError, "outer groove radius 'x'"],
    ['--spindle-to-pivot 222 --criterion best', UsageError, "--criterion: 'best' was found"],
    ['--spindle-to-pivot 222 --criterion even-music', UsageError, 'needs --music FILE.csv'],
    [
      '--spindle-to-pivot 222 --criterion even-music --music /nowhere.csv',
      UsageError,
      'cannot be read (there is no such file)',
    ],
    ['--spindle-to-pivot 222 --fix length', UsageError, '--fix length needs --effective-length'],
    ['--spindle-to-pivot 222 --fix tail', UsageError, "--fix: 'tail' was found"],
    ['--spindle-to-pivot 222 --effective-length 300 --fix length', CannotError, 'must lie between 161.7 and 282.3 mm'],
    ['--overhang -14', CannotError, 'an overhang of −14 mm gives no pair of null points'],
    [
      '--spindle-to-pivot 222 --read-point 66,1',
      UsageError,
      "--read-point: '66,1' has 2 numbers; R,ALONG,ACROSS,TWIST was expected",
    ],
    ['--spindle-to-pivot 222 --measured-spindle-to-pivot 223', UsageError, "needs the maker's"],
    [
      '--spindle-to-pivot 222 --effective-length 239 --fix length --slots 236,240',
      UsageError,
      '--fix length and --slots exclude each other',
    ],
    [
      '--spindle-to-pivot 222 --offset 22 --fix offset --turn 20,24',
      UsageError,
      '--fix offset and --turn exclude each other',
    ],
    ['--tangential --overhang 80', RangeError, 'overhang is 80 mm; from'],
    ['--spindle-to-pivot 222 --json --csv', UsageError, '--json and --csv exclude each other'],
    ['--spindle-to-pivot 222 --draws 150.5', RangeError, 'draws is 150.5; a whole number'],
    [
      '--spindle-to-pivot 222 --criterion even-music --music-weight 1,-1',
      RangeError,
      'music weight at 146.05 mm is -1; from 0 to 1000000000 was expected',
    ],
    ['--spindle-to-pivot 222 --rpm 0', UsageError, '--rpm: 0 rpm was given'],
    ['--spindle-to-pivot 222 --tolerance 1,2', UsageError, 'OVERHANG,TWIST,PIVOT was expected'],
    ['--spindle-to-pivot 222 --seed 1.5', RangeError, 'seed is 1.5'],
    ['--tangential --read-point 66,0,0,0', UsageError, '--read-point is for arms that swing about a pivot'],
  ] as const)('refuses: %s', async (line, kind, message) => {
    const error = await run(place, line).then(
      () => null,
      (caught: unknown) => caught,
    );
    expect(error).toBeInstanceOf(kind);
    expect((error as Error).message).toContain(message);
    expect((error as Error).message).not.toContain('\n');
  });
});

describe('template and strobe', () => {
  test('PDF, SVG, and an SVG for each sheet of a long arm', async () => {
    const pdf = join(folder, 'sheet.pdf');
    await run(template, `--spindle-to-pivot 222 -o ${pdf}`);
    expect(readFileSync(pdf, 'latin1').startsWith('%PDF-1.6')).toBe(true);
    const out = await run(
      template,
      `--spindle-to-pivot 290 --style arc --paper letter -o ${join(folder, 'arc.svg')} --json`,
    );
    expect(JSON.parse(out).files).toEqual([join(folder, 'arc-1.svg'), join(folder, 'arc-2.svg')]);
    expect(readFileSync(join(folder, 'arc-2.svg'), 'utf8')).toContain('width="215.9mm"');
  });

  test('the printer’s scale is taken out of the sheet', async () => {
    const [plain, corrected] = [join(folder, 'plain.svg'), join(folder, 'corrected.svg')];
    await run(template, `--spindle-to-pivot 222 -o ${plain}`);
    await run(template, `--spindle-to-pivot 222 -o ${corrected} --measured-100mm 99.5,100.5`);
    // stretched about the middle of the paper, 105 and 148.5 mm in
    const spindle = (file: string) => {
      const [x, y] = /class="ink" d="M([\d.]+) ([\d.]+)L/.exec(readFileSync(file, 'utf8'))?.slice(1).map(Number) ?? [];
      return [x - 105, y - 148.5];
    };
    expect(spindle(corrected)[0] / spindle(plain)[0]).toBeCloseTo(1 / 0.995, 5);
    expect(spindle(corrected)[1] / spindle(plain)[1]).toBeCloseTo(1 / 1.005, 5);
  });

  test('a strobe disc tells its rings', async () => {
    const out = await run(strobe, `--mains 50 --speeds 33,45,78 -o ${join(folder, 'strobe.pdf')}`);
    expect(out).toContain('33⅓ rpm: 180 bars, exact');
    expect(out).toContain('45 rpm: 133 bars stand still at 45.113 rpm');
    const answer = JSON.parse(await run(strobe, `--mains 60 --speeds 78 -o ${join(folder, 'strobe.svg')} --json`));
    expect(answer.rings[0]).toMatchObject({ bars: 92, nominalRpm: 78.26 });
  });

  test.each([
    ['template', '--spindle-to-pivot 222', UsageError, '-o FILE.pdf or -o FILE.svg is needed'],
    ['template', '--spindle-to-pivot 222 -o sheet.png', UsageError, "-o: 'sheet.png' was found"],
    ['template', '--spindle-to-pivot 222 -o a.pdf --paper a3', UsageError, "--paper: 'a3' was found"],
    ['template', '--spindle-to-pivot 222 -o a.pdf --style spiral', UsageError, "--style: 'spiral' was found"],
    ['template', '--spindle-to-pivot 222 -o a.pdf --measured-100mm 80', RangeError, 'is 80 mm; from 95 to 105 mm'],
    ['template', '--tangential -o a.pdf', CannotError, 'tangential'],
    ['template', '--spindle-to-pivot 222 -o /nowhere/a.pdf', UsageError, 'cannot be written (there is no such folder)'],
    ['strobe', '--mains 55 -o a.pdf', UsageError, '--mains: 55 was found'],
    ['strobe', '--speeds fast -o a.pdf', UsageError, "--speeds: 'fast' is no number"],
  ] as const)('refuses: %s %s', async (name, line, kind, message) => {
    const error = await run(name === 'strobe' ? strobe : template, line).then(
      () => null,
      (caught: unknown) => caught,
    );
    expect(error).toBeInstanceOf(kind);
    expect((error as Error).message).toContain(message);
  });
});
