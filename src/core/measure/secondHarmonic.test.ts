import { describe, expect, it } from 'vitest';
import { type Complex, magnitude, over, plus, scaled, times } from '../units/complex.ts';
import { type MadeTone, madeCut, madeSide, madeTone } from './handMade.fixture.ts';
import { playbackResponse } from './playbackEqualisation.ts';
import { secondHarmonics } from './secondHarmonic.ts';
import type { ComplexLeaks } from './tilt.ts';
import { grooveSpeed } from './twoTones.ts';
import type { Polarity } from './wiring.ts';

const LEAKS: ComplexLeaks = { leftIntoRight: { re: 0.05, im: 0.03 }, rightIntoLeft: { re: -0.02, im: 0.04 } };
const NONE: ComplexLeaks = { leftIntoRight: { re: 0, im: 0 }, rightIntoLeft: { re: 0, im: 0 } };
const [L, R]: [Complex, Complex] = [
  { re: 0.012, im: -0.004 },
  { re: 0.003, im: 0.02 },
];
const polarity = (inverted = false): Polarity => ({ inverted, bands: [], unsure: false, note: null });
const unitary = (h: Complex): Complex => scaled(times(h, h), 1 / magnitude(h));

/** A tone whose channels hold these second harmonics of both walls, by the chain's formulas. */
function heard(
  { vertical = false, inverted = false, leaks = NONE, flat = true, hz = 1000, q = [L, R] as const } = {},
  more: MadeTone = {},
) {
  const s = vertical ? -1 : 1;
  const { leftIntoRight: intoRight, rightIntoLeft: intoLeft } = leaks;
  const [hL, hR] = [plus({ re: 1, im: 0 }, scaled(intoLeft, s)), plus({ re: s, im: 0 }, intoRight)];
  const own = [
    over(plus(q[0], times(intoLeft, q[1])), unitary(hL)),
    over(plus(q[1], times(intoRight, q[0])), unitary(hR)),
  ];
  const chain = flat ? { re: 1, im: 0 } : over(playbackResponse(2 * hz), unitary(playbackResponse(hz)));
  const phasors = [times(own[0], chain), scaled(times(own[1], chain), inverted ? -1 : 1)];
  return madeTone({
    cut: madeCut({ motion: vertical ? 'vertical' : 'lateral', radiusMm: 100, peakVelocityCmS: 5 }),
    harmonics: (['left', 'right'] as const).map((channel, i) => ({
      channel,
      orders: [
        { order: 3, ratio: 9, spread: 9, phasor: { re: 9, im: 9 } },
        { order: 2, ratio: 0, spread: i === 0 ? 3e-4 : 4e-4, phasor: phasors[i] },
      ],
    })),
    ...more,
    band: { index: 3, frequencyHz: hz },
  });
}
const read = (
  tone: ReturnType<typeof heard>,
  { inverted = false, leaks = null as ComplexLeaks | null, flat = true } = {},
) => secondHarmonics(madeSide({ tones: [tone] }), polarity(inverted), leaks, flat);
const near = ({ re, im }: Complex) => ({ re: expect.closeTo(re, 10), im: expect.closeTo(im, 10) });
const [SUM, DIFFERENCE] = [scaled(plus(L, R), 0.5), scaled(plus(L, scaled(R, -1)), 0.5)];
const BOTH = { sum: near(SUM), difference: near(DIFFERENCE) };
/** Of the noise, and 0.02 rad of what stands beside. */
const spread = (noise: number): number => Math.hypot(noise, 1e-5, 0.02 * (magnitude(SUM) + magnitude(DIFFERENCE)));

describe('half the sum and half the difference of both channels', () => {
  it('with velocity, frequency and groove speed of the tone', () => {
    const tone = heard();
    expect(read(tone)).toEqual([
      {
        tone,
        vertical: false,
        ...BOTH,
        spread: expect.closeTo(spread(2.5e-4), 10),
        velocity: 5,
        omega: 2 * Math.PI * 1000,
        speed: grooveSpeed(100 / 3, 100),
        radiusMm: 100,
      },
    ]);
  });

  it.each([
    ['leaks undone, lateral', { leaks: LEAKS }],
    ['leaks undone, vertical', { leaks: LEAKS, vertical: true }],
    ['a reversed channel turned back', { inverted: true }],
    ['reversed and leaking', { inverted: true, leaks: LEAKS, vertical: true }],
    ['the equalisation undone', { flat: false }],
  ])('%s', (_, chain) => {
    const [one] = read(heard(chain), chain);
    expect(one).toMatchObject({ ...BOTH, vertical: 'vertical' in chain && chain.vertical === true });
  });

  it('leaks that nobody knows stay in', () => {
    const [one] = read(heard({ leaks: LEAKS }));
    expect(magnitude(plus(one.sum, scaled(SUM, -1)))).toBeGreaterThan(1e-4);
  });

  it('the noise is amplified as the equalisation takes the harmonic down; it is never less than 1e-5', () => {
    const gain = magnitude(playbackResponse(1000)) / magnitude(playbackResponse(2000));
    expect(read(heard({ flat: false }), { flat: false })[0].spread).toBeCloseTo(spread(gain * 2.5e-4), 9);
    const silent = heard({ q: [scaled(L, 0), scaled(R, 0)] });
    const harmonics = silent.reading.harmonics!.map((of) => ({
      ...of,
      orders: of.orders.map((order) => ({ ...order, spread: 0 })),
    }));
    expect(read({ ...silent, reading: { ...silent.reading, harmonics } })[0].spread).toBeCloseTo(1e-5, 12);
  });

  it('a certificate’s correction of the level counts', () => {
    const cut = madeCut({ radiusMm: 100, peakVelocityCmS: 5, levelCorrectionDb: -3 });
    expect(read(heard({}, { cut }))[0].velocity).toBeCloseTo(5 * 10 ** (-3 / 20), 12);
  });
});

describe('is read', () => {
  const count = (tone: ReturnType<typeof heard>) => read(tone).length;

  it('up to 3 kHz, of tones that drive both walls', () => {
    expect([count(heard({ hz: 3000 })), count(heard({ hz: 3001 }))]).toEqual([1, 0]);
    expect(count(heard({}, { driven: 'left' }))).toBe(0);
    const uncut = heard({}, { cut: null });
    expect(count(uncut)).toBe(0);
  });

  it('with radius and velocity, and the second order of both channels', () => {
    expect(count(heard({}, { cut: madeCut({ radiusMm: 100 }) }))).toBe(0);
    expect(count(heard({}, { cut: madeCut({ peakVelocityCmS: 5 }) }))).toBe(0);
    expect(count(heard({}, { harmonics: undefined }))).toBe(0);
    for (const channel of ['left', 'right']) {
      const tone = heard();
      const without = tone.reading.harmonics!.map((of) =>
        of.channel === channel ? { ...of, orders: of.orders.slice(0, 1) } : of,
      );
      expect(count({ ...tone, reading: { ...tone.reading, harmonics: without } })).toBe(0);
      const one = tone.reading.harmonics!.filter((of) => of.channel === channel);
      expect(count({ ...tone, reading: { ...tone.reading, harmonics: one } })).toBe(0);
    }
  });
});
