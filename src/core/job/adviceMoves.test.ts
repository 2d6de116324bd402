import { expect, it } from 'vitest';
import type { Advice } from '../advise/document.ts';
import { moveOfAdvice } from './adviceMoves.ts';

const advice = (action: string, amount: number | null = null, direction: string | null = null): Advice => ({
  action,
  amount,
  unit: '',
  direction,
  predicts: [],
  why: '',
});

it.each([
  [advice('speed', 0.6, 'slower'), { move: 'set-speed', station: 'run' }],
  [advice('set-skating', 5, 'more'), { move: 'set-skating', station: 'run' }],
  [advice('set-force', 12, 'more'), { move: 'set-force', station: 'run' }],
  [advice('hum'), { move: 'set-earth', station: 'run' }],
  [advice('reverse-one-channel'), { move: 'rewire', station: 'fit' }],
  [advice('swap-channels'), { move: 'rewire', station: 'fit' }],
  [advice('slide', 1.2, 'back'), { move: 'slide', station: 'place', by: -1.2 }],
  [advice('twist', 0.8, 'clockwise-from-above'), { move: 'twist', station: 'place', by: 0.8 }],
  [advice('twist', 0.8, 'anticlockwise-from-above'), { move: 'twist', station: 'place', by: -0.8 }],
  [advice('set-arm-height', 2, 'raise-at-the-pivot'), { move: 'set-arm-height', station: 'height', by: 2 }],
  [advice('set-arm-height', 2, 'lower-at-the-pivot'), { move: 'set-arm-height', station: 'height', by: -2 }],
])('%o is a move of the table, with its way as its sign', (one, move) => {
  expect(moveOfAdvice(one, 'id-1')).toEqual({ ...move, step: 'id-1' });
});

it('advice that moves nothing is no move', () => {
  for (const action of ['leave-tilt', 'leave-overhang', 'leave-height', 'toString'])
    expect(moveOfAdvice(advice(action), 'id-1')).toBeNull();
});

it('a move has no amount where the advice has none, and none of a thing that is not measured', () => {
  expect(moveOfAdvice(advice('slide'), 's')).toEqual({ station: 'place', move: 'slide', step: 's' });
  expect(moveOfAdvice(advice('slide', 0, 'forward'), 's')).toMatchObject({ by: 0 });
  // without a way it counts as the other one
  expect(moveOfAdvice(advice('slide', 1), 's')).toMatchObject({ by: -1 });
  expect(moveOfAdvice(advice('set-force', 1, 'more'), 's')).not.toHaveProperty('by');
});
