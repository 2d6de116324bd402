import { expect, it } from 'vitest';
import type { KnownArm } from './knownArm.ts';
import { type EffectOf, effects } from './moveEffects.ts';

const arm = {
  effectiveLengthMm: 240,
  spindleToPivotMm: 222,
  offsetDeg: 22,
  bearing: 'arm-line',
  slidingMassG: 7,
  forceMn: 18,
  complianceUmPerMn: 26,
  movingMassG: 215,
  centreBelowPivotMm: 4,
  pivotAboveTipMm: 18,
  threadPitchMm: 0.45,
} as const satisfies KnownArm;

const g = 9.80665;
const rad = Math.PI / 180;
const [cos, sin] = [Math.cos(22 * rad), Math.sin(22 * rad)];

/** A slide along slots that stand at the offset angle. */
const slidOut = (by: number): number => Math.hypot(240 + by * cos, by * sin) - 240;
/** A twist about the screws, 9.5 mm behind the tip. */
const twistedOut = (by: number): number =>
  Math.hypot(
    240 + 9.5 * (Math.cos((22 + by) * rad) - cos), //
    9.5 * (Math.sin((22 + by) * rad) - sin),
  ) - 240;
/** A headshell turned about an axis 18 mm above the tip swings it to the side. */
const swungOut = (by: number): number => 18 * Math.sin(by * rad) * sin;
/** By moments about the pivot: weight in mN and mm. */
const forceFor = (mm: number): number => ((7 * g - 18) * mm) / (240 + mm);

/** By the slope of the arm's own weight: the tip as much lower as the pivot was raised. */
function forceOfRise(rise: number): number {
  const length = Math.sqrt(240 ** 2 - 18 ** 2);
  const turn = Math.asin(18 / 240) - Math.asin((18 + rise) / 240);
  const along = (18 * length) / (215 * g);
  const moment = 215 * g * (along * Math.cos(turn) + 4 * Math.sin(turn));
  return moment / (length * Math.cos(turn) + 18 * Math.sin(turn)) - 18;
}

const stretch = ['effectiveLengthMm', 'spindleToPivotMm', 'offsetDeg'] as const;
const swinging = ['effectiveLengthMm', 'pivotAboveTipMm', 'movingMassG', 'centreBelowPivotMm', 'forceMn'] as const;

/** What is moved, by how much; what changes, by how much; and what of the arm must be known for it. */
const table: readonly [string, EffectOf, number, string, (by: number) => number, readonly (keyof KnownArm)[]][] = [
  [
    'slide',
    effects.slide.force,
    1.2,
    'tracking-force',
    (by) => forceFor(slidOut(by)),
    [...stretch, 'slidingMassG', 'forceMn'],
  ],
  [
    'slide',
    effects.slide.angle,
    3,
    'vertical-angle',
    (by) => (Math.asin(18 / 240) - Math.asin(18 / (240 + slidOut(by)))) / rad,
    [...stretch, 'pivotAboveTipMm'],
  ],
  ['slide', effects.slide.own, 1.2, 'overhang', (by) => by, []],
  [
    'twist',
    effects.twist.force,
    2,
    'tracking-force',
    (by) => forceFor(twistedOut(by)),
    [...stretch, 'slidingMassG', 'forceMn'],
  ],
  ['twist', effects.twist.own, 2, 'offset', (by) => by, []],
  [
    'turn',
    effects.turn.force,
    1.5,
    'tracking-force',
    (by) => forceFor(swungOut(by)),
    ['offsetDeg', 'effectiveLengthMm', 'slidingMassG', 'forceMn'],
  ],
  ['turn', effects.turn.overhang, 1.5, 'overhang', swungOut, ['offsetDeg']],
  ['turn', effects.turn.own, 1.5, 'tilt', (by) => by, []],
  ['shim', effects.shim.threads, 0.3, 'threads', (by) => by / 0.45, []],
  [
    'shim',
    effects.shim.angle,
    0.3,
    'vertical-angle',
    (by) => (Math.atan(-by / 2 / 240) / rad) * cos,
    ['effectiveLengthMm'],
  ],
  ['shim', effects.shim.own, 0.3, 'tilt', (by) => Math.atan(by / 12) / rad, []],
  [
    'force',
    effects.force.angle,
    1,
    'vertical-angle',
    // a cantilever of 5 mm gives way by 26 µm a millinewton
    (by) => -(by * 0.026) / 5 / rad,
    ['complianceUmPerMn'],
  ],
  ['force', effects.force.own, 1, 'tracking-force', (by) => by, []],
  ['height', effects.height.force, 2, 'tracking-force', forceOfRise, swinging],
  [
    'height',
    effects.height.overhang,
    2,
    'overhang',
    (by) => Math.sqrt(240 ** 2 - (18 + by) ** 2) - Math.sqrt(240 ** 2 - 18 ** 2),
    ['effectiveLengthMm', 'pivotAboveTipMm'],
  ],
  [
    'height',
    effects.height.tilt,
    2,
    'tilt',
    (by) => (Math.atan(by / 240) / rad) * sin,
    ['effectiveLengthMm', 'offsetDeg'],
  ],
  ['height', effects.height.own, 2, 'vertical-angle', (by) => (Math.atan(by / 240) / rad) * cos, ['effectiveLengthMm']],
  ['pivot', effects.pivot.own, 0.8, 'pivot-distance', (by) => by, []],
];

it.each(table)(
  '%s: the effect %# has its size either way, and none without what it rests on',
  (_, effect, by, quantity, size, needs) => {
    for (const one of [by, -by]) {
      const found = effect(one, arm);
      expect(found).toEqual({ quantity, size: expect.closeTo(size(one), 10) });
      expect(Math.abs(found?.size ?? 0)).toBeGreaterThan(1e-3);
    }
    for (const name of Object.keys(arm) as (keyof KnownArm)[]) {
      const { [name]: _, ...rest } = arm;
      expect(effect(by, rest) === null, name).toBe(needs.includes(name));
    }
  },
);

it('a bearing square to the cartridge pitches it more and tilts it not at all', () => {
  const square = { ...arm, bearing: 'cartridge' } as const;
  expect(effects.height.own(2, square)?.size).toBeCloseTo(Math.atan(2 / (240 * cos)) / rad, 10);
  expect(effects.height.tilt(2, square)).toEqual({ quantity: 'tilt', size: 0 });
  // taken as square to the arm's line while nobody said
  const { bearing: _, ...unsaid } = arm;
  expect(effects.height.own(2, unsaid)).toEqual(effects.height.own(2, arm));
});

it('without an offset the pitch is that of a straight arm; without a pitch of the thread, that of M2.5', () => {
  const { offsetDeg: _, threadPitchMm: __, ...rest } = arm;
  expect(effects.height.own(2, rest)?.size).toBeCloseTo(Math.atan(2 / 240) / rad, 10);
  // ISO 261: M2.5, coarse
  expect(effects.shim.threads(0.9, rest)?.size).toBeCloseTo(2, 12);
  expect(effects.shim.threads(0.9, { ...rest, threadPitchMm: 0.5 })?.size).toBeCloseTo(1.8, 12);
});
