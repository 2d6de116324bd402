import { describe, expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { coverageFactor } from '../signal/robust.ts';
import { statement } from '../words/statement.ts';
import { assumedInTests } from './assumed.fixture.ts';
import type { Finding } from './finding.ts';
import { madeSide, madeTone } from './handMade.fixture.ts';
import { type SideHole, turnPhasor, turnsAtStart } from './hole.ts';
import type { HoleFit } from './holeFit.ts';
import { onceAroundFigures } from './onceAround.ts';
import type { ToneBand } from './sideReadings.ts';

const TURN_HZ = 0.5;
const swinging = (index: number, lengthS: number, swing: number, startS = 20 * index): ToneBand =>
  madeTone({
    band: { index, frequencyHz: 3150, startS, radiusMm: 140 - 40 * index },
    segments: [
      {
        trace: {
          rateHz: 20,
          startS,
          meanHz: 3150,
          groupS: 0.05,
          deviation: Float64Array.from({ length: 20 * lengthS }, (_, n) => {
            const t = startS + n / 20;
            return swing * Math.cos(2 * Math.PI * TURN_HZ * t + 0.3) + 1e-4 * Math.sin(31 * t * t);
          }),
        },
      },
    ],
  });

const size = (of: number, spread: number, signal: number) => ({ size: of, spread, signal });
const fitOf = (more: Partial<HoleFit> = {}): HoleFit => ({
  hole: size(0.5, 0.05, 0.03),
  bearing: 1,
  bearingSpread: 0.1,
  platter: size(2e-4, 5e-5, 3e-5),
  ofWarp: { hole: 0.4, platter: 0.002 },
  misfit: 10,
  ofHole: [],
  ...more,
});
const holeOf = (tones: ToneBand[], more: Partial<SideHole> = {}): SideHole => ({
  fit: fitOf(),
  phasors: tones.map((tone) => ({
    ...turnPhasor(tone, TURN_HZ)!,
    radiusMm: tone.band.radiusMm!,
    arm: { hole: { re: 0, im: 0 }, warp: { re: 0, im: 0 } },
  })),
  assumed: assumedInTests,
  parted: true,
  broken: null,
  rotationHz: TURN_HZ,
  armKnown: true,
  tangential: false,
  radiiKnown: true,
  others: [],
  k: 2.5,
  ...more,
});
const [outer, inner] = [swinging(0, 9, 1e-3), swinging(1, 12, 2e-3)];
const figures = (hole: SideHole | null, tones = [outer, inner], more = {}) =>
  onceAroundFigures(madeSide({ tones, ...more }), tones, TURN_HZ, hole);
const of = (findings: readonly Finding[], quantity: string): Finding | undefined =>
  findings.find((one) => one.quantity === quantity);
/** Each line of a figure's budget, by its cause. */
const parts = ({ budget }: Finding) => Object.fromEntries(budget!.map((line) => [line.of.code, line.size]));

it('without a speed tone nothing is told', () => {
  const why = statement('no-speed-tone');
  expect(onceAroundFigures(madeSide(), [], null, null)).toEqual({
    findings: [],
    problems: [withheld('once-per-turn', why), withheld('eccentricity', why)],
  });
});

describe('once per turn', () => {
  it('is each tone’s swing less what noise adds, with Student’s t of what it rests on', () => {
    const { findings } = figures(holeOf([outer, inner]));
    const once = findings.filter(({ quantity }) => quantity === 'once-per-turn');
    expect(once).toEqual(
      [outer, inner].map((tone, i) => {
        const { re, im, variance, degreesOfFreedom, turns } = turnPhasor(tone, TURN_HZ)!;
        const own = 100 * coverageFactor(degreesOfFreedom) * Math.sqrt(variance);
        const { band: _, ...atStart } = turnsAtStart(holeOf([outer, inner]))[i];
        return {
          quantity: 'once-per-turn',
          value: expect.closeTo(100 * Math.sqrt(re * re + im * im - variance), 12),
          unit: '%',
          uncertainty: expect.closeTo(own, 12),
          repeatability: expect.closeTo(own, 12),
          bands: [i],
          atStart,
          notes: [statement('turns-read', { turns })],
        };
      }),
    );
    expect(once[1].value).toBeCloseTo(0.2, 2);
  });

  it('a tone of less than two turns is passed over; nothing but such is withheld', () => {
    const short = swinging(1, 3, 1e-3);
    expect(
      figures(holeOf([outer]), [outer, short]).findings.filter((f) => f.quantity === 'once-per-turn'),
    ).toHaveLength(1);
    const { findings, problems } = figures(null, [short]);
    expect(findings).toEqual([]);
    expect(problems).toEqual([
      withheld('once-per-turn', statement('no-two-turns')),
      withheld('eccentricity', statement('no-radius')),
    ]);
  });

  it('a swing within its noise is none, not less', () => {
    const none = swinging(0, 9, 0);
    const still = { ...none, reading: { ...none.reading, segments: none.reading.segments } };
    expect(of(figures(null, [still]).findings, 'once-per-turn')?.value).toBeGreaterThanOrEqual(0);
  });

  it('a tone without a hole has no place on the record', () => {
    const [once] = figures(null, [outer]).findings;
    expect(once).not.toHaveProperty('atStart');
    expect(figures(holeOf([inner]), [outer]).findings[0]).not.toHaveProperty('atStart');
  });

  it('turns a minute that nobody stated are said', () => {
    const notes = (rpm: number, rpmStated = false) =>
      figures(holeOf([outer]), [outer], { rpm, rpmStated }).findings.flatMap((f) =>
        f.notes.filter(({ code }) => code === 'rpm-assumed'),
      );
    // with the figure of each tone, and of the hole
    expect(notes(100 / 3)).toEqual(new Array(2).fill(statement('rpm-assumed', { rpm: '33⅓' })));
    expect(notes(45)).toEqual(new Array(2).fill(statement('rpm-assumed', { rpm: '45' })));
    expect(notes(45, true)).toEqual([]);
  });
});

describe('the hole off centre', () => {
  it('needs a radius', () => {
    const { findings, problems } = figures(holeOf([outer], { radiiKnown: false }), [outer]);
    expect(problems).toEqual([withheld('eccentricity', statement('no-radius'))]);
    expect(findings.map(({ quantity }) => quantity)).toEqual(['once-per-turn']);
  });

  const mm = (hole: Partial<SideHole>) => of(figures(holeOf([outer, inner], hole)).findings, 'eccentricity')!;

  it('is withheld where the recording was paused, with all that rests on it', () => {
    const broken = { afterS: 41.3, beforeS: 88.6 };
    const { findings, problems } = figures(holeOf([outer, inner], { broken }));
    expect(findings.map(({ quantity }) => quantity)).toEqual(['once-per-turn', 'once-per-turn']);
    expect(problems.map(({ quantity }) => quantity)).toEqual(['eccentricity']);
    expect(problems[0].message).toContain(
      'between 41 and 89 s the record turned on by more or less than the time says',
    );
  });

  it('has what signal, radii and warp leave of it', () => {
    const figure = mm({});
    expect(figure).toMatchObject({ value: 0.5, unit: 'mm', bands: [0, 1], repeatability: 2.5 * 0.03 });
    expect(parts(figure)).toEqual({
      signal: 2.5 * 0.03,
      radius: expect.closeTo(2 * Math.sqrt(0.05 ** 2 - 0.03 ** 2), 12),
      warp: expect.closeTo(0.012 * 0.4, 12),
    });
    expect(figure.notes).toEqual([
      statement('hole-parted', { bands: 2, outer: 140, inner: 100 }),
      statement('arm-given'),
      statement('seated-again', { mm: 0.1 }),
    ]);
  });

  it('that is not told from the platter is the platter’s doubt; an arm that nobody gave is one', () => {
    const figure = mm({
      parted: false,
      armKnown: false,
      fit: fitOf({ hole: size(0.5, 0.03, 0.05) }),
      others: [fitOf({ hole: size(0.44, 0, 0) }), fitOf({ hole: size(0.53, 0, 0) })],
    });
    expect(parts(figure)).toEqual({
      signal: 0.125,
      'arm-not-given': expect.closeTo(Math.SQRT2 * 0.06, 12),
      warp: expect.closeTo(0.0048, 12),
    });
    expect(figure.notes.map(({ code }) => code)).toEqual(['hole-not-parted', 'arm-assumed', 'seated-again']);
    expect(parts(mm({ parted: false }))).toHaveProperty('platter');
  });

  it('lies in a direction, clockwise from where the first tone starts', () => {
    const late = [swinging(0, 9, 1e-3, 31.3), swinging(1, 9, 1e-3, 11.2)];
    const direction = (more: Partial<SideHole>) =>
      of(figures(holeOf(late, more), late).findings, 'eccentricity-direction');
    const figure = direction({})!;
    // 5.6 turns and 1 rad back
    const deg = (360 * 5.6 - (180 / Math.PI) * 1) % 360;
    expect(figure.value).toBeCloseTo(deg > 180 ? deg - 360 : deg, 6);
    expect(figure).toMatchObject({ unit: 'deg', bands: [0, 1] });
    expect(parts(figure)).toEqual({
      signal: expect.closeTo((2 * 0.1 * 180) / Math.PI, 9),
      start: expect.closeTo(360 * TURN_HZ * 0.06, 9),
      warp: expect.closeTo((Math.atan((0.012 * 0.4) / 0.5) * 180) / Math.PI, 9),
    });
    expect(figure.notes).toEqual([statement('hole-direction'), statement('arm-given')]);
    const open = direction({ armKnown: false, tangential: true })!;
    expect(parts(open)['arm-not-given']).toBe(8);
    expect(open.notes).toEqual([statement('hole-direction-tangential'), statement('arm-assumed')]);
    expect(direction({ parted: false })).toBeUndefined();
  });

  it('a direction less sure than 60° is none, as that of no hole', () => {
    const has = (bearingSpread: number, hole = size(0.5, 0.05, 0.03)) =>
      of(figures(holeOf([outer], { fit: fitOf({ bearingSpread, hole }) }), [outer]).findings, 'eccentricity-direction');
    const start = 360 * TURN_HZ * 0.06;
    const warp = (Math.atan((0.012 * 0.4) / 0.5) * 180) / Math.PI;
    const limit = (Math.sqrt(60 ** 2 - start ** 2 - warp ** 2) * Math.PI) / 360;
    expect(has(limit * 0.999)).toBeDefined();
    expect(has(limit * 1.001)).toBeUndefined();
    // a hole of nothing is turned anywhere by a warp
    expect(has(0.01, size(0, 0.05, 0.03))).toBeUndefined();
  });

  it('the platter’s own part is told where it parts from the hole', () => {
    const platter = (more: Partial<SideHole>) =>
      of(figures(holeOf([outer, inner], more)).findings, 'once-per-turn-platter');
    const figure = platter({
      armKnown: false,
      others: [fitOf({ platter: size(3e-4, 0, 0) })],
    })!;
    expect(figure).toMatchObject({ value: expect.closeTo(0.02, 12), unit: '%', bands: [0, 1] });
    expect(parts(figure)).toEqual({
      signal: expect.closeTo(100 * 2.5 * 3e-5, 12),
      radius: expect.closeTo(100 * 2 * 4e-5, 12),
      'arm-not-given': expect.closeTo(100 * Math.SQRT2 * 1e-4, 12),
      warp: expect.closeTo(100 * 0.012 * 0.002, 12),
    });
    expect(figure.notes).toEqual([statement('platter-part'), statement('arm-assumed')]);
    expect(platter({ parted: false })).toBeUndefined();
  });
});
