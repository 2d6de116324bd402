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
