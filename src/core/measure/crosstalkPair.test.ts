import { describe, expect, it } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import { statement } from '../words/statement.ts';
import { combineComplex } from './combine.ts';
import { crosstalkOf } from './crosstalk.ts';
import { type CrosstalkPair, findCrosstalkPair } from './crosstalkPair.ts';
import type { SideReadings } from './sideReadings.ts';
import { type HandMade, sheetOf, sideOf, toneOf } from './toneBands.fixture.ts';
import { ratioOf } from './toneLevels.ts';

const polarity = { inverted: false, bands: [], unsure: false, note: null };
const tone = (driven: HandMade['driven'], hz: number, more: Partial<HandMade> = {}) =>
  toneOf({ hz, driven, ratio: driven === 'both' ? [1, 0] : [0.03, 0.005], ...more });
const pairOf = (side: SideReadings, of = polarity): CrosstalkPair => {
  const pair = findCrosstalkPair(side, of);
  if (!pair.found) throw new Error(pair.why.code);
  return pair;
};
const whyOf = (side: SideReadings) => {
  const pair = findCrosstalkPair(side, polarity);
  return pair.found ? null : pair.why;
};
const at = (index: number) => ({ band: { index } });
const indices = (tones: CrosstalkPair['left']): number[] => tones.map((t) => t.band.index);

describe('the tones that crosstalk is read from', () => {
  it('are those nearest to 1 kHz of which both walls play one, and every other of that frequency', () => {
    const tones = [
      tone('left', 1000, at(0)),
      tone('left', 3150, at(1)),
      tone('left', 400, at(2)),
      tone('right', 3150, at(3)),
      tone('right', 405, at(4)),
      tone('right', 398, at(5)),
      tone('left', 410, at(6)),
      tone('both', 401, at(7)),
      tone('both', 1000, at(8)),
      tone('both', 401, { ...at(9), ratio: [-1, 0] }),
    ];
    for (const order of [tones, [...tones].reverse()]) {
      const pair = pairOf(sideOf(order));
      expect(indices(pair.left).sort()).toEqual([2, 6]);
      expect(indices(pair.right).sort()).toEqual([4, 5]);
      expect(indices(pair.both)).toEqual([7]);
    }
    const vertical = pairOf(sideOf(tones.filter(({ band }) => band.index !== 7)));
    expect(indices(vertical.both)).toEqual([9]);
    expect(vertical.crosstalk.phase).toBeCloseTo(0, 1);
  });

  it('or say which is missing', () => {
    expect(whyOf(sideOf([tone('both', 1000)]))).toEqual(statement('no-one-sided-tones'));
    expect(whyOf(sideOf([tone('left', 1000)]))).toEqual(statement('no-one-sided-tone', { side: 'right' }));
    expect(whyOf(sideOf([tone('right', 1000)]))).toEqual(statement('no-one-sided-tone', { side: 'left' }));
    expect(whyOf(sideOf([tone('left', 1000), tone('right', 1090)]))).toEqual(statement('one-sided-tones-differ'));
    expect(whyOf(sideOf([tone('left', 1000), tone('right', 1079)]))).toBeNull();
    const loud = { ratio: [0.9, 0] } as const;
    expect(whyOf(sideOf([tone('left', 1000, loud), tone('right', 1000)]))).toEqual(statement('leak-as-loud'));
  });

  it('their readings are put together with what is cut and played taken off', () => {
    const cut = (peakVelocityCmS: number, levelCorrectionDb?: number): SheetBand => ({
      signal: 'tone',
      motion: 'left',
      peakVelocityCmS,
      levelCorrectionDb,
    });
    const tones = [
      tone('left', 1010, { logLevel: -1.8, levelVariance: 1e-6, levelFreedom: 9, cut: cut(8, 0.3) }),
      tone('left', 1010, { logLevel: -1.81, levelVariance: 2e-6, levelFreedom: 5, ratio: [0.031, 0], cut: cut(8) }),
      tone('right', 1010, { logLevel: -2.2, levelVariance: 4e-6, levelFreedom: 8, ratio: [0.05, -0.01], cut: cut(5) }),
      tone('both', 1010, { ratio: [1.05, 0.02] }),
    ];
    const side = sideOf(tones, { sheet: sheetOf([], { cut: { tiltDeg: 0.3 } }) });
    const db = Math.LN10 / 20;
    const lefts = [-1.8 - Math.log(8) - 0.3 * db, -1.81 - Math.log(8)];
    // two thirds and one third by their variances; what they scatter by counts
    const left = (2 * lefts[0] + lefts[1]) / 3;
    const chi2 = (lefts[0] - left) ** 2 / 1e-6 + (lefts[1] - left) ** 2 / 2e-6;
    const variance = (1 / (1 / 1e-6 + 1 / 2e-6)) * Math.max(1, chi2);
    const expected = crosstalkOf({
      leftBand: combineComplex(tones.slice(0, 2).map(ratioOf)),
      rightBand: ratioOf(tones[2]),
      levelDifference: {
        value: left - (-2.2 - Math.log(5)),
        variance: variance + 4e-6,
        degreesOfFreedom: chi2 > 4 ? 1 : 8,
      },
      both: ratioOf(tones[3]),
      bothVertical: false,
      inverted: false,
      cutTilt: (0.3 * Math.PI) / 180,
      offTone: Math.log(1.01) ** 2 / 32,
    });
    if (!expected.found) throw new Error('not found');
    const { crosstalk } = pairOf(side);
    for (const [of, by] of [
      [crosstalk.tilt, expected.tilt],
      [crosstalk.gain, expected.gain],
      [crosstalk.leftIntoRight, expected.leftIntoRight],
      [crosstalk.rightIntoLeft, expected.rightIntoLeft],
    ]) {
      expect(of.value).toBeCloseTo(by.value, 12);
      expect(of.spread).toBeCloseTo(by.spread, 12);
      expect(of.own).toBeCloseTo(by.own, 12);
      expect(of.k).toBeCloseTo(by.k, 9);
    }
  });

  it('stated velocities count only where all of them are stated', () => {
    const cut: SheetBand = { signal: 'tone', motion: 'left', peakVelocityCmS: 8 };
    const gain = (tones: Parameters<typeof sideOf>[0]) => pairOf(sideOf(tones)).crosstalk.gain.value;
    expect(gain([tone('left', 1000, { cut }), tone('right', 1000)])).toBeCloseTo(0, 12);
    expect(gain([tone('left', 1000), tone('right', 1000, { cut })])).toBeCloseTo(0, 12);
    expect(
      gain([tone('left', 1000, { cut }), tone('right', 1000, { cut: { ...cut, peakVelocityCmS: 4 } })]),
    ).toBeCloseTo(-Math.LN2, 12);
  });

  it('a tone off 1 kHz is less sure, one far off says where it was read instead', () => {
    const spread = (hz: number): number => {
      const { leakSpread, leaks } = pairOf(
        sideOf([tone('left', hz, { variance: 1e-20 }), tone('right', hz, { variance: 1e-20 })]),
      ).crosstalk;
      return leakSpread.leftIntoRight.re / leaks.leftIntoRight.re;
    };
    const least = spread(1000);
    const share = Math.log(1.07) / Math.sqrt(32);
    expect(spread(1070)).toBeCloseTo(Math.hypot(least, (share * Math.hypot(0.03, 0.0025)) / 0.03), 5);
    expect(spread(1070)).toBeGreaterThan(1.5 * least);
    expect(spread(315)).toBeCloseTo(least, 6);
  });
});

describe('what stands beside every figure of the pair', () => {
  const notes = (tones: Parameters<typeof sideOf>[0], of = polarity, more: Partial<SideReadings> = {}) =>
    pairOf(sideOf(tones, more), of).notes;
  const two = (hz: number) => [tone('left', hz), tone('right', hz)];
  const turned = (phase: number, size = 1): Partial<HandMade> => ({
    ratio: [size * Math.cos(phase), size * Math.sin(phase)],
    variance: 1e-12,
  });
  const dry = (hz: number) => [tone('left', hz, { ratio: [0.01, 0] }), tone('right', hz, { ratio: [0.01, 0] })];

  it('nothing where a lateral tone at 1 kHz agrees with the levels', () => {
    expect(notes([...dry(1000), tone('both', 1000)])).toEqual([]);
  });
  it('the frequency beyond 8 % of 1 kHz, and that the phase is assumed without a two-walled tone', () => {
    expect(notes(two(1075))).toEqual([statement('phase-assumed')]);
    expect(notes(two(1085))).toEqual([statement('pair-read-at', { hz: 1085 }), statement('phase-assumed')]);
  });
  it.each([1, -1])('a phase of more than a microsecond, a reversed channel’s half turn left out (sign %i)', (sign) => {
    const at2us = sign * 2e-6 * 2 * Math.PI * 1000;
    for (const half of [0, Math.PI]) {
      const lateral = tone('both', 1000, { ...turned(at2us + half), cut: { signal: 'tone', motion: 'lateral' } });
      // with leaks of 1 % alike in phase, q turns by (1 − c²)/(1 + c² ± 2c cos φ) of ρ
      const [note, ...more] = notes([
        tone('left', 1000, { ratio: [1e-5, 0] }),
        tone('right', 1000, { ratio: [1e-5, 0] }),
        lateral,
      ]);
      expect(more).toEqual([]);
      expect(note.code).toBe('phase-removed');
      expect(note.values.us).toBeCloseTo(2, 2);
      expect(note.values.degrees).toBeCloseTo(0.72, 2);
    }
    const small = tone('both', 1000, turned(sign * 0.9e-6 * 2 * Math.PI * 1000));
    expect(notes([...dry(1000), small])).toEqual([]);
  });
  it('how far levels and lateral band lie apart, and which is believed', () => {
    const apart = (db: number) =>
      notes([
        tone('left', 1000, { ratio: [0.01, 0], logLevel: -2 + (db * Math.LN10) / 20 }),
        tone('right', 1000, { ratio: [0.01, 0] }),
        tone('both', 1000),
      ]);
    const [little] = apart(-0.1);
    expect(little.code).toBe('gains-by-levels');
    expect(little.values.apartDb).toBeCloseTo(0.1, 9);
    const [much] = apart(0.5);
    expect(much.code).toBe('gains-by-lateral');
    expect(much.values.apartDb).toBeCloseTo(0.5, 9);
  });
  it('a reversal and a swap that were undone', () => {
    expect(notes(two(1000), { ...polarity, inverted: true })).toEqual([
      statement('phase-assumed'),
      statement('reversal-undone'),
    ]);
    expect(notes(two(1000), polarity, { order: 'swapped' })).toEqual([
      statement('phase-assumed'),
      statement('swap-undone'),
    ]);
  });
});
