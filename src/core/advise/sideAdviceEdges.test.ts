import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { leakFigure } from './budget/deckFigures.ts';
import { recordError } from './budget/recordError.ts';
import { finding, upright } from './heardTilt.fixture.ts';
import { equalSeparationsHideTilt, separationDb, separationsOf } from './leaks.ts';
import { adviseSide, type TiltGround, tiltGround } from './sideAdvice.ts';
import { moves, told } from './told.fixture.ts';
import { turnWorth, usualBody } from './turnWorth.ts';

const DEG = Math.PI / 180;
const record = recordError(undefined);
const worth: TiltGround['worth'] = {
  action: 'tilt',
  turn: DEG,
  expectedGainDb: 3,
  harmProbability: 0.01,
  gainIfKnownDb: 0,
  tilt: DEG,
  tiltSpread: 0.05 * DEG,
};
const ground: TiltGround = { leaks: upright, record, worth, noise: { leftIntoRight: 2e-4, rightIntoLeft: 3e-4 } };
const tilt: Finding = { ...finding('azimuth-error', 1, 0.2), unit: 'deg' };

describe('what a side’s moves are, whole', () => {
  it.each([
    [1, 'anticlockwise'],
    [-1, 'clockwise'],
  ])('a turn of %d°', (sign, way) => {
    const [advice, ...more] = adviseSide([{ ...tilt, value: sign }], {
      ...ground,
      worth: { ...worth, turn: sign * DEG },
    });
    expect(more).toEqual([]);
    // a turn back takes the tilt off either leak: (c ± t)/(1 ∓ c t)
    const t = Math.tan(sign * DEG);
    const over = (c: { re: number; im: number }, by: number) => {
      const below = { re: 1 - c.re * by, im: -c.im * by };
      const size = below.re ** 2 + below.im ** 2;
      const re = c.re + by;
      return { re: (re * below.re + c.im * below.im) / size, im: (c.im * below.re - re * below.im) / size };
    };
    const promised = (quantity: string, leak: { re: number; im: number }, noise: number) => {
      const { value, low, high, uncertainty } = leakFigure(leak, record, noise);
      const open = (one: number | null) => (one === null ? null : expect.closeTo(one, 6));
      return {
        quantity,
        value: open(value),
        unit: 'dB',
        low: open(low),
        high: open(high),
        uncertainty: open(uncertainty),
      };
    };
    expect(advice.predicts).toEqual([
      promised('separation-left-to-right', over(upright.leftIntoRight, t), 2e-4),
      promised('separation-right-to-left', over(upright.rightIntoLeft, -t), 3e-4),
    ]);
    expect(moves([advice])).toEqual([
      `tilt ${way}-from-front 1 deg: turn-way turn-sides turn-shim turn-tube turn-benefit ${
        equalSeparationsHideTilt(upright, DEG) ? 'alike-and-tilted ' : ''
      }set-for-equal left-assumed-turn / caution-headshell`,
    ]);
    expect(advice).toMatchObject({ uncertainty: expect.closeTo(0.1, 9), expectedGainDb: 3, harmProbability: 0.01 });
  });

  it('wiring, tilt, speed, hum and tracking, in that order', () => {
    const hum: Finding = { ...finding('hum', 20, 1), unit: 'dB' };
    const all = [
      hum,
      finding('speed-error', 2, 0.1),
      tilt,
      finding('channel-order', 'swapped', null),
      finding('polarity', 'antiphase', null),
    ];
    expect(adviseSide(all, ground).map(({ action }) => action)).toEqual([
      'reverse-one-channel',
      'swap-channels',
      'tilt',
      'speed',
      'hum',
    ]);
    expect(adviseSide([], ground)).toEqual([]);
    for (const [quantity, value, code] of [
      ['polarity', 'antiphase', 'one-channel-reversed-move'],
      ['channel-order', 'swapped', 'channels-swapped-move'],
    ]) {
      const [advice] = adviseSide([finding(quantity, value, null)], null);
      expect(advice).toMatchObject({ amount: null, unit: '', direction: null, predicts: [] });
      expect(moves([advice])[0]).toContain(`: ${code} / caution-wiring`);
    }
  });

  it('a speed in words, or without a verdict that asks for it, moves nothing', () => {
    expect(adviseSide([finding('speed-error', 'unknown', null)], null)).toEqual([]);
    expect(adviseSide([finding('speed-error', 0.2, 0.05)], null)).toEqual([]);
    const [advice] = adviseSide([finding('speed-error', 2, 0.1)], null);
    expect(advice).toMatchObject({ unit: '%', uncertainty: 0.1, cautions: [{ code: 'caution-speed' }] });
    // bad asks for it as adjust does
    expect(adviseSide([finding('speed-error', 5, 0.1)], null)).toHaveLength(1);
    expect(adviseSide([finding('speed-error', 0.5, 0.1)], null)).toHaveLength(1);
  });

  it('a tilt without a number is turned by what it is worth, as one of 0', () => {
    const [advice] = adviseSide([{ ...tilt, value: 'unknown' }], ground);
    expect(advice.amount).toBeCloseTo(1, 9);
    expect(advice.reasons?.map(({ code }) => code)).not.toContain('turn-part');
  });

  it('words of its case carry their figures', () => {
    const part = adviseSide([{ ...tilt, value: -2 }], { ...ground, worth: { ...worth, turn: -DEG } })[0];
    const said = part.reasons!.map((one) => told(one));
    expect(said).toContain('turn-part heard=-2');
    expect(said).toContain('turn-benefit gain=3 harm=1');
    const known = adviseSide([tilt, finding('channel-order', 'normal', null)], ground)[0];
    expect(known.reasons!.map(({ code }) => code)).not.toContain('left-assumed-turn');
  });
});

it('the ground of a tilt’s advice, whole: the record’s own taken off, each part’s noise as its square', () => {
  const known = {
    ...record,
    leaks: { leftIntoRight: { re: 0.002, im: 0.001 }, rightIntoLeft: { re: -0.003, im: 0.004 } },
  };
  const spread = { leftIntoRight: { re: 3e-4, im: 4e-4 }, rightIntoLeft: { re: 5e-4, im: 1.2e-3 } };
  for (const setByMirror of [true, false]) {
    const of = { ...known, chain: { ...known.chain, setByMirror } };
    const leaks = {
      leftIntoRight: { re: expect.closeTo(0.013, 12), im: expect.closeTo(0.009, 12) },
      rightIntoLeft: { re: expect.closeTo(0.018, 12), im: expect.closeTo(-0.014, 12) },
    };
    const plain = {
      leftIntoRight: { re: 0.015 - 0.002, im: 0.01 - 0.001 },
      rightIntoLeft: { re: 0.015 + 0.003, im: -0.01 - 0.004 },
    };
    const noise = { leftIntoRight: { re: 9e-8, im: 16e-8 }, rightIntoLeft: { re: 25e-8, im: 144e-8 } };
    const worthOf = turnWorth(plain, { ...of.leakDoubt, noise }, usualBody(setByMirror));
    expect(tiltGround({ ...upright, spread, tilt: 0, tiltSpread: 0 }, of)).toEqual({
      leaks,
      record: of,
      worth: {
        ...worthOf,
        turn: expect.closeTo(worthOf.turn, 9),
        tilt: expect.closeTo(worthOf.tilt, 9),
        tiltSpread: expect.closeTo(worthOf.tiltSpread, 9),
        expectedGainDb: expect.closeTo(worthOf.expectedGainDb, 6),
        gainIfKnownDb: expect.closeTo(worthOf.gainIfKnownDb, 6),
      },
      noise: {
        leftIntoRight: expect.closeTo(5e-4 / Math.SQRT2, 12),
        rightIntoLeft: expect.closeTo(1.3e-3 / Math.SQRT2, 12),
      },
    });
  }
});

describe('separations of two leaks', () => {
  it('in dB, 120 at most', () => {
    expect(separationDb({ re: 0.06, im: -0.08 })).toBeCloseTo(20, 9);
    expect(separationDb({ re: 0, im: 0 })).toBe(120);
    expect(separationDb({ re: 1.1e-6, im: 0 })).toBeCloseTo(119.17, 2);
    expect(separationsOf({ leftIntoRight: { re: 0.1, im: 0 }, rightIntoLeft: { re: 0, im: 0.01 } })).toEqual({
      leftToRight: expect.closeTo(20, 9),
      rightToLeft: expect.closeTo(40, 9),
    });
  });

  it('alike within a decibel and yet tilted by more than is worth a turn, either way', () => {
    const pure = (t: number, more = 1) => ({
      leftIntoRight: { re: -t * more, im: 0 },
      rightIntoLeft: { re: t, im: 0 },
    });
    for (const sign of [1, -1]) {
      for (const limit of [0.019, -0.019]) expect(equalSeparationsHideTilt(pure(0.02 * sign), limit)).toBe(true);
      for (const limit of [0.021, -0.021]) expect(equalSeparationsHideTilt(pure(0.02 * sign), limit)).toBe(false);
      expect(equalSeparationsHideTilt(pure(0.05 * sign, 10 ** (0.9 / 20)), 0.02)).toBe(true);
      expect(equalSeparationsHideTilt(pure(0.05 * sign, 10 ** (-0.9 / 20)), 0.02)).toBe(true);
      expect(equalSeparationsHideTilt(pure(0.05 * sign, 10 ** (1.1 / 20)), 0.02)).toBe(false);
      expect(equalSeparationsHideTilt(pure(0.05 * sign, 10 ** (-1.1 / 20)), 0.02)).toBe(false);
    }
  });
});
