/** What the flags of `place` ask geometry for, every key of it, and what is made of the answer. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { PlaceRequest } from '../core/geometry/placeRequest.ts';
import { usualTolerances } from '../core/geometry/tolerance.ts';
import { degToRad } from '../core/units/units.ts';
import { statement } from '../core/words/statement.ts';
import { CannotError, UsageError } from './command.ts';
import { heardStreams } from './heard.fixture.ts';
import { command } from './place.ts';

const geometry = vi.hoisted(() => ({ asked: [] as unknown[], answer: {} as object }));
vi.mock('../core/geometry/document.ts', () => ({
  placeDocument(request: unknown) {
    geometry.asked.push(request);
    return geometry.answer;
  },
}));
vi.mock('./placeText.ts', () => ({ placeText: () => 'the page' }));
const point = (r: number) => ({ radiusMm: r, trackingErrorDeg: 1, secondHarmonicPercent: 2 });
const place = { method: 'closed-form', criterion: 'lofgren-a', curve: [point(60)], overlays: [] };
beforeEach(() => {
  geometry.asked = [];
  geometry.answer = { found: true, value: place };
});

async function run(line: string): Promise<string> {
  const heard = heardStreams();
  expect(await command.run(line.split(' ').filter(Boolean), heard.io)).toBe(0);
  return heard.out;
}
async function asked(line: string): Promise<PlaceRequest> {
  await run(`--spindle-to-pivot 222 ${line}`);
  return geometry.asked.at(-1) as PlaceRequest;
}
const readings = async (line: string) => (await asked(line)).readings;
const one = degToRad(1);

it('nothing but the arm, where nothing else was said', async () => {
  expect(await asked('')).toEqual({
    ...{ length: { known: 'spindle-to-pivot', mm: 222 }, criterion: 'lofgren-a', span: expect.any(Object) },
    ...{ music: undefined, rpm: undefined, limits: undefined, makers: undefined, readings: undefined },
    ...{ tolerance: { tolerances: usualTolerances, draws: undefined }, seed: undefined, step: undefined },
  });
});

it('tolerances, draws, seed and step are as given; a twist is typed in degrees', async () => {
  expect(await asked('--tolerance 0.3,1,2 --draws 500 --seed 7 --step 5')).toMatchObject({
    tolerance: { tolerances: { overhang: 0.3, twist: one, spindleToPivot: 2 }, draws: 500 },
    ...{ seed: 7, step: 5 },
  });
});

describe('what was read', () => {
  const free = { travel: {}, tipAhead: undefined, slotAngle: undefined, spindleToPivotUncertainty: undefined };
  const drawnFor = { spindleToPivot: 215, effectiveLength: 232.8 };

  it('at points of a sheet, each with the arm that the sheet was drawn for', async () => {
    const nothing = { along: undefined, across: undefined, twist: undefined };
    expect(await readings('--read-point 66,-1,0.5,1 --read-point 121,0,0,0 --sheet-for 215,232.8')).toEqual({
      readings: [
        { kind: 'point', radius: 66, along: -1, across: 0.5, twist: one, drawnFor, uncertainty: nothing },
        { kind: 'point', radius: 121, along: 0, across: 0, twist: 0, drawnFor, uncertainty: nothing },
      ],
      ...free,
    });
    const [solved] = (await readings('--read-point 66,0,0,0'))?.readings ?? [];
    expect(solved).toMatchObject({ drawnFor: { spindleToPivot: 222, effectiveLength: expect.closeTo(239.296, 3) } });
  });

  it('by twists, square radii and a ruler', async () => {
    const twist = { twist: undefined, radius: undefined };
    expect(await readings('--read-twist 66,1 --read-twist 121,-1 --square-at 62,130 --ruler-overhang 16')).toEqual({
      readings: [
        { kind: 'twist', radius: 66, twist: one, uncertainty: twist },
        { kind: 'twist', radius: 121, twist: -one, uncertainty: twist },
        { kind: 'twist', radius: 62, twist: 0, uncertainty: twist },
        { kind: 'twist', radius: 130, twist: 0, uncertainty: twist },
        { kind: 'overhang', overhang: 16, uncertainty: { overhang: undefined } },
      ],
      ...free,
    });
  });

  it('within so many millimetres and degrees', async () => {
    const all = '--read-point 66,0,0,0 --sheet-for 215,232.8 --read-twist 66,1 --square-at 62,130 --ruler-overhang 16';
    const told = await readings(`${all} --read-mm-within 0.2 --read-deg-within 1`);
    expect(told?.readings.map((reading) => 'uncertainty' in reading && reading.uncertainty)).toEqual([
      { along: 0.2, across: 0.2, twist: one },
      ...Array.from({ length: 3 }, () => ({ twist: one, radius: 0.2 })),
      { overhang: 0.2 },
    ]);
  });

  it('with the travel that is left and where the tip and the slots are', async () => {
    const ruler = '--ruler-overhang 16';
    expect(
      await readings(`${ruler} --slots-left 0.5,3 --turn-left 1 --tip-ahead 9 --slot-angle 1 --pivot-within 0.2`),
    ).toEqual({
      readings: expect.any(Array),
      ...{ travel: { forward: 0.5, back: 3, turn: one }, tipAhead: 9, slotAngle: one, spindleToPivotUncertainty: 0.2 },
    });
    expect((await readings(`${ruler} --slots-left 0.5,3`))?.travel).toStrictEqual({ forward: 0.5, back: 3 });
    expect((await readings(`${ruler} --turn-left 1`))?.travel).toStrictEqual({ turn: one });
  });

  it('is filled by what was stated only where nothing tells the same', async () => {
    const kinds = async (line: string) =>
      (await readings(`--effective-length 239 --offset 22 ${line}`))?.readings.map(({ kind }) => kind);
    expect(await kinds('')).toEqual(['length', 'offset']);
    expect(await kinds('--ruler-overhang 16')).toEqual(['overhang', 'offset']);
    expect(await kinds('--read-twist 66,1')).toEqual(['twist', 'length']);
    expect(await kinds('--read-twist 66,1 --read-twist 121,1')).toEqual(['twist', 'twist']);
    expect(await kinds('--read-point 66,0,0,0')).toEqual(['point']);
    expect(await kinds('--read-twist 66,1 --ruler-overhang 16')).toEqual(['twist', 'overhang']);
  });
});

describe('the answer', () => {
  it('is a page, one document, or the curves', async () => {
    expect(await run('--spindle-to-pivot 222')).toBe('the page\n');
    expect(await run('--spindle-to-pivot 222 --json')).toBe(`${JSON.stringify(place, null, 2)}\n`);
    const overlays = [{ name: 'lofgren-b', points: [point(60)] }];
    geometry.answer = { found: true, value: { ...place, overlays } };
    const [head, row] = (await run('--spindle-to-pivot 222 --csv')).split('\r\n');
    expect(head).toMatch(/^radius_mm,lofgren_a_\S+,lofgren_b_\S+$/);
    expect(row).toMatch(/^60(\.0*)?,/);
    geometry.answer = { found: true, value: { ...place, method: 'exact-within-limits' } };
    expect(await run('--spindle-to-pivot 222 --csv')).toMatch(/^radius_mm,within_limits_/);
  });

  it('is a reason where there is no such arm', async () => {
    geometry.answer = { found: false, why: statement('no-chains') };
    await expect(run('--spindle-to-pivot 222')).rejects.toThrow(CannotError);
    await expect(run('--spindle-to-pivot 222')).rejects.toThrow(/^no arm can be given: /);
  });
});

it.each([
  ['--json --csv', '--json and --csv exclude each other; give one of the two'],
  ['--read-point 66,1', 'R,ALONG,ACROSS,TWIST was expected'],
  ['--read-point 66,0,0,0 --sheet-for 215', 'D,L was expected'],
  ['--read-twist 66', 'R,TWIST was expected'],
  ['--square-at 66', 'R1,R2 was expected'],
  ['--ruler-overhang much', "--ruler-overhang: 'much' is no number; mm such as 17.5 was expected"],
  ['--read-mm-within much', 'mm such as 0.25 was expected'],
  ['--read-deg-within much', 'degrees such as 0.5 was expected'],
  ['--ruler-overhang 16 --slots-left 1', 'FORWARD,BACK was expected'],
  ['--ruler-overhang 16 --turn-left much', 'degrees such as 2 was expected'],
  ['--tolerance 1,2', 'OVERHANG,TWIST,PIVOT was expected'],
  ['--seed much', "--seed: 'much' is no number; a whole number such as 1 was expected"],
])('refuses %s', async (line, sentence) => {
  await expect(run(`--spindle-to-pivot 222 ${line}`)).rejects.toThrow(UsageError);
  await expect(run(`--spindle-to-pivot 222 ${line}`)).rejects.toThrow(sentence);
  expect(geometry.asked).toEqual([]);
});

it('a point is read of an arm that swings, and one that can be given', async () => {
  await expect(run('--tangential --read-point 66,0,0,0')).rejects.toThrow(
    '--read-point is for arms that swing about a pivot',
  );
  await expect(run('--overhang=-14 --read-point 66,0,0,0')).rejects.toThrow(CannotError);
  await expect(run('--overhang=-14 --read-point 66,0,0,0')).rejects.toThrow(/^no arm can be given: /);
});
