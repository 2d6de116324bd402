import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { told } from './told.fixture.ts';
import { isTurn, leaveTilt, shim, sidesStatement, signedTurn, turnAdvice, turnDirection } from './turn.ts';

const DEG = Math.PI / 180;
/** mm of lever: screw to the far edge with a washer, usually, and with a strip */
const LEVERS = [10.2, 12, 15];

describe('every word of direction in a turn, for a tilt either way', () => {
  it.each([
    [0.9, 'anticlockwise', 'rim', 'spindle', 'left-hand', 'down'],
    [-0.9, 'clockwise', 'spindle', 'rim', 'right-hand', 'up'],
    [2.4, 'anticlockwise', 'rim', 'spindle', 'left-hand', 'down'],
    [-2.4, 'clockwise', 'spindle', 'rim', 'right-hand', 'up'],
  ] as const)('a tilt of %d° is taken out %s: the side by the %s goes up', (tilt, way, up, side, hand, nose) => {
    const { reasons = [], ...move } = turnAdvice('tilt', tilt, 0.04, [], []);
    const size = Math.abs(tilt);
    const [least, , most] = LEVERS.map((lever) => lever * Math.tan(size * DEG));
    // a tube behind an offset shell: turned further by 1/cos, with sin/cos of pitch
    const [short, long] = [26, 30].map((shell) => size / Math.cos(shell * DEG));
    const pitch = (size * (Math.tan(26 * DEG) + Math.tan(30 * DEG))) / 2;
    const of = (value: number) => Number(value.toFixed(4));
    expect(reasons.map((one) => told(one))).toEqual([
      ...(size > 1.5 ? ['mirror-first'] : []),
      `turn-way way=${way}`,
      `turn-sides up=${up}`,
      `turn-shim least=${of(least)} most=${of(most)} side=${side} hand=${hand}`,
      `turn-tube least=${of(short)} most=${of(long)} nose=${nose} pitch=${of(pitch)}`,
    ]);
    expect(move).toMatchObject({
      action: 'tilt',
      amount: size,
      unit: 'deg',
      uncertainty: 0.04,
      direction: `${way}-from-front`,
      predicts: [],
      cautions: [{ code: 'caution-headshell' }],
    });
    expect(sidesStatement(tilt)).toEqual({ code: 'turn-sides', values: { up } });
    expect(turnDirection(tilt)).toBe(`${way}-from-front`);
    // what the hand turns is the tilt with its sign turned over
    expect(signedTurn(move)).toBe(-tilt);
    const { mm, leastMm, mostMm, side: under } = shim(tilt);
    expect(under).toBe(side);
    [leastMm, mm, mostMm].forEach((one, i) => {
      expect(one).toBeCloseTo(LEVERS[i] * Math.tan(size * DEG), 9);
    });
  });

  it('a mirror is looked into first from more than 1.5° on, either way', () => {
    const first = (tilt: number) => turnAdvice('trial-tilt', tilt, null, [], []).reasons?.[0].code;
    expect([1.5, -1.5, 1.51, -1.51].map(first)).toEqual(['turn-way', 'turn-way', 'mirror-first', 'mirror-first']);
  });

  it('what belongs to the case comes last, and predictions are passed on', () => {
    const predicts = [{ quantity: 'separation-left-to-right', value: 30, unit: 'dB' }];
    const move = turnAdvice('trial-tilt', 0.5, null, predicts, [statement('turn-trial')]);
    expect(move.reasons?.at(-1)).toEqual(statement('turn-trial'));
    expect(move).toMatchObject({ action: 'trial-tilt', uncertainty: null, predicts });
    const left = leaveTilt(predicts, [statement('leave-tilt')]);
    expect(left).toEqual({
      action: 'leave-tilt',
      amount: null,
      unit: 'deg',
      direction: null,
      predicts,
      reasons: [statement('leave-tilt')],
      why: 'Leave the tilt as it is.',
    });
  });

  it('turns and trials of one are turns; leaving it is none, and turns by nothing', () => {
    expect(['tilt', 'trial-tilt', 'leave-tilt', 'speed'].map((action) => isTurn({ action }))).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(signedTurn({ amount: null, direction: null })).toBe(0);
    expect(signedTurn({ amount: 0.4, direction: 'clockwise-from-front' })).toBe(0.4);
    expect(signedTurn({ amount: 0.4, direction: 'anticlockwise-from-front' })).toBe(-0.4);
  });
});
