import { expect, test } from 'vitest';
import { shim, turnAdvice } from '../../../advise/turn.ts';
import { say, sayAll, statement } from '../../../words/statement.ts';
import { looksEqual, turnText } from './turnText.ts';

const more = statement('no-phase-on-a-meter');
const spoken = (tiltDeg: number, extra = [more]) => turnText(tiltDeg, turnAdvice('tilt', tiltDeg, 0.1, [], extra));

test('a clockwise tilt is turned back anticlockwise, the shim under the spindle’s side, and the other way round', () => {
  const right = spoken(0.9);
  expect(right.way).toBe('anticlockwise');
  expect(right.sides).toBe(say(statement('turn-sides', { up: 'rim' })));
  expect(right.shim).toEqual(shim(0.9));
  expect(right.shim.side).toBe('spindle');
  const left = spoken(-0.9);
  expect(left.way).toBe('clockwise');
  expect(left.sides).toBe(say(statement('turn-sides', { up: 'spindle' })));
  expect(left.shim.side).toBe('rim');
});

test('what a card draws is left out of the text below; the tube, the mirror, and what it brings stand in their own places', () => {
  const { reasons = [] } = turnAdvice('tilt', 2, 0.1, [], []);
  const tube = reasons.find(({ code }) => code === 'turn-tube')!;
  expect(spoken(2)).toMatchObject({
    tube: say(tube),
    first: say(statement('mirror-first')),
    brings: '',
    more: say(more),
  });
  expect(spoken(0.9)).toMatchObject({ first: '', more: say(more) });
  const brings = statement('turn-benefit', { gain: 1.2, harm: 5 });
  expect(spoken(0.9, [more, brings, more])).toMatchObject({
    tube: expect.stringContaining('tube'),
    brings: say(brings),
    more: sayAll([more, more]),
  });
});

test('an advice of an earlier version has no reasons and no direction', () => {
  const { reasons: _, ...older } = turnAdvice('tilt', 0.9, 0.1, [], []);
  expect(turnText(0.9, { ...older, direction: null })).toMatchObject({
    way: 'clockwise',
    tube: '',
    first: '',
    brings: '',
    more: '',
  });
});

test('separations less than 1 dB apart look equal on a meter, whichever is the larger', () => {
  expect([
    looksEqual(26, 26.9),
    looksEqual(26.9, 26),
    looksEqual(26, 27),
    looksEqual(27, 26),
    looksEqual(26, 26),
  ]).toEqual([true, true, false, false, true]);
});
