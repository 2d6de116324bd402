/** What the geometry flags ask for, every key of it; what they refuse. */
import { parseArgs } from 'node:util';
import { describe, expect, it } from 'vitest';
import { pivotedArm } from '../core/geometry/arm.ts';
import { grooveSpan } from '../core/geometry/span.ts';
import { degToRad } from '../core/units/units.ts';
import { UsageError } from './command.ts';
import { geometryOptions, readGeometry } from './geometryFlags.ts';

const read = (line: string) =>
  readGeometry(parseArgs({ args: line.split(' ').filter(Boolean), options: geometryOptions }).values);

const base = { span: grooveSpan('12in'), criterion: 'lofgren-a', music: undefined, rpm: undefined };
const at = (d: number) => ({ ...base, length: { known: 'spindle-to-pivot', mm: d }, makers: undefined });
const [twenty, twentyTwo, twentyFour] = [20, 22, 24].map(degToRad);
const length = (mm: number) => ({ kind: 'length', effectiveLength: mm });
const offset = (rad: number) => ({ kind: 'offset', offset: rad });
const only = (value: number) => ({ least: value, most: value });

describe('the length that is known', () => {
  it('is the first of distance, effective length and overhang that was given', async () => {
    expect(await read('--spindle-to-pivot 222')).toEqual({ ...at(222), limits: undefined, stated: [] });
    const alone = { ...base, limits: undefined, stated: [] };
    expect(await read('--effective-length 239')).toEqual({ ...alone, length: { known: 'effective-length', mm: 239 } });
    expect(await read('--overhang=-14')).toEqual({ ...alone, length: { known: 'overhang', mm: -14 } });
    await expect(read('--offset 22')).rejects.toThrow(
      'give --spindle-to-pivot, --effective-length or --overhang in mm',
    );
  });

  it('is the distance where effective length and overhang give it, and then both are stated', async () => {
    expect(await read('--effective-length 239 --overhang 17')).toEqual({
      ...at(222),
      limits: undefined,
      stated: [length(239)],
    });
  });

  it('is the distance as measured, and the maker’s arm stands beside it', async () => {
    const makers = '--spindle-to-pivot 222 --measured-spindle-to-pivot 223 --offset 22';
    const expected = {
      ...at(223),
      limits: undefined,
      makers: pivotedArm(222, 239, twentyTwo),
      stated: [length(239), offset(twentyTwo)],
    };
    expect(await read(`${makers} --effective-length 239`)).toEqual(expected);
    // the maker's overhang belongs to the maker's distance
    expect(await read(`${makers} --overhang 17`)).toEqual(expected);
    for (const less of [
      '--measured-spindle-to-pivot 223 --effective-length 239 --offset 22',
      '--spindle-to-pivot 222 --measured-spindle-to-pivot 223 --offset 22',
      '--spindle-to-pivot 222 --measured-spindle-to-pivot 223 --effective-length 239',
    ]) {
      await expect(read(less), less).rejects.toThrow("needs the maker's --spindle-to-pivot, --effective-length");
    }
  });
});

describe('what is stated', () => {
  it('is how the arm stands, each figure that was given', async () => {
    const stated = async (line: string) => (await read(`--spindle-to-pivot 222 ${line}`)).stated;
    expect(await stated('--effective-length 239')).toEqual([length(239)]);
    expect(await stated('--overhang 16')).toEqual([length(238)]);
    expect(await stated('--offset 22')).toEqual([offset(twentyTwo)]);
    expect(await stated('--effective-length 239 --offset 22')).toEqual([length(239), offset(twentyTwo)]);
  });

  it('says nothing where all of it is fixed, and stays where a part is not', async () => {
    const stated = async (line: string) => (await read(`--spindle-to-pivot 222 ${line}`)).stated;
    expect(await stated('--effective-length 239 --fix length')).toEqual([]);
    expect(await stated('--offset 22 --fix offset')).toEqual([]);
    const both = '--effective-length 239 --offset 22';
    expect(await stated(`${both} --fix length --fix offset`)).toEqual([]);
    expect(await stated(`${both} --fix length`)).toEqual([length(239), offset(twentyTwo)]);
    expect(await stated(`${both} --fix offset`)).toEqual([length(239), offset(twentyTwo)]);
    // slots that begin or end where the arm stands leave it free on the other side
    expect(await stated('--effective-length 239 --slots 239,241')).toEqual([length(239)]);
    expect(await stated('--effective-length 239 --slots 236,239')).toEqual([length(239)]);
    expect(await stated('--offset 22 --turn 22,24')).toEqual([offset(twentyTwo)]);
    expect(await stated('--offset 22 --turn 20,22')).toEqual([offset(twentyTwo)]);
  });
});

describe('limits', () => {
  const limits = async (line: string) => (await read(line)).limits;

  it('are what is fixed, and what slots and headshell allow', async () => {
    const arm = '--spindle-to-pivot 222';
    expect(await limits(`${arm} --effective-length 239 --fix length`)).toEqual({ effectiveLength: only(239) });
    expect(await limits(`${arm} --overhang 16 --fix overhang`)).toEqual({ effectiveLength: only(238) });
    expect(await limits(`${arm} --offset 22 --fix offset`)).toEqual({ offset: only(twentyTwo) });
    expect(await limits(`${arm} --offset 22 --effective-length 239 --fix offset,length`)).toEqual({
      effectiveLength: only(239),
      offset: only(twentyTwo),
    });
    expect(await limits(`${arm} --slots 236,240`)).toEqual({ effectiveLength: { least: 236, most: 240 } });
    expect(await limits(`${arm} --turn 20,24`)).toEqual({ offset: { least: twenty, most: twentyFour } });
    expect(await limits(`${arm} --fix spindle-to-pivot --effective-length 239 --offset 22`)).toBeUndefined();
    expect(await limits('--effective-length 239 --fix length')).toBeUndefined();
  });

  it('of a tangential arm are how it is held; it has no length', async () => {
    const straight = { ...base, length: { known: 'tangential' }, stated: [] };
    expect(await read('--tangential')).toEqual({ ...straight, limits: {} });
    expect(await read('--tangential --overhang 2 --offset 22')).toEqual({
      ...straight,
      limits: { overhang: only(2), offset: only(twentyTwo) },
    });
    expect(await read('--tangential --slots 236,240')).toEqual({ ...straight, limits: {} });
    expect(await read('--tangential --turn 20,24')).toEqual({
      ...straight,
      limits: { offset: { least: twenty, most: twentyFour } },
    });
  });
});

it('the rest is what it says', async () => {
  const span = grooveSpan('60,146');
  expect(
    await read(
      '--spindle-to-pivot 222 --rpm 45 --groove 60,146 --criterion even-music --music-weight 3,1 --fix spindle-to-pivot',
    ),
  ).toEqual({
    ...{ ...at(222), limits: undefined, stated: [], span, criterion: 'even-music', rpm: 45 },
    music: [
      { radius: 60, weight: 3 },
      { radius: 146, weight: 1 },
    ],
  });
  // a weight may be given to any criterion
  expect((await read('--spindle-to-pivot 222 --music-weight 3,1')).criterion).toBe('lofgren-a');
});

it('figures are taken up to their bounds, and not beyond', async () => {
  const arm = '--spindle-to-pivot 222';
  for (const line of [
    ...['--spindle-to-pivot 100', '--spindle-to-pivot 1000', `${arm} --rpm 8`, `${arm} --rpm 120`],
    ...[`${arm} --offset=-60`, `${arm} --offset 60`, '--overhang 100', '--overhang=-100', '--effective-length 1100'],
  ]) {
    await expect(read(line), line).resolves.toBeDefined();
  }
  for (const line of [
    ...['--spindle-to-pivot 99.9', '--spindle-to-pivot 1000.1', `${arm} --rpm 7.9`, `${arm} --rpm 120.1`],
    ...[`${arm} --offset=-60.1`, `${arm} --offset 60.1`, '--overhang 100.1', '--effective-length 1100.1'],
    `${arm} --measured-spindle-to-pivot 99`,
  ]) {
    await expect(read(line), line).rejects.toThrow('it must lie between');
  }
});

it.each([
  ['--fix length', '--fix length needs --effective-length'],
  ['--fix overhang', '--fix overhang needs --overhang'],
  ['--fix overhang --effective-length 239', '--fix overhang needs --overhang'],
  ['--fix offset', '--fix offset needs --offset'],
  ['--fix tail', "--fix: 'tail' was found; length, offset, overhang, spindle-to-pivot were expected"],
  ['--fix length,tail --effective-length 239', "--fix: 'tail' was found"],
  ['--overhang 16 --fix overhang --slots 236,240', '--fix overhang and --slots exclude each other'],
  ['--effective-length 239 --fix length --slots 236,240', '--fix length and --slots exclude each other'],
  ['--offset 22 --fix offset --turn 20,24', '--fix offset and --turn exclude each other'],
  ['--turn 20', "--turn: '20' has 1 numbers; LEAST,MOST was expected"],
  ['--slots 236,240,241', 'SHORTEST,LONGEST was expected'],
  ['--criterion best', "--criterion: 'best' was found; one of lofgren-a, "],
  ['--criterion even-music', '--criterion even-music needs --music'],
])('refuses %s', async (line, sentence) => {
  await expect(read(`--spindle-to-pivot 222 ${line}`)).rejects.toThrow(UsageError);
  await expect(read(`--spindle-to-pivot 222 ${line}`)).rejects.toThrow(sentence);
});

it('what is fixed must be known, and slots need the distance', async () => {
  await expect(read('--effective-length 239 --fix spindle-to-pivot')).rejects.toThrow(
    '--fix spindle-to-pivot needs --spindle-to-pivot',
  );
  await expect(read('--effective-length 239 --slots 236,240')).rejects.toThrow('--slots needs --spindle-to-pivot');
  await expect(read('--overhang 17 --fix length')).rejects.toThrow('--fix length needs --effective-length');
});
