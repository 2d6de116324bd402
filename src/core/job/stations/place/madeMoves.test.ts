import { expect, test } from 'vitest';
import { checkMove, type MoveFigure, moveWords, withMove } from '../../moveRecord.ts';
import { placeModel } from '../place.ts';
import { baseMove, placeMove, predictedAfter, shownKept, standsAs } from './madeMoves.ts';
import { placeLines } from './reportLines.ts';
import { solved } from './solved.ts';
import type { MadeMove, ReadTyped } from './typed.ts';

const arm = { spindleToPivot: '222' };
const reading: ReadTyped = { inner: { along: '-1.2', across: '0.3', twist: '-0.8' } };

function read(typed: ReadTyped) {
  const got = solved({ arm, read: typed });
  if (got.kind !== 'place' || got.place.asItStands === null) throw new Error('nothing was read');
  return got;
}
const figuresOf = (typed: ReadTyped): readonly MoveFigure[] => {
  const figures = standsAs(read(typed).place);
  if (figures === null) throw new Error('nothing was read');
  return figures;
};
const valueIn = (figures: readonly MoveFigure[], quantity: string): number => {
  const figure = figures.find((one) => one.quantity === quantity);
  if (figure === undefined) throw new Error(`no ${quantity}`);
  return figure.value;
};
function made(did: { slide: boolean; twist: boolean }): MadeMove {
  const { place, request } = read(reading);
  const foretold = predictedAfter(place, request, did);
  if (foretold === null) throw new Error('nothing was foretold');
  return placeMove(
    {
      slideMm: did.slide ? (place.asItStands?.slideMm.value ?? null) : null,
      twistDeg: did.twist ? (place.asItStands?.twistDeg?.value ?? null) : null,
    },
    { at: '2026-03-04T09:30:00.000Z', before: figuresOf(reading), foretold, reading },
  );
}

test('the whole move brings the arm to where it is aimed', () => {
  const { place } = read(reading);
  const { foretold } = made({ slide: true, twist: true });
  expect(valueIn(foretold, 'overhang')).toBeCloseTo(place.overhangMm, 2);
  expect(valueIn(foretold, 'offset')).toBeCloseTo(place.offsetDeg, 2);
  expect(valueIn(foretold, 'null-point-inner')).toBeCloseTo(place.nullPointsMm[0], 1);
  expect(valueIn(foretold, 'null-point-outer')).toBeCloseTo(place.nullPointsMm[1], 1);
});

test('a slide alone mends the overhang and leaves most of the twist', () => {
  const before = figuresOf(reading);
  const { foretold } = made({ slide: true, twist: false });
  expect(valueIn(foretold, 'overhang')).toBeGreaterThan(valueIn(before, 'overhang') + 0.8);
  expect(Math.abs(valueIn(foretold, 'offset') - valueIn(before, 'offset'))).toBeLessThan(0.15);
});

test('a second reading on the cross came as predicted; one that still misses came otherwise', () => {
  const move = made({ slide: true, twist: true });
  const came = (typed: ReadTyped) =>
    Object.fromEntries(checkMove(move, figuresOf(typed)).map((check) => [check.quantity, check.came]));
  expect(came({ inner: { along: '0', across: '0', twist: '0' } })).toMatchObject({
    overhang: 'as-predicted',
    offset: 'as-predicted',
    'null-point-inner': 'as-predicted',
    'peak-distortion': 'as-predicted',
  });
  expect(came(reading)).toMatchObject({ overhang: 'otherwise' });
  expect(came({ kind: 'ruler', rulerOverhang: '17.3' })).toMatchObject({
    overhang: 'as-predicted',
    offset: 'cannot-tell',
  });
});

test('the reading before the next move is what checks the move before it', () => {
  const first = withMove([], made({ slide: true, twist: true }));
  const second = withMove(first, { ...made({ slide: false, twist: true }), at: '2026-03-04T09:40:00.000Z' });
  expect(second[0].came?.figures).toEqual(second[1].before);
  expect(second[0].reading).toEqual(reading);
  expect(second[1].came).toBeNull();
});

test('words and figures for the sheet: what was read before, moved, read after', () => {
  const [move] = withMove([], made({ slide: true, twist: true }));
  expect(moveWords(move)).toMatch(/^slid 1\.\d mm forward; twisted 0\.\d° clockwise, seen from above$/);
  const lines = placeLines({
    arm,
    moves: [move],
    read: { inner: { along: '0', across: '0', twist: '0' } },
  });
  expect(lines.map(({ label }) => label)).toEqual([
    'Worked out for',
    'To be set to',
    'Read before',
    'Moved',
    'Read after',
  ]);
  expect(lines[4].text).toMatch(/overhang 17\.\d+ ± 0\.\d+ mm, offset 23\.\d ± 0\.\d°/);
  expect(placeLines({ arm: {}, moves: [] })).toEqual([]);
});

test('a base that was moved is a move: to where the pivot belongs, with the overhang that it should bring', () => {
  const at = '2026-03-04T09:50:00.000Z';
  const length = { known: 'effective-length', effectiveLength: '239' } as const;
  const answer = solved({ arm: length });
  if (answer.kind !== 'place') throw new Error('no answer');
  const move = baseMove(answer.place, 'effective-length', { at, reading: {} });
  if (move === null) throw new Error('no move');
  const { spindleToPivotMm, overhangMm } = answer.place;
  expect(move).toMatchObject({ move: 'set-pivot-distance', station: 'place', amount: spindleToPivotMm, before: [] });
  expect(move.foretold).toEqual([
    { quantity: 'overhang', unit: 'mm', value: expect.closeTo(overhangMm, 9), uncertainty: null },
  ]);
  expect(moveWords(move)).toBe(`pivot distance ${spindleToPivotMm?.toFixed(1)} mm`);
  expect(placeModel.schema.safeParse({ arm: length, moves: [move] }).success).toBe(true);
  // the distance is typed: only the cartridge is told anew
  const typed = solved({ arm });
  if (typed.kind !== 'place') throw new Error('no answer');
  expect(baseMove(typed.place, 'spindle-to-pivot', { at, reading: {} })?.foretold).toEqual([]);
  const tangential = solved({ arm: { known: 'tangential' } });
  if (tangential.kind === 'place') expect(baseMove(tangential.place, 'tangential', { at, reading: {} })).toBeNull();
  expect(placeLines({ arm: length, moves: [move] }).map(({ label }) => label)).not.toContain('Read before');
});

test('a figure that spreads to one side never stands outside its own span', () => {
  expect(
    shownKept({ quantity: 'peak-distortion', unit: '%', value: 0.62, uncertainty: 0.2, low: 0.63, high: 1.03 }),
  ).toBe('0.62 %, up to 1.03 %');
  expect(
    shownKept({ quantity: 'peak-distortion', unit: '%', value: 0.72, uncertainty: 0.1, low: 0.69, high: 0.94 }),
  ).toBe('0.72 % (0.69 to 0.94)');
  expect(shownKept({ quantity: 'overhang', unit: 'mm', value: 17.296, uncertainty: null }, { uncertainty: 0.29 })).toBe(
    '17.30 mm',
  );
});

test('a move as an earlier version kept it is read as a record of today', () => {
  const figures = (overhang: number) => ({
    overhangMm: { value: overhang, uncertainty: 0.3 },
    offsetDeg: { value: 22.6, uncertainty: 0.4 },
    nullPointsMm: [
      { value: 65.9, uncertainty: 1 },
      { value: 120.8, uncertainty: null },
    ],
    peakPercent: { value: 0.62, uncertainty: 0.1, low: 0.6, high: 0.8 },
  });
  const at = '2026-03-04T09:30:00.000Z';
  const older = {
    at,
    slideMm: -1.2,
    twistDeg: null,
    before: figures(18.2),
    predicted: figures(17),
    reading,
    read: null,
  };
  const again = { ...older, slideMm: null, twistDeg: 0.8, read: figures(17.1) };
  const data = placeModel.fromOlder({ moves: [older, again], forReport: [] } as unknown as Parameters<
    typeof placeModel.fromOlder
  >[0]);
  const { moves } = placeModel.schema.parse(data);
  expect(moves?.[0]).toMatchObject({ move: 'slide', amount: 1.2, direction: 'back', station: 'place', came: null });
  expect(moves?.[0].foretold[0]).toEqual({ quantity: 'overhang', unit: 'mm', value: 17, uncertainty: 0.3 });
  expect(moves?.[1]).toMatchObject({
    move: 'twist',
    came: { figures: [{ quantity: 'overhang', value: 17.1 }, {}, {}, {}, {}] },
  });
  // what is of today is left as it is, and what is no move at all is left for the schema to refuse
  expect(placeModel.fromOlder(data)).toEqual(data);
  expect(placeModel.schema.safeParse(placeModel.fromOlder({ moves: [7, { slideMm: 1, predicted: 2 }] })).success).toBe(
    false,
  );
});
