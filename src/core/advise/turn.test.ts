import { describe, expect, it } from 'vitest';
import { type Statement, statement } from '../words/statement.ts';
import { leaveTilt, shim, turnAdvice, whyLeft } from './turn.ts';

describe('the turn, in words for the hand', () => {
  it('turns a clockwise tilt back anticlockwise, with the shim on the spindle side', () => {
    const move = turnAdvice('tilt', 0.9, 0.04, [], []);
    expect(move.direction).toBe('anticlockwise-from-front');
    expect(move.amount).toBeCloseTo(0.9, 12);
    expect(move.why).toContain('anticlockwise, seen from its face');
    expect(move.why).toContain('spindle side (left-hand');
    // 0.9°: 10.2 mm and 15 mm of lever; a tube at 26 and 30°
    expect(move.why).toContain('0.16 mm (a washer) to 0.24 mm');
    expect(move.why).toContain('1.00 to 1.04°, and the nose goes down by about 0.5°');
    expect(move.caution).toContain('amplifier muted');
  });

  it('what speaks for leaving it says once that it is left', () => {
    const left = leaveTilt([], [statement('leave-tilt'), statement('leave-no-gain')]);
    expect(left.why).toBe('Leave the tilt as it is. No turn is expected to gain 1 dB of the worse separation.');
    expect(whyLeft(left)).toBe('No turn is expected to gain 1 dB of the worse separation.');
    // by meter alone, and what an earlier version wrote
    const undecided = leaveTilt([], [statement('decide-by-phase')]);
    expect(whyLeft(undecided)).toBe(undecided.why);
    expect(whyLeft({ why: 'Left.' })).toBe('Left.');
    const byPhase = leaveTilt([], [statement('leave-tilt'), statement('decide-by-phase')]);
    expect(whyLeft(byPhase)).toBe(byPhase.why);
    // with a reason that only a later version knows, nothing is left out of what was written then
    const later = { code: 'of-a-later-version', values: {} } as unknown as Statement;
    const told = [statement('leave-tilt'), statement('leave-no-gain'), later];
    expect(whyLeft({ reasons: told, why: 'As it was written.' })).toBe('As it was written.');
  });

  it('is its own mirror image', () => {
    expect(turnAdvice('tilt', -0.9, 0.04, [], []).direction).toBe('clockwise-from-front');
    expect(shim(-0.9)).toEqual({ ...shim(0.9), side: 'rim' });
  });
});
