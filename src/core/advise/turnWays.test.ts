import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { isTurn, leaveTilt, shim, signedTurn, turnAdvice, turnCodes, turnDirection } from './turn.ts';

describe('every word of the turn’s direction', () => {
  // front view, clockwise positive: a body that leans clockwise has its rim side low and is turned back against the clock
  const ways = [
    [0.9, 'anticlockwise', 'rim', 'spindle', 'left-hand', 'down'],
    [-0.9, 'clockwise', 'spindle', 'rim', 'right-hand', 'up'],
  ] as const;
  for (const [tilt, way, up, shimSide, hand, nose] of ways) {
    it(`says ${way} in every sentence where ${tilt}° is to be taken out`, () => {
      const { direction, amount, why, reasons } = turnAdvice('trial-tilt', tilt, 0.1, [], [statement('turn-trial')]);
      expect(direction).toBe(`${way}-from-front`);
      expect(turnDirection(tilt)).toBe(direction);
      expect(amount).toBe(0.9);
      expect(signedTurn({ amount, direction })).toBe(way === 'clockwise' ? 0.9 : -0.9);
      const of = (code: string) => reasons?.find((reason) => reason.code === code)?.values;
      expect(of('turn-way')).toEqual({ way });
      expect(of('turn-sides')).toEqual({ up });
      expect(of('turn-shim')).toMatchObject({ side: shimSide, hand });
      expect(of('turn-tube')).toMatchObject({ nose });
      expect(reasons?.map(({ code }) => code)).toEqual([...turnCodes, 'turn-trial']);
      // the side that is not named as going up is the other one, and the strip lies under it: it goes down
      expect(why).toContain(`nearer the ${up} goes up`);
      expect(shim(tilt).side).not.toBe(up);
    });
  }

  it('looks in the mirror first beyond 1.5° either way, and not within', () => {
    const first = (tilt: number) => turnAdvice('tilt', tilt, null, [], []).reasons?.[0].code;
    for (const sign of [1, -1]) {
      expect(first(sign * 1.52)).toBe('mirror-first');
      expect(first(sign * 1.48)).toBe('turn-way');
    }
  });

  it('a shim grows with the tilt and the lever: thickness over lever is its tangent', () => {
    const { leastMm, mm, mostMm } = shim(2);
    expect(leastMm).toBeLessThan(mm);
    expect(mm).toBeLessThan(mostMm);
    // 10.2 and 15 mm × tan 2° = 0.03492
    expect(leastMm).toBeCloseTo(0.356, 3);
    expect(mostMm).toBeCloseTo(0.524, 3);
    expect(shim(1).mm / mm).toBeCloseTo(0.5, 2);
  });

  it('knows a turn from what is none, and what is left alone turns nothing', () => {
    const left = leaveTilt([], [statement('leave-tilt')]);
    expect([
      isTurn(left),
      isTurn({ action: 'tilt' }),
      isTurn({ action: 'trial-tilt' }),
      isTurn({ action: 'speed' }),
    ]).toEqual([false, true, true, false]);
    expect(signedTurn(left)).toBe(0);
    expect(left).toMatchObject({ amount: null, direction: null, unit: 'deg' });
  });
});
