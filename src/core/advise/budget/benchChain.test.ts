import { describe, expect, it } from 'vitest';
import { statement } from '../../words/statement.ts';
import { assumedOf } from './assumedOf.ts';
import { chainOf, speedWithStrobe } from './bench.ts';
import { ASSUMED } from './defaults.ts';
import { recordError } from './recordError.ts';

describe('what a bench knows of its chain', () => {
  it('nothing: the table of defaults', () => {
    expect(chainOf()).toEqual({
      strobe: null,
      strobeUp: null,
      drive: {},
      fullScaleV: null,
      zeroVuDbfs: null,
      contactWidth: null,
      equalisation: { of: statement('equalisation'), size: 0.2 },
      clock: { of: statement('converter-clock'), size: 0.005 },
      setByMirror: false,
    });
    expect(chainOf({})).toEqual(chainOf());
  });

  it('all of it', () => {
    const drive = { pulleyMm: 15 };
    const fullScaleV = { left: 2, right: null };
    expect(
      chainOf({
        strobe: { percent: -0.1, uncertainty: 0.02 },
        strobeUp: { percent: 0.3, uncertainty: 0.04 },
        drive,
        contactWidth: { um: 30, uncertainty: 3 },
        fullScaleV,
        zeroVuDbfs: -18,
        equalisationDb: 0.5,
        clockPercent: 0.01,
        setByMirror: true,
      }),
    ).toEqual({
      strobe: { of: statement('strobe-reading'), size: 0.02, percent: -0.1 },
      strobeUp: { of: statement('strobe-reading'), size: 0.04, percent: 0.3 },
      drive,
      fullScaleV,
      zeroVuDbfs: -18,
      contactWidth: { um: 30, size: 3 },
      equalisation: { of: statement('equalisation'), size: 0.5 },
      clock: { of: statement('converter-clock'), size: 0.01 },
      setByMirror: true,
    });
    // without a ± of their own: a strobe as the table has it, a width to a fifth
    expect(chainOf({ strobe: { percent: 0 }, contactWidth: { um: 30 } })).toMatchObject({
      strobe: { size: 0.1 },
      contactWidth: { um: 30, size: 6 },
    });
    expect(chainOf({ equalisationDb: 0, clockPercent: 0, zeroVuDbfs: 0 })).toMatchObject({
      equalisation: { size: 0 },
      clock: { size: 0 },
      zeroVuDbfs: 0,
    });
  });
});

describe('the speed as heard and as read', () => {
  const doubts = [
    { of: statement('signal'), size: 0.03 },
    { of: statement('cut-speed'), size: 0.04 },
  ];

  it('by the tone alone where nobody read it', () => {
    expect(speedWithStrobe(0.2, doubts, chainOf())).toEqual({ percent: 0.2, doubts, apart: null });
  });

  it.each([0.3, 0.1])('each by 1/U²: heard 0.2 ± 0.05, read %d ± 0.1', (percent) => {
    const chain = chainOf({ strobe: { percent, uncertainty: 0.1 } });
    const share = 0.05 ** 2 / (0.05 ** 2 + 0.1 ** 2);
    expect(speedWithStrobe(0.2, doubts, chain)).toEqual({
      percent: expect.closeTo(0.2 + share * (percent - 0.2), 12),
      doubts: [
        { of: statement('strobe-reading'), size: expect.closeTo(share * 0.1, 12) },
        { of: doubts[0].of, size: expect.closeTo((1 - share) * 0.03, 12) },
        { of: doubts[1].of, size: expect.closeTo((1 - share) * 0.04, 12) },
      ],
      apart: null,
    });
  });

  it('further apart than three standard uncertainties is told, either way', () => {
    const apart = (by: number) =>
      speedWithStrobe(0, doubts, chainOf({ strobe: { percent: by, uncertainty: 0.12 } })).apart;
    // √(0.05² + 0.12²) = 0.13, and half as much again
    for (const sign of [1, -1]) {
      expect(apart(0.196 * sign)).toBe(0.196 * sign);
      expect(apart(0.194 * sign)).toBeNull();
    }
  });

  it('a reading beside a tone of no doubt at all is believed, where it has none either', () => {
    expect(speedWithStrobe(0.2, [], chainOf({ strobe: { percent: 0.3, uncertainty: 0 } })).percent).toBeCloseTo(
      0.3,
      12,
    );
    expect(speedWithStrobe(0.2, [], chainOf({ strobe: { percent: 0.3, uncertainty: 0.1 } })).percent).toBeCloseTo(
      0.2,
      12,
    );
  });
});

it('what once per turn takes for granted is the table’s, but for what is known', () => {
  const record = recordError({ radiusUncertaintyMm: 0.2, warpMm: 0.1, speedUncertaintyPercent: 0.05 }, null, {
    equalisationDb: 0.4,
  });
  expect(assumedOf(record)).toEqual({
    ...ASSUMED,
    radius: { of: statement('band-radius'), size: 0.2 },
    warp: { of: statement('warp'), size: expect.closeTo(0.005, 12) },
    equalisation: { of: statement('equalisation'), size: 0.4 },
    cutSpeed: { percent: 0, size: Math.hypot(0.05, 0.012) },
    agreement: { frequency: 0.002, levelDb: 1.5, resonances: 1.25 },
    arm: {
      usual: { spindleToPivot: 222, effectiveLength: 239.3 },
      others: [
        { spindleToPivot: 200, effectiveLength: 218.5 },
        { spindleToPivot: 290, effectiveLength: 303.4 },
      ],
    },
  });
});
