import { expect, test } from 'vitest';
import type { CaptureEntry } from '../../api.ts';
import type { HeightSet } from './heightData.ts';
import { heightMove } from './heightMove.ts';
import { heightLines, riseWords, setWords } from './reportLines.ts';

const at = '2026-03-04T09:20:00.000Z';
const set: HeightSet = { at, riseMm: 1.96, thicknessMm: 1.5, mark: '', left: false };

test('a rise in words: level within half a tenth, else over or under', () => {
  expect([0, 0.049, -0.049, 0.05, -0.05, 1.96, -2].map(riseWords)).toEqual([
    'level',
    'level',
    'level',
    '0.1 mm over level at the pivot',
    '0.1 mm under level at the pivot',
    '2.0 mm over level at the pivot',
    '2.0 mm under level at the pivot',
  ]);
});

test('a height with its record, and the pillar where something was read there', () => {
  expect(setWords(set)).toBe('2.0 mm over level at the pivot on a record of 1.5 mm');
  expect(setWords({ ...set, riseMm: 0, mark: ' third ring ' })).toBe(
    'level on a record of 1.5 mm, pillar at third ring',
  );
  expect(setWords({ ...set, mark: '  ' })).toBe(setWords(set));
});

test('the report tells the last height, and whether it was only looked at', () => {
  const before = { ...set, at: '2026-03-04T09:00:00.000Z', riseMm: 0 };
  const line = (text: string) => [{ label: 'Arm height', text, at }];
  expect(heightLines({})).toEqual([]);
  expect(heightLines({ sets: [] })).toEqual([]);
  expect(heightLines({ sets: [before, before, set] })).toEqual(line(setWords(set)));
  const left = { ...set, left: true };
  expect(heightLines({ sets: [left] })).toEqual(line(`${setWords(set)}; found so and left`));
  expect(heightLines({ sets: [before, left] })).toEqual(line(`${setWords(set)}; looked at again and left as it was`));
});

const heard = (heardAt: string, uncertainty: number | null) =>
  ({
    heardAt,
    findings: [
      { quantity: 'vertical-tracking-error', value: 1, unit: 'deg', uncertainty },
      { quantity: 'azimuth-error', value: 0.5, unit: 'deg', uncertainty },
    ],
  }) as unknown as CaptureEntry;

test('a height set as a move: up or down by how much, and nothing where nobody knows it was before', () => {
  const before = { ...set, at: '2026-03-04T09:00:00.000Z', riseMm: 1 };
  expect(heightMove({ ...set, riseMm: 3 }, before, null, [])).toEqual({
    at,
    station: 'height',
    move: 'set-arm-height',
    amount: 2,
    unit: 'mm',
    direction: 'up',
    before: [],
    foretold: [],
    came: null,
  });
  expect(heightMove({ ...set, riseMm: 1 }, before, null, [])).toMatchObject({ amount: 0, direction: 'up' });
  expect(heightMove({ ...set, riseMm: 0 }, before, null, [])).toMatchObject({ amount: 1, direction: 'down' });
  expect(heightMove(set, undefined, null, [])).toMatchObject({ amount: null, direction: null });
});

test('angle and tilt move with the pitch; half of what two kinds of bearing differ by is left open', () => {
  const before = { ...set, at: '2026-03-04T09:00:00.000Z', riseMm: 0 };
  const up = { ...set, riseMm: 4 };
  const known = { effectiveLengthMm: 240, offsetDeg: 23, squareTo: 'arm-line' } as const;
  const told = (uncertainty: number | null, arm: Parameters<typeof heightMove>[2]) =>
    heightMove(up, before, arm, [heard('2026-03-04T09:10:00.000Z', uncertainty)]);
  const turn = (Math.atan(4 / 240) * 180) / Math.PI;
  const [cos, sin] = [Math.cos((23 * Math.PI) / 180), Math.sin((23 * Math.PI) / 180)];
  const { before: was, foretold } = told(0.2, known);
  expect(was.map(({ quantity, value }) => [quantity, value])).toEqual([
    ['vertical-tracking-error', 1],
    ['azimuth-error', 0.5],
  ]);
  expect(foretold[0]).toMatchObject({ quantity: 'vertical-tracking-error', unit: 'deg', uncertainty: 0.2 });
  expect(foretold[0].value).toBeCloseTo(1 + turn * cos, 3);
  expect(foretold[1].value).toBeCloseTo(0.5 + turn * sin, 3);
  const open = told(0.2, { effectiveLengthMm: 240, offsetDeg: 23 }).foretold;
  const [line, cartridge] = [turn * cos, turn / cos];
  expect(open[0].value).toBeCloseTo(1 + (line + cartridge) / 2, 3);
  expect(open[0].uncertainty).toBeCloseTo(Math.hypot(0.2, (cartridge - line) / 2), 3);
  expect(told(null, { effectiveLengthMm: 240, offsetDeg: 23 }).foretold[0].uncertainty).toBeNull();
});
