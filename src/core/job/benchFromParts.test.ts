import { expect, test } from 'vitest';
import { screwChoice } from '../advise/screws.ts';
import { antiSkatingStart, skatingOverSide } from '../advise/skatingSide.ts';
import { forceAtRise } from '../mechanics/forceAndHeight.ts';
import { said } from '../words/said.fixture.ts';
import { screwStackOf, skatingQuestionOf, swingingArmOf } from './benchFromParts.ts';
import { demoArm, demoDeck, demoParts } from './demoParts.ts';
import { type ChosenParts, matchInputOf } from './matchFromParts.ts';
import type { PartOf } from './parts.ts';

const named = <Kind extends 'cartridge' | 'headshell' | 'hardware'>(kind: Kind, name: string) =>
  demoParts.find((part) => part.kind === kind && part.name === name) as unknown as PartOf<Kind>;

const bench: ChosenParts = {
  deck: demoDeck,
  arm: demoArm,
  cartridge: named('cartridge', 'bench moving magnet'),
  headshell: named('headshell', 'bench headshell'),
  hardware: named('hardware', 'light screws and nuts'),
};

const figures = { ...demoArm, ...matchInputOf(bench) };

test('through-holes and a nut, a tapped body; what is missing is named', () => {
  const nut = screwStackOf(bench);
  expect(nut.found && nut.value).toMatchObject({
    headshell: 2.5,
    into: { kind: 'nut', flange: 3, nut: 2 },
    pitch: 0.45,
  });
  const coil = screwStackOf({ ...bench, cartridge: named('cartridge', 'bench moving coil') });
  expect(coil.found && coil.value.into).toEqual({ kind: 'tapped', depth: 3.5 });
  expect(coil.found && screwChoice(coil.value)).toMatchObject({ found: true, lengthMm: 5 });
  expect(said(screwStackOf({ ...bench, headshell: undefined }))).toEqual({
    found: false,
    why: 'the headshell’s thickness is not known',
  });
});

test('the swinging arm of the practice bench presses a little harder when lifted', () => {
  const arm = swingingArmOf(figures, 18);
  if (!arm.found) throw new Error(arm.why.code);
  expect(arm.value.force).toBeCloseTo(0.018, 12);
  expect(forceAtRise(arm.value, 3)).toBeGreaterThan(0.018);
  expect(said(swingingArmOf({}, 18))).toMatchObject({ found: false });
});

test('skating of the practice bench, and the weight on its thread', () => {
  const question = skatingQuestionOf(figures, { forceMn: 18, friction: 0.3, innerMm: 60.325, outerMm: 146.05 });
  if (!question.found) throw new Error(question.why.code);
  const answer = skatingOverSide(question.value);
  if (!answer.found) throw new Error(answer.why.code);
  const start = antiSkatingStart(answer.side, question.value, { kind: 'thread', leverMm: demoArm.antiSkatingLeverMm! });
  expect(start.found && start.setting).toBeGreaterThan(1);
  expect(start.found && start.setting).toBeLessThan(8);
  expect(said(skatingQuestionOf({}, { forceMn: 18, friction: 0.3, innerMm: 60, outerMm: 146 }))).toEqual({
    found: false,
    why: 'the effective length, the distance from spindle to pivot are not known',
  });
});

test('what the screw passes is taken whole; what is not stated of washer, spacer and pitch is usual', () => {
  const { headshell, cartridge, hardware } = bench;
  expect(
    screwStackOf({
      ...bench,
      hardware: { ...hardware!, spacerThicknessMm: 1, washerThicknessMm: 0.5, threadPitchMm: 0.4 },
    }),
  ).toEqual({
    found: true,
    value: { headshell: 2.5, spacer: 1, washer: 0.5, into: { kind: 'nut', flange: 3, nut: 2 }, pitch: 0.4 },
  });
  const bare = { schema: 1, kind: 'hardware', name: 'x', nutThicknessMm: 2 } as const;
  // ISO 261: M2.5, coarse
  expect(screwStackOf({ headshell, cartridge, hardware: bare })).toEqual({
    found: true,
    value: { headshell: 2.5, spacer: 0, washer: 0, into: { kind: 'nut', flange: 3, nut: 2 }, pitch: 0.45 },
  });
  const tapped = { ...cartridge!, mounting: 'tapped', tapDepthMm: 4 } as const;
  expect(screwStackOf({ headshell, cartridge: tapped })).toMatchObject({
    value: { into: { kind: 'tapped', depth: 4 }, pitch: 0.45 },
  });
});

test('everything that is missing is named in one clause', () => {
  const why = (found: object) => (said(found) as { why: string }).why;
  expect(why(screwStackOf({}))).toBe(
    'the headshell’s thickness, how the cartridge is mounted, the cartridge’s flange thickness, the nut’s thickness are not known',
  );
  const { cartridge, headshell, hardware } = bench;
  const missing = (more: object) => why(screwStackOf({ headshell, hardware, cartridge: { ...cartridge!, ...more } }));
  expect(missing({ flangeThicknessMm: undefined })).toBe('the cartridge’s flange thickness is not known');
  expect(missing({ mounting: 'tapped', tapDepthMm: undefined })).toBe('the cartridge’s thread depth is not known');
  expect(why(screwStackOf({ headshell, cartridge }))).toBe('the nut’s thickness is not known');
  expect(why(swingingArmOf({}, 18))).toBe(
    'the effective length, the whole moving mass, the centre of gravity’s place, the pivot’s height above the tip are not known',
  );
  const { spindleToPivotMm: _, ...rest } = figures;
  expect(why(skatingQuestionOf(rest, { forceMn: 18, friction: 0.3, innerMm: 60, outerMm: 146 }))).toBe(
    'the distance from spindle to pivot is not known',
  );
});

test('the arm that swings and the skating that is asked for are in the units of their answers', () => {
  expect(swingingArmOf(figures, 18)).toEqual({
    found: true,
    value: {
      force: expect.closeTo(0.018, 12),
      effectiveLength: 243.48,
      pivotAboveTip: 18,
      movingMass: expect.closeTo(0.215, 12),
      centreBelowPivot: 4,
    },
  });
  expect(skatingQuestionOf(figures, { forceMn: 18, friction: 0.3, innerMm: 60, outerMm: 146 })).toEqual({
    found: true,
    value: {
      trackingForceMn: 18,
      friction: 0.3,
      effectiveLengthMm: 243.48,
      spindleToPivotMm: 226.5,
      grooveInnerMm: 60,
      grooveOuterMm: 146,
    },
  });
});
