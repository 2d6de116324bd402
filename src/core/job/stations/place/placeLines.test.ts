import { describe, expect, test } from 'vitest';
import type { MoveFigure } from '../../moveRecord.ts';
import { placeModel } from '../place.ts';
import { placeMove } from './madeMoves.ts';
import { placeLines } from './reportLines.ts';
import type { MadeMove } from './typed.ts';

const arm = { spindleToPivot: '222' };
const at = '2026-03-04T09:30:00.000Z';
const figure = (quantity: string, value: number, unit = 'mm'): MoveFigure => ({
  quantity,
  value,
  unit,
  uncertainty: null,
});
const move = (slideMm: number, more: Partial<MadeMove> = {}): MadeMove => ({
  ...placeMove({ slideMm, twistDeg: null }, { at, before: [], foretold: [], reading: {} }),
  ...more,
});
const before = [figure('overhang', 15), figure('offset', 22, 'deg')];
const foretold = [figure('overhang', 17)];
const nowhere = { known: 'overhang' } as const;

test('what it was worked out for, and how it is to be set', () => {
  const [base, aim, ...more] = placeLines({ arm });
  // Löfgren A on the usual grooves (docs/methods of Place)
  expect(base).toEqual({
    label: 'Worked out for',
    text: expect.stringMatching(
      /^spindle to pivot 222\.0 mm, effective length 239\.3 mm; grooves from 60\.325 to 146\.05 mm; L.fgren A/,
    ),
  });
  expect(aim).toEqual({
    label: 'To be set to',
    text: expect.stringMatching(
      /^overhang 17\.3 ± 0\.5 mm, offset 23\.0 ± 0\.5°, null points 66\.0 and 120\.9 mm, second harmonic at most 0\.\d+ % for 10 cm\/s$/,
    ),
  });
  expect(more).toEqual([]);
  expect(placeLines({}, { spindleToPivotMm: 222 })[0]).toEqual(base);
});

test('a tangential arm is named as such; one that stands right has no error anywhere, and that is said', () => {
  const [base, aim] = placeLines({ arm: { known: 'tangential' } });
  expect(base.text).toMatch(/^tangential arm; grooves from/);
  expect(aim.text).toBe(
    'overhang 0.0 ± 0.5 mm, offset 0.0 ± 0.5°, no tracking error at any radius, second harmonic at most 0 % for 10 cm/s',
  );
});

describe('what was read and moved', () => {
  const read = { kind: 'stated', statedLength: '238', statedOffset: '22' } as const;

  test('only read', () => {
    const lines = placeLines({ arm, read });
    expect(lines.map(({ label }) => label)).toEqual(['Worked out for', 'To be set to', 'Read']);
    expect(lines[2].text).toMatch(/^overhang 16\.\d+ ± 0\.\d+ mm, offset 22\.\d* ± \d\.?\d*°, inner null point /);
  });

  test('before the first move, every move in order, and the reading after', () => {
    const moves = [move(1.2, { before, foretold }), move(-0.4)];
    const lines = placeLines({ arm, read, moves }).slice(2);
    expect(lines.slice(0, 2)).toEqual([
      { label: 'Read before', text: 'overhang 15.0 mm, offset 22.0°' },
      { label: 'Moved', text: 'slid 1.2 mm forward; then slid 0.4 mm back' },
    ]);
    expect(lines[2]).toMatchObject({ label: 'Read after', text: expect.stringMatching(/^overhang 16\./) });
    expect(lines).toHaveLength(3);
  });

  test('not read again: what the last move came to, else what it should bring', () => {
    const lines = (...moves: MadeMove[]) => placeLines({ arm: nowhere, moves });
    expect(lines(move(1.2, { before, foretold }))).toEqual([
      { label: 'Read before', text: 'overhang 15.0 mm, offset 22.0°' },
      { label: 'Moved', text: 'slid 1.2 mm forward' },
      { label: 'Expected after, not read again', text: 'overhang 17.0 mm' },
    ]);
    const came = { at, figures: [figure('overhang', 16.8)] };
    expect(lines(move(1.2, { before, foretold, came }), move(0.2, { foretold }))[2].label).toBe(
      'Expected after, not read again',
    );
    expect(lines(move(1.2), move(0.2, { foretold, came })).slice(1)).toEqual([
      { label: 'Read after', text: 'overhang 16.8 mm' },
    ]);
    expect(lines(move(1.2))).toEqual([{ label: 'Moved', text: 'slid 1.2 mm forward' }]);
    expect(lines()).toEqual([]);
    expect(placeLines({ arm: nowhere })).toEqual([]);
  });
});

describe('moves of an earlier version', () => {
  const older = (moves: unknown) =>
    placeModel.fromOlder({ moves } as Parameters<typeof placeModel.fromOlder>[0]).moves as unknown;
  const figures = {
    overhangMm: { value: 15, uncertainty: 0.3 },
    offsetDeg: null,
    nullPointsMm: [{ value: 90, uncertainty: 1 }],
    peakPercent: null,
  };
  const one = {
    at,
    slideMm: 1,
    twistDeg: 0.5,
    before: figures,
    predicted: {
      ...figures,
      offsetDeg: { value: 22, uncertainty: null },
      peakPercent: { value: 0.6, uncertainty: 0.1, low: 0.5, high: 0.8 },
      nullPointsMm: [
        { value: 66, uncertainty: null },
        { value: 121, uncertainty: null },
      ],
    },
    reading: {},
    read: null,
  };
  const kept = (quantity: string, value: number, unit: string, uncertainty: number | null, more: object = {}) => ({
    quantity,
    unit,
    value,
    uncertainty,
    ...more,
  });
  const record = {
    move: 'slide',
    amount: 1,
    unit: 'mm',
    direction: 'forward',
    also: [{ move: 'twist', amount: 0.5, unit: 'deg', direction: 'clockwise, seen from above' }],
    at,
    before: [kept('overhang', 15, 'mm', 0.3), kept('null-point', 90, 'mm', 1)],
    foretold: [
      kept('overhang', 17, 'mm', 0.3),
      kept('offset', 22, 'deg', null),
      kept('null-point-inner', 66, 'mm', null),
      kept('null-point-outer', 121, 'mm', null),
      kept('peak-distortion', 0.6, '%', 0.1, { low: 0.5, high: 0.8 }),
    ],
    reading: {},
    station: 'place',
    came: null,
  };
  const predicted = { ...one.predicted, overhangMm: { value: 17, uncertainty: 0.3 } };

  test('become records of today, with what was read after them', () => {
    expect(older([{ ...one, predicted }])).toEqual([record]);
    expect(older([{ ...one, predicted, read: figures }])).toEqual([
      { ...record, came: { at, figures: record.before } },
    ]);
    const three = { ...figures, nullPointsMm: [66, 90, 121].map((value) => ({ value, uncertainty: 1 })) };
    const [many] = older([{ ...one, predicted: three }]) as { foretold: MoveFigure[] }[];
    expect(many.foretold.map(({ quantity }) => quantity)).toEqual([
      'overhang',
      'null-point',
      'null-point',
      'null-point',
    ]);
  });

  test('what is none of them stays as it is', () => {
    const odd = [
      { ...one, slideMm: null, twistDeg: null },
      { slideMm: 1, predicted: 2 },
      { slideMm: 1 },
      { predicted },
      null,
      7,
      record,
    ];
    expect(older(odd)).toEqual(odd);
    expect(older('none')).toBe('none');
    expect(older([])).toEqual([]);
    expect(placeModel.fromOlder({ forReport: [] })).toEqual({});
  });
});
