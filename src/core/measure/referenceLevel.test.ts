import { describe, expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { type MadeTone, madeCut, madeSide, madeTone } from './handMade.fixture.ts';
import { playbackGain } from './playbackEqualisation.ts';
import { referenceFigures } from './referenceFigures.ts';
import { heardIn, referenceLevel } from './referenceLevel.ts';

type Motion = 'left' | 'right' | 'lateral' | 'vertical';
const tone = (index: number, motion: Motion, hz: number, level: number, cmS: number | undefined, more: MadeTone = {}) =>
  madeTone({
    cut: madeCut({ motion, ...(cmS === undefined ? {} : { peakVelocityCmS: cmS }) }),
    segments: [{ logLevel: { value: Math.log(level), variance: 1e-6 } }],
    ...more,
    band: { index, motion, frequencyHz: hz },
  });
const of = (tones: ReturnType<typeof tone>[], flat = false) => referenceLevel(madeSide({ tones }), flat);

describe('what 5 cm/s along one wall makes', () => {
  it('of one wall: the level by its velocity, the equalisation taken off', () => {
    expect(of([tone(2, 'left', 1000, 0.2, 8)])).toEqual({
      left: { amplitude: expect.closeTo((0.2 * 5) / 8, 12), bands: [2], hz: 1000 },
      right: null,
    });
    expect(of([tone(2, 'right', 400, 0.2, 8)])).toEqual({
      left: null,
      right: { amplitude: expect.closeTo((0.2 * 5) / 8 / playbackGain(400), 12), bands: [2], hz: 400 },
    });
    expect(of([tone(2, 'right', 400, 0.2, 8)], true).right?.amplitude).toBeCloseTo((0.2 * 5) / 8, 12);
  });

  it('of both walls: each has 1/√2 of the velocity, and its own share of the level', () => {
    const ratio = { re: 0.9, im: 1.2 };
    const one = tone(1, 'lateral', 1000, 0.2, 8, {
      segments: [{ logLevel: { value: Math.log(0.2) }, ratio }],
    });
    // the mean of both is 0.2, left 1.5 times as large as right: 0.24 and 0.16
    const { left, right } = of([one]);
    expect(left?.amplitude).toBeCloseTo((0.24 * 5 * Math.SQRT2) / 8, 12);
    expect(right?.amplitude).toBeCloseTo((0.16 * 5 * Math.SQRT2) / 8, 12);
  });

  it('a certificate’s correction of the level counts', () => {
    const one = tone(1, 'left', 1000, 0.2, 8);
    const corrected = { ...one, cut: { ...one.cut!, levelCorrectionDb: 6 } };
    expect(of([corrected]).left?.amplitude).toBeCloseTo((0.2 * 5) / 8 / 10 ** (6 / 20), 12);
  });

  it('a tone without a stated velocity, or in the other wall, says nothing', () => {
    expect(of([tone(1, 'left', 1000, 0.2, undefined)])).toEqual({ left: null, right: null });
    expect(of([])).toEqual({ left: null, right: null });
    const uncut = madeTone({ band: { motion: 'left' } });
    expect(heardIn(uncut, 'left', false)).toBeNull();
    expect(heardIn(tone(1, 'left', 1000, 0.2, 8), 'right', false)).toBeNull();
    expect(heardIn(tone(1, 'left', 1000, 0.2, 8), 'left', false)?.oneSided).toBe(true);
    expect(heardIn(tone(1, 'lateral', 1000, 0.2, 8), 'left', false)?.oneSided).toBe(false);
  });

  it('is the mean of the tones nearest to 1 kHz, in neper', () => {
    const tones = [
      tone(3, 'left', 1000, 0.4, 5),
      tone(1, 'left', 1079, 0.1, 5),
      tone(0, 'left', 1081, 9, 5),
      tone(2, 'left', 300, 9, 5),
    ];
    expect(of(tones, true).left).toEqual({ amplitude: expect.closeTo(0.2, 12), bands: [1, 3], hz: 1000 });
  });

  it('one wall is taken for surer than two, unless it is a tenth of a neper further from 1 kHz', () => {
    const both = tone(0, 'lateral', 1000, 0.3, 5);
    expect(of([both, tone(1, 'left', 1100, 0.2, 5)]).left?.bands).toEqual([1]);
    expect(of([both, tone(1, 'left', 1110, 0.2, 5)]).left?.bands).toEqual([0]);
    expect(of([both, tone(1, 'left', 910, 0.2, 5)]).left?.bands).toEqual([1]);
    expect(of([both, tone(1, 'left', 900, 0.2, 5)]).left?.bands).toEqual([0]);
  });
});

it('as figures: dB under full scale, with what the levels themselves are unsure by', () => {
  const tones = [
    tone(1, 'left', 1000, 0.1, 5, { segments: [{ logLevel: { value: Math.log(0.1), variance: 9e-6 } }] }),
    tone(4, 'left', 1010, 0.1, 5, { segments: [{ logLevel: { value: Math.log(0.1), variance: 16e-6 } }] }),
    tone(2, 'left', 300, 0.1, 5),
  ];
  expect(referenceFigures(madeSide({ tones }), true).findings).toEqual([
    {
      quantity: 'reference-level',
      value: expect.closeTo(-20, 9),
      unit: 'dBFS',
      // √(9 + 16) · 10⁻³ neper over two tones, k = 2
      uncertainty: expect.closeTo((2 * (20 / Math.LN10) * 5e-3) / 2, 12),
      bands: [1, 4],
      channel: 'left',
      notes: [statement('reference-as', { hz: 1000 })],
    },
  ]);
  const right = referenceFigures(madeSide({ tones: [tone(0, 'right', 1000, 1, 5)] }), true).findings;
  expect(right.map(({ channel, value }) => [channel, value])).toEqual([['right', 0]]);
  expect(referenceFigures(madeSide(), true)).toEqual({ findings: [], problems: [] });
});
