import { describe, expect, it } from 'vitest';
import { MOST_WRONG, OneDevice } from './oneDevice.ts';

function device(codes: readonly string[] = ['111111', '222222', '333333']) {
  const clock = { ms: 0 };
  let drawn = 0;
  return {
    clock,
    door: new OneDevice(
      () => clock.ms,
      () => codes[drawn++] ?? '000000',
    ),
  };
}
/** a second later */
const later = (clock: { ms: number }): void => {
  clock.ms += 1000;
};

describe('the code of the second screen', () => {
  it('lets one device in, once, blanks not counted', () => {
    const { door, clock } = device();
    const entered = door.enter(' 111 111 ');
    if (!('token' in entered)) throw new Error('it was expected in');
    expect(door.letsIn(entered.token)).toBe(true);
    expect(door.letsIn(`${entered.token.slice(0, -1)}-`)).toBe(false);
    expect(door.code).toBeNull();
    later(clock);
    expect(door.enter('111111')).toEqual({ refused: 'wrong' });
    expect(door.letsIn(entered.token)).toBe(true);
  });

  it('works for three minutes; then there is another one', () => {
    const { door, clock } = device();
    clock.ms = 180_000 - 1;
    expect(door.code?.text).toBe('111111');
    clock.ms = 180_000;
    expect(door.code?.text).toBe('222222');
    expect(door.enter('111111')).toEqual({ refused: 'wrong' });
    later(clock);
    expect(door.enter('222222')).toHaveProperty('token');
  });

  it('is tried once a second at most, and a try that came too soon neither counts nor opens', () => {
    const { door, clock } = device();
    expect(door.enter('000000')).toEqual({ refused: 'wrong' });
    clock.ms = 999;
    expect(door.enter('111111')).toEqual({ refused: 'too-fast' });
    clock.ms = 1000;
    expect(door.enter('111111')).toHaveProperty('token');
  });

  it(`is over after ${MOST_WRONG} wrong ones, new codes between them or not`, () => {
    const { door, clock } = device();
    for (let tried = 1; tried < MOST_WRONG; tried++) {
      expect(door.enter('999999')).toEqual({ refused: 'wrong' });
      if (tried === 2) door.renew();
      later(clock);
    }
    expect(door.enter('999999')).toEqual({ refused: 'over' });
    later(clock);
    expect(door.enter('222222')).toEqual({ refused: 'over' });
  });

  it('renewed, it puts out who was let in', () => {
    const { door } = device();
    const entered = door.enter('111111');
    door.renew();
    expect('token' in entered && door.letsIn(entered.token)).toBe(false);
    expect(door.code?.text).toBe('222222');
  });

  it('has six digits', () => {
    for (let i = 0; i < 50; i++) expect(new OneDevice(() => 0).code?.text).toMatch(/^\d{6}$/);
  });
});
