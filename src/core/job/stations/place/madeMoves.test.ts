import { expect, test } from 'vitest';
import { checkMove, doneWords, predictedAfter, shownKept, standsAs, withMove } from './madeMoves.ts';
import { placeLines } from './reportLines.ts';
import { solved } from './solved.ts';
import type { KeptFigures, MadeMove, ReadTyped } from './typed.ts';

const arm = { spindleToPivot: '222' };
const reading: ReadTyped = { inner: { along: '-1.2', across: '0.3', twist: '-0.8' } };

function read(typed: ReadTyped) {
  const got = solved({ arm, read: typed });
  if (got.kind !== 'place' || got.place.asItStands === null) throw new Error('nothing was read');
  return got;
}
const figuresOf = (typed: ReadTyped): KeptFigures => {
  const figures = standsAs(read(typed).place);
  if (figures === null) throw new Error('nothing was read');
  return figures;
};
function made(did: { slide: boolean; twist: boolean }): Omit<MadeMove, 'read'> {
  const { place, request } = read(reading);
  const predicted = predictedAfter(place, request, did);
  if (predicted === null) throw new Error('nothing was predicted');
  return {
    at: '2026-03-04T09:30:00.000Z',
    slideMm: did.slide ? (place.asItStands?.slideMm.value ?? null) : null,
    twistDeg: did.twist ? (place.asItStands?.twistDeg?.value ?? null) : null,
    before: figuresOf(reading),
    predicted,
    reading,
  };
}

test('the whole move brings the arm to where it is aimed', () => {
  const { place } = read(reading);
  const { predicted } = made({ slide: true, twist: true });
  expect(predicted.overhangMm.value).toBeCloseTo(place.overhangMm, 2);
  expect(predicted.offsetDeg?.value).toBeCloseTo(place.offsetDeg, 2);
  expect(predicted.nullPointsMm.map(({ value }) => value)).toEqual(
    place.nullPointsMm.map((radius) => expect.closeTo(radius, 1)),
  );
});

test('a slide alone mends the overhang and leaves most of the twist', () => {
  const before = figuresOf(reading);
  const { predicted } = made({ slide: true, twist: false });
  expect(predicted.overhangMm.value).toBeGreaterThan(before.overhangMm.value + 0.8);
  expect(Math.abs((predicted.offsetDeg?.value ?? 0) - (before.offsetDeg?.value ?? 0))).toBeLessThan(0.15);
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
  expect(second[0].read).toEqual(second[1].before);
  expect(second[1].read).toBeNull();
});

test('words and figures for the sheet: what was read before, moved, read after', () => {
  const [move] = withMove([], made({ slide: true, twist: true }));
  expect(doneWords(move)).toMatch(/^slid 1\.\d mm forward; twisted 0\.\d° clockwise, seen from above$/);
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

test('a figure that spreads to one side never stands outside its own span', () => {
  expect(
    shownKept({ quantity: 'peak-distortion', unit: '%', value: 0.62, uncertainty: 0.2, low: 0.63, high: 1.03 }),
  ).toBe('0.62 %, up to 1.03 %');
  expect(
    shownKept({ quantity: 'peak-distortion', unit: '%', value: 0.72, uncertainty: 0.1, low: 0.69, high: 0.94 }),
  ).toBe('0.72 % (0.69 to 0.94)');
  expect(
    shownKept(
      { quantity: 'overhang', unit: 'mm', value: 17.296, uncertainty: null },
      { value: 16.31, uncertainty: 0.29 },
    ),
  ).toBe('17.30 mm');
});
