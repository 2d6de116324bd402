import { expect, test } from 'vitest';
import { degToRad } from '../units/units.ts';
import { none } from '../words/found.ts';
import { type Statement, sayAll, statement } from '../words/statement.ts';
import { pivotedArm } from './arm.ts';
import { armFigures } from './distortion.ts';
import { movesTold, type SpreadFigures } from './moves.ts';
import { grooveSpan } from './span.ts';

function spread(offset: number): { found: true; value: SpreadFigures } {
  const figures = armFigures(pivotedArm(222, 239.2962, offset), grooveSpan('12in'));
  if (!figures.found) throw new Error(figures.why.code);
  return {
    found: true,
    value: {
      figures: figures.value,
      nullPointsUncertaintyMm: null,
      peakDistortionFromPercent: 0.5,
      peakDistortionToPercent: 0.9,
    },
  };
}

const [before, after] = [spread(0.42), spread(0.401173)];
const nothing = none(statement('twist-not-read'));
const slide = (value: number, uncertainty = 0.3) => ({ value, uncertainty });
const twist = (deg: number, within = 0.4) => ({
  found: true as const,
  value: { value: degToRad(deg), uncertainty: degToRad(within) },
});
const brings = statement('move-brings', {
  before: before.value.figures.peakDistortionPercent,
  after: after.value.figures.peakDistortionPercent,
  most: 0.9,
});
const cautions = [statement('caution-cartridge-loose')];

test('slide and twist, whole: what to do, how sure, what it brings, with what care', () => {
  const [inner, outer] = after.value.figures.nullPointsMm;
  const predicts = [
    { quantity: 'null-point-inner', value: inner, unit: 'mm' },
    { quantity: 'null-point-outer', value: outer, unit: 'mm' },
    { quantity: 'peak-distortion', value: after.value.figures.peakDistortionPercent, unit: '%' },
    { quantity: 'rms-distortion', value: after.value.figures.rmsDistortionPercent, unit: '%' },
  ];
  const told = (does: Statement) => {
    const reasons = [does, brings];
    return { predicts, reasons, cautions, why: sayAll(reasons), caution: sayAll(cautions), withinReading: false };
  };
  expect(movesTold(slide(1.5), twist(-2), before, after, [], { slide: 1.5, twist: degToRad(-2) })).toEqual([
    {
      action: 'slide',
      amount: 1.5,
      unit: 'mm',
      direction: 'forward',
      uncertainty: 0.3,
      ...told(statement('slide-forward-by', { amount: 1.5, within: 0.3 })),
    },
    {
      action: 'twist',
      amount: expect.closeTo(2, 12),
      unit: 'deg',
      direction: 'anticlockwise-from-above',
      uncertainty: expect.closeTo(0.4, 12),
      ...told(
        statement('twist-anticlockwise-by', {
          amount: (degToRad(2) * 180) / Math.PI,
          within: (degToRad(0.4) * 180) / Math.PI,
        }),
      ),
    },
  ]);
});

test('the direction is the sign’s; nought counts as forward and clockwise', () => {
  const directions = (x: number, y: number) =>
    movesTold(slide(x), twist(y), before, after, [], { slide: x, twist: degToRad(y) }).map(
      ({ direction, amount, reasons }) => [direction, +amount.toFixed(6), reasons[0].code],
    );
  expect(directions(-2, 3)).toEqual([
    ['back', 2, 'slide-back-by'],
    ['clockwise-from-above', 3, 'twist-clockwise-by'],
  ]);
  expect(directions(0, 0)).toEqual([
    ['forward', 0, 'slide-forward-or-stay'],
    ['clockwise-from-above', 0, 'twist-clockwise-or-stay'],
  ]);
  expect(directions(-0.1, -0.1)).toEqual([
    ['back', 0.1, 'slide-back-or-stay'],
    ['anticlockwise-from-above', 0.1, 'twist-anticlockwise-or-stay'],
  ]);
});

test('it may stay where neither the move nor the one wanted is more than the readings can tell', () => {
  const stays = (x: number, wanted: number) =>
    movesTold(slide(x), nothing, before, after, [], { slide: wanted, twist: 0 }).map(
      ({ withinReading }) => withinReading,
    );
  expect([stays(0.3, 0.3), stays(-0.3, -0.3), stays(0.31, 0.3), stays(0.1, 0.31), stays(0.1, -0.31)]).toEqual([
    [true],
    [true],
    [false],
    [false],
    [false],
  ]);
  const turns = (y: number, wanted: number) =>
    movesTold(slide(0), twist(y), before, after, [], { slide: 0, twist: degToRad(wanted) })[1].withinReading;
  expect([turns(0.39, 0.39), turns(0.39, -0.41), turns(-0.41, 0)]).toEqual([true, false, false]);
});

test('what holds the move is said, joined where there is more than one', () => {
  const reasons = (...held: Statement[]) =>
    movesTold(slide(1), twist(1), before, after, held, { slide: 1, twist: degToRad(1) })[0].reasons.slice(1);
  const [slots, shell] = [
    statement('slots-end', { leftMm: 0.5, way: 'back' }),
    statement('little-twist-in-headshell', { mostDeg: 1 }),
  ];
  expect(reasons()).toEqual([brings]);
  expect(reasons(slots)).toEqual([brings, statement('best-that-remains', { held: slots })]);
  const both = statement('held-both', { first: slots, second: shell });
  expect(reasons(slots, shell)).toEqual([brings, statement('best-that-remains', { held: both })]);
});

test('without a twist it is read afterwards; without figures nothing is predicted nor compared', () => {
  const wanted = { slide: 1, twist: 0 };
  const [only, ...more] = movesTold(slide(1), nothing, nothing, nothing, [], wanted);
  expect(more).toEqual([]);
  expect(only.reasons.map(({ code }) => code)).toEqual(['slide-forward-by', 'twist-read-after']);
  expect(only.predicts).toEqual([]);
  const codes = (from: typeof before | typeof nothing, to: typeof after | typeof nothing) =>
    movesTold(slide(1), twist(1), from, to, [], wanted)[0].reasons.map(({ code }) => code);
  expect(codes(before, nothing)).toEqual(['slide-forward-by']);
  expect(codes(nothing, after)).toEqual(['slide-forward-by']);
  expect(codes(before, after)).toEqual(['slide-forward-by', 'move-brings']);
});

test('an arm with one null or none predicts as many as it has', () => {
  const predicted = (nullPointsMm: readonly number[]) => {
    const value = { ...after.value, figures: { ...after.value.figures, nullPointsMm } };
    const [{ predicts }] = movesTold(slide(1), twist(1), before, { found: true, value }, [], { slide: 1, twist: 0 });
    return predicts.map(({ quantity }) => quantity);
  };
  const rest = ['peak-distortion', 'rms-distortion'];
  expect(predicted([])).toEqual(rest);
  expect(predicted([70])).toEqual(['null-point', ...rest]);
  expect(predicted([70, 120])).toEqual(['null-point-inner', 'null-point-outer', ...rest]);
});
