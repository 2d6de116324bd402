import { describe, expect, it } from 'vitest';
import { coverageFactor } from '../signal/robust.ts';
import { armPhase } from './armPhase.ts';
import { assumedInTests } from './assumed.fixture.ts';
import { holeOfSide, ofOtherArms, type SideHole, turnPhasor, turnsAtStart } from './hole.ts';
import { holeBreak } from './holeBreak.ts';
import { fitHole, type HoleFit } from './holeFit.ts';
import { fitRotation } from './rotation.ts';
import type { SideReadings } from './sideReadings.ts';
import type { ThinTrace } from './thinTrace.ts';
import { type HandMade, segmentOf, sideOf, toneOf } from './toneBands.fixture.ts';

const ROTATION = 5 / 9;
/** Once per turn of so much, with a wobble that is none, from a moment on. */
function traceOf(startS: number, lengthS: number, peak: number, phase: number): ThinTrace {
  const deviation = Float64Array.from({ length: Math.round(20 * lengthS) }, (_, n) => {
    const t = startS + n / 20;
    return peak * Math.cos(2 * Math.PI * ROTATION * t + phase) + 1e-5 * Math.sin(7.3 * t + 0.1 * n * Math.sin(n));
  });
  return { rateHz: 20, startS, meanHz: 3150, deviation, groupS: 0.05 };
}
function tone(index: number, radiusMm: number | null, traces: readonly ThinTrace[], more: Partial<HandMade> = {}) {
  const made = { hz: 3150, driven: 'both', ...more } as const;
  return toneOf({
    ...made,
    segments: traces.map((trace) => segmentOf(made, { trace })),
    band: { index, radiusMm, startS: traces[0]?.startS ?? 0, sheetBand: index + 1 },
  });
}
const speed = { value: 0, variance: 4e-8, degreesOfFreedom: 20 };
const hole = (side: SideReadings): SideHole => {
  const of = holeOfSide(side, ROTATION, speed);
  if (of === null) throw new Error('no hole');
  return of;
};

describe('a tone’s once-per-turn phasor', () => {
  it('is its segments’ together, the surer ones for more', () => {
    const traces = [traceOf(1, 12, 1e-3, 0.4), traceOf(30, 20, 1.02e-3, 0.38)];
    const [a, b] = traces.map((trace) => {
      const fit = fitRotation(trace, ROTATION);
      if (fit === null) throw new Error('too short');
      return fit;
    });
    const one = tone(0, 80, traces);
    const of = turnPhasor(one, ROTATION);
    const sum = 1 / a.variance + 1 / b.variance;
    const mean = (x: number, y: number): number => (x / a.variance + y / b.variance) / sum;
    const weight = 1 / a.turningVariance + 1 / b.turningVariance;
    expect(of).toEqual({
      tone: one,
      re: expect.closeTo(mean(a.re, b.re), 12),
      im: expect.closeTo(mean(a.im, b.im), 12),
      variance: expect.closeTo(1 / sum, 20),
      turning: expect.closeTo((a.turning / a.turningVariance + b.turning / b.turningVariance) / weight, 9),
      turningVariance: expect.closeTo(1 / weight, 12),
      middleS: expect.closeTo(mean(a.middleS, b.middleS), 9),
      degreesOfFreedom: a.degreesOfFreedom + b.degreesOfFreedom,
      turns: expect.closeTo(a.turns + b.turns, 12),
    });
    expect(of?.variance).toBeLessThan(Math.min(a.variance, b.variance));
  });

  it('of segments of two turns or more', () => {
    const turns = (lengthS: number) => turnPhasor(tone(0, 80, [traceOf(0, lengthS, 1e-3, 0)]), ROTATION)?.turns ?? null;
    expect(turns(3.6)).toBeCloseTo(2, 9);
    expect(turns(3.55)).toBeNull();
    expect(turns(2)).toBeNull();
    expect(turnPhasor(tone(0, 80, []), ROTATION)).toBeNull();
  });
});

describe('the hole of a side', () => {
  const tones = [tone(0, 140, [traceOf(5, 20, 1e-3, 0.4)]), tone(1, 80, [traceOf(60, 20, 2e-3, 0.9)])];
  const low = tone(2, 80, [traceOf(60, 20, 9e-3, 0.9)], { hz: 249 });
  const unplaced = tone(3, null, [traceOf(100, 20, 5e-3, 0.9)]);
  const arm = { spindleToPivot: 210, effectiveLength: 228 };
  const phasorsOn = (of: typeof arm | 'tangential', list = tones) =>
    list.map((one) => {
      const phasor = turnPhasor(one, ROTATION);
      const phase = armPhase(of, one.band.radiusMm ?? 100);
      if (phasor === null || phase === null) throw new Error('none');
      return { ...phasor, radiusMm: one.band.radiusMm ?? 100, arm: phase };
    });
  /** k = 2 in the table, standard in a prior; speed and cut both leave the rotation open */
  const priors = {
    hole: 0.4,
    platter: 0.0005,
    rotation: { mean: -0, spread: 2 * Math.PI * ROTATION * Math.hypot(2e-4, 0.001) },
    radius: 0.5,
  };

  it('rests on the tones above 250 Hz whose radius is known, on the arm that played', () => {
    const of = hole(sideOf([...tones, low, unplaced], { arm }));
    const phasors = phasorsOn(arm);
    expect(of).toEqual({
      fit: fitHole(phasors, priors),
      phasors,
      assumed: assumedInTests,
      parted: expect.any(Boolean),
      rotationHz: ROTATION,
      armKnown: true,
      tangential: false,
      radiiKnown: true,
      others: [],
      broken: holeBreak(phasors, priors, fitHole(phasors, priors)),
      k: coverageFactor(phasors.reduce((s, p) => s + p.degreesOfFreedom, 0)),
    });
    expect(hole(sideOf(tones, { arm: 'tangential' }))).toMatchObject({ tangential: true, armKnown: true, others: [] });
    const alone = hole(sideOf([tone(2, 80, [traceOf(60, 20, 9e-3, 0.9)], { hz: 251 })], { arm }));
    expect(alone.phasors).toHaveLength(1);
  });

  it('without any radius on the middle of a side, with the wider doubt', () => {
    const of = hole(sideOf([unplaced], { arm }));
    const phasors = phasorsOn(arm, [unplaced]);
    expect(of.radiiKnown).toBe(false);
    expect(of.phasors).toEqual(phasors);
    expect(of.fit).toEqual(fitHole(phasors, { ...priors, radius: 15 }));
  });

  it('of an arm that nobody described the usual one, and the same on the others', () => {
    const of = hole(sideOf(tones));
    const { usual, others } = assumedInTests.arm;
    expect(of.armKnown).toBe(false);
    expect(of.fit).toEqual(fitHole(phasorsOn(usual as typeof arm), priors));
    expect(of.others).toEqual(others.map((one) => fitHole(phasorsOn(one as typeof arm), priors)));
  });

  it('another arm that does not reach all the bands is left out, and one that reaches none gives no hole', () => {
    const short = { spindleToPivot: 100, effectiveLength: 139 };
    expect(armPhase(short, 140)).not.toBeNull();
    const blunt = { spindleToPivot: 120, effectiveLength: 210 };
    expect([armPhase(blunt, 80), armPhase(blunt, 140) === null]).toEqual([null, false]);
    const assumed = { ...assumedInTests, arm: { usual: arm, others: [blunt, arm] } };
    expect(hole(sideOf(tones, { assumed })).others).toEqual([hole(sideOf(tones, { arm })).fit]);
    expect(holeOfSide(sideOf(tones, { arm: blunt }), ROTATION, speed)?.phasors.map((p) => p.radiusMm)).toEqual([140]);
    expect(holeOfSide(sideOf([tones[1]], { arm: blunt }), ROTATION, speed)).toBeNull();
    expect(holeOfSide(sideOf([]), ROTATION, speed)).toBeNull();
    expect(holeOfSide(sideOf([low]), ROTATION, speed)).toBeNull();
  });

  it('a record cut fast is heard fast: the platter turns by so much slower', () => {
    const assumed = { ...assumedInTests, cutSpeed: { percent: 0.3, size: 0.4 } };
    const of = hole(sideOf(tones, { arm, assumed }));
    const rotation = {
      mean: -2 * Math.PI * ROTATION * 0.003,
      spread: 2 * Math.PI * ROTATION * Math.hypot(2e-4, 0.002),
    };
    const wanted = fitHole(phasorsOn(arm), { ...priors, rotation });
    expect(of.fit.hole.size).toBeCloseTo(wanted.hole.size, 9);
    expect(of.fit.bearing).toBeCloseTo(wanted.bearing, 9);
    expect(of.fit.platter.spread).toBeCloseTo(wanted.platter.spread, 12);
  });

  it('hole and platter are parted where the platter’s part is surer by three tenths than it was held before', () => {
    for (const size of [0.001, 0.01, 0.1, 1]) {
      const assumed = { ...assumedInTests, platter: { ...assumedInTests.platter, size } };
      const of = hole(sideOf(tones, { arm, assumed }));
      expect(of.parted, `${size} %`).toBe(of.fit.platter.spread < (0.7 * size) / 200);
    }
    const one = hole(sideOf([tones[0]], { arm }));
    expect(one.parted).toBe(false);
    const wide = { ...assumedInTests, platter: { ...assumedInTests.platter, size: 10 } };
    expect(hole(sideOf(tones, { arm, assumed: wide })).parted).toBe(true);
  });
});

it('arms of another kind move a figure by a bound that is often reached: √2 of the furthest, either way', () => {
  const of = (size: number) => ({ hole: { size } }) as HoleFit;
  const side = (own: number, ...others: number[]) => ({ fit: of(own), others: others.map(of) }) as unknown as SideHole;
  const figure = (fit: HoleFit): number => fit.hole.size;
  expect(ofOtherArms(side(1, 1.2, 0.7), figure)).toBeCloseTo(0.3 * Math.SQRT2, 12);
  expect(ofOtherArms(side(1, 1.4, 0.7), figure)).toBeCloseTo(0.4 * Math.SQRT2, 12);
  expect(ofOtherArms(side(1), figure)).toBe(0);
});

it('phasors are told from where each band starts, a place on the record', () => {
  const one = tone(4, 80, [traceOf(1, 10, 1e-3, 0)]);
  const at = { ...one, band: { ...one.band, startS: 0.45 } };
  const phasor = { tone: at, re: 3, im: 4, variance: 2, degreesOfFreedom: 9 };
  const side = { rotationHz: ROTATION, phasors: [phasor] } as unknown as SideHole;
  // a quarter of a turn
  expect(turnsAtStart(side)).toEqual([
    {
      band: 4,
      sheetBand: 5,
      frequencyHz: 3150,
      radiusMm: 80,
      re: expect.closeTo(-4, 12),
      im: expect.closeTo(3, 12),
      variance: 2,
      degreesOfFreedom: 9,
      rotationHz: ROTATION,
    },
  ]);
  const third = {
    ...side,
    phasors: [{ ...phasor, tone: { ...at, band: { ...at.band, startS: 0.3 } } }],
  } as unknown as SideHole;
  const [c, s] = [Math.cos(Math.PI / 3), Math.sin(Math.PI / 3)];
  expect(turnsAtStart(third)[0].re).toBeCloseTo(3 * c - 4 * s, 12);
  expect(turnsAtStart(third)[0].im).toBeCloseTo(3 * s + 4 * c, 12);
  expect(turnsAtStart(null)).toEqual([]);
});
