import { describe, expect, it } from 'vitest';
import type { CaptureEntry } from './api.ts';
import {
  cameFrom,
  checkMove,
  type MoveRecord,
  type MoveStep,
  moveRecordSchema,
  moveWords,
  withMove,
} from './moveRecord.ts';
import { moveNames } from './moves.ts';

const at = (minute: number): string => `2026-03-04T09:${String(minute).padStart(2, '0')}:00.000Z`;
const step = (
  move: MoveStep['move'],
  amount: number | null,
  unit = 'mm',
  direction: string | null = null,
): MoveStep => ({
  move,
  amount,
  unit,
  direction,
});

describe('what was done, as a phrase', () => {
  it.each<[MoveStep, string]>([
    [step('set-force', 1.5, 'mN', 'more'), 'force 1.5 mN more'],
    [step('slide', 1.2, 'mm', 'forward'), 'slid 1.2 mm forward'],
    [step('turn-shell', 0.9, 'deg', 'clockwise'), 'headshell turned 0.90° clockwise'],
    [step('shim', 0.15, 'mm', 'on the rim side'), 'shim put in: 0.15 mm on the rim side'],
    [step('twist', 0.84, 'deg', 'clockwise'), 'twisted 0.8° clockwise'],
    [step('set-pivot-distance', 1), 'pivot distance 1.0 mm'],
    [step('change-stylus', 1), 'change stylus 1.0 mm'],
    [step('set-arm-height', null), 'arm height set'],
    [step('slide', null), 'slid'],
    [step('twist', null), 'twisted'],
    [step('turn-shell', null), 'headshell turned'],
    [step('level-deck', null), 'level deck set'],
  ])('%o', (one, words) => {
    expect(moveWords(one)).toBe(words);
  });

  it('names what was moved in the same go behind it', () => {
    const also = [step('twist', 0.8, 'deg', 'clockwise'), step('set-force', null)];
    expect(moveWords({ ...step('slide', 1.2, 'mm', 'back'), also })).toBe(
      'slid 1.2 mm back; twisted 0.8° clockwise; force set',
    );
  });
});

const separation = (value: number, uncertainty: number | null = 0.1) => ({
  quantity: 'separation-left-to-right',
  value,
  unit: 'dB',
  uncertainty,
});
const record = (more: Partial<MoveRecord> = {}): MoveRecord => ({
  ...step('turn-shell', 0.9, 'deg'),
  at: at(10),
  station: 'tilt',
  before: [separation(24)],
  foretold: [separation(27.9, null)],
  came: null,
  ...more,
});

it('a turn is allowed a tenth of a degree of the hand, any other move is not', () => {
  // at 27.9 dB a tenth of a degree is 0.38 dB
  const came = (move: MoveStep['move']) => checkMove(record({ move }), [separation(27.6)])[0].came;
  expect(moveNames.filter((move) => came(move) === 'as-predicted')).toEqual(['turn-shell', 'shim']);
});

it('what the record keeps is checked unless something else is given', () => {
  const kept = record({ came: { at: at(20), figures: [separation(27)] } });
  expect(checkMove(kept)).toEqual(checkMove(record(), [separation(27)]));
  expect(checkMove(kept)[0]).toMatchObject({ before: 24, predicted: 27.9, measured: 27, unit: 'dB' });
  expect(checkMove(kept, null)).toEqual([]);
});

describe('a move after another', () => {
  const came = { at: at(15), figures: [separation(27)] };
  const next = record({ at: at(20), before: [separation(26)] });

  it('brings its reading to the one before, unless that has one or nothing was read', () => {
    expect(withMove([], next)).toEqual([next]);
    const first = record({ at: at(5) });
    expect(withMove([first, record()], next)).toEqual([
      first,
      record({ came: { at: at(20), figures: next.before } }),
      next,
    ]);
    expect(withMove([record({ came })], next)).toEqual([record({ came }), next]);
    const unread = { ...next, before: [] };
    expect(withMove([record()], unread)).toEqual([record(), unread]);
  });

  it('says nothing of one that was made with what was there before', () => {
    expect(withMove([record()], next, at(11))).toEqual([record(), next]);
    expect(withMove([record()], next, at(10))[0].came).not.toBeNull();
    expect(withMove([record()], next, at(9))[0].came).not.toBeNull();
  });
});

describe('what was heard after a move', () => {
  const heard = (minute: number, ...findings: readonly object[]) =>
    ({ heardAt: at(minute), findings }) as unknown as CaptureEntry;
  const foretold = [separation(1), { ...separation(1), quantity: 'azimuth-error' }];

  it('is each figure of the first recording that holds it as a number, with its own unit and uncertainty', () => {
    const word = { ...separation(1), value: 'odd' };
    const tilt = { quantity: 'azimuth-error', value: 0.1, unit: 'deg', uncertainty: null, note: 'x' };
    const captures = [
      heard(9, separation(9)),
      heard(10, separation(10)),
      heard(11, word),
      heard(12, separation(12)),
      heard(13, tilt, separation(13)),
    ];
    expect(cameFrom({ at: at(10), foretold }, captures)).toEqual([
      separation(12),
      { quantity: 'azimuth-error', value: 0.1, unit: 'deg', uncertainty: null },
    ]);
    expect(cameFrom({ at: at(10), foretold }, captures.slice(0, 3))).toBeNull();
    expect(cameFrom({ at: at(10), foretold: [] }, captures)).toBeNull();
  });
});

it('a record is bounded: no text over 80 letters, no figure over a million, no more than 40 of them', () => {
  const takes = (more: object) => moveRecordSchema.safeParse({ ...record(), ...more }).success;
  const figure = (more: object) => ({ before: [{ ...separation(1), ...more }] });
  expect([takes({ unit: 'x'.repeat(80) }), takes({ unit: 'x'.repeat(81) })]).toEqual([true, false]);
  for (const value of [1e6, -1e6])
    expect([takes(figure({ value })), takes(figure({ value: value * 1.001 }))]).toEqual([true, false]);
  expect([takes(figure({ uncertainty: 0 })), takes(figure({ uncertainty: -0.1 }))]).toEqual([true, false]);
  expect([40, 41].map((count) => takes({ foretold: Array(count).fill(separation(1)) }))).toEqual([true, false]);
  expect([4, 5].map((count) => takes({ also: Array(count).fill(step('twist', 1)) }))).toEqual([true, false]);
  expect(takes({ more: 1 })).toBe(false);
  expect([takes({ amount: 0 }), takes({ amount: null })]).toEqual([true, true]);
});
