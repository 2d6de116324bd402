import { expect, test } from 'vitest';
import type { CaptureEntry } from './api.ts';
import { cameFrom, checkMove, type MoveRecord, moveRecordSchema, withMove } from './moveRecord.ts';

const force = (value: number, uncertainty: number | null = 0.2) => ({
  quantity: 'tracking-force',
  value,
  unit: 'mN',
  uncertainty,
});
const move = (at: string, before: number, foretold: number): MoveRecord => ({
  at,
  station: 'weigh',
  move: 'set-force',
  amount: Math.abs(foretold - before),
  unit: 'mN',
  direction: foretold > before ? 'more' : 'less',
  before: [force(before)],
  foretold: [force(foretold, null)],
  came: null,
});

test('what came is held against what was foretold by the rule for all advice', () => {
  const record = move('2026-03-04T09:30:00.000Z', 16.5, 18);
  expect(checkMove(record)).toEqual([]);
  expect(checkMove(record, [force(18.1)])).toMatchObject([{ before: 16.5, predicted: 18, came: 'as-predicted' }]);
  expect(checkMove(record, [force(17.2)])).toMatchObject([{ measured: 17.2, came: 'otherwise' }]);
  expect(checkMove(record, [])).toMatchObject([{ measured: null, came: 'cannot-tell' }]);
});

test('the reading that the next move rests on is what came of the one before, and is kept once', () => {
  const first = move('2026-03-04T09:30:00.000Z', 16.5, 18);
  const second = move('2026-03-04T09:40:00.000Z', 17.6, 18);
  const [kept, last] = withMove([first], second);
  expect(kept.came).toEqual({ at: second.at, figures: [force(17.6)] });
  expect(last).toBe(second);
  expect(withMove([kept], second)[0]).toBe(kept);
  expect(withMove([first], { ...second, before: [] })[0]).toBe(first);
});

test('what was heard after a move is what came of it: each figure of the first recording that holds it', () => {
  const heard = (heardAt: string, value: number) =>
    ({ heardAt, findings: [{ ...force(value), verdict: 'info' }] }) as unknown as CaptureEntry;
  const record = move('2026-03-04T09:30:00.000Z', 16.5, 18);
  const before = heard('2026-03-04T09:00:00.000Z', 1);
  expect(
    cameFrom(record, [before, heard('2026-03-04T10:00:00.000Z', 2), heard('2026-03-04T11:00:00.000Z', 3)]),
  ).toEqual([force(2)]);
  expect(cameFrom(record, [before])).toBeNull();
});

test('only what is told whole is taken: no amount under zero, no unknown move, no figure without a unit', () => {
  const good = move('2026-03-04T09:30:00.000Z', 16.5, 18);
  expect(moveRecordSchema.safeParse(good).success).toBe(true);
  for (const bad of [{ amount: -1 }, { move: 'push' }, { before: [{ quantity: 'x', value: 1 }] }, { at: 'today' }]) {
    expect(moveRecordSchema.safeParse({ ...good, ...bad }).success, JSON.stringify(bad)).toBe(false);
  }
});
