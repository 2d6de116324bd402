import fc from 'fast-check';
import { expect, test } from 'vitest';
import { placeDocument } from '../../../geometry/document.ts';
import { grooveSpan } from '../../../geometry/span.ts';
import { said } from '../../../words/said.fixture.ts';
import { say, sentence } from '../../../words/statement.ts';
import type { PlaceTyped } from '../place.ts';
import { solved } from './solved.ts';
import type { ArmTyped, ReadTyped } from './typed.ts';

const answer = (arm: ArmTyped, read: ReadTyped = {}) => solved({ arm, read });

test('what is typed is asked of the core as it stands, comma or point', () => {
  const expected = placeDocument({
    length: { known: 'spindle-to-pivot', mm: 222.5 },
    span: grooveSpan('12in'),
    criterion: 'stevenson',
    rpm: 100 / 3,
    tolerance: {},
  });
  const got = answer({ spindleToPivot: '222,5', criterion: 'stevenson' });
  if (got.kind !== 'place' || !expected.found) throw new Error('no arm');
  expect(got.place).toEqual(expected.value);
});

test('an empty field is named as still to be typed, a bad one with what was typed and its bounds', () => {
  expect(said(answer({}))).toEqual({ kind: 'obstacle', missing: true, why: 'Still to be typed: spindle to pivot.' });
  expect(said(answer({ spindleToPivot: '12' }))).toEqual({
    kind: 'obstacle',
    missing: false,
    why: 'Spindle to pivot: Found 12 mm; 100 to 1000 mm was expected.',
  });
  expect(said(answer({ spindleToPivot: 'long' }))).toMatchObject({
    why: 'Spindle to pivot: Found “long”; a number, 100 to 1000 mm was expected.',
  });
  expect(
    said(answer({ spindleToPivot: '222', movable: 'slots', slotsShortest: '240', slotsLongest: '230' })),
  ).toMatchObject({
    missing: false,
    why: expect.stringMatching(/240 to 230 mm/),
  });
});

test('what cannot be is refused with the value and the bound: no span, an arm out of reach', () => {
  expect(said(answer({ spindleToPivot: '222', grooves: 'own', inner: '80', outer: '80' }))).toMatchObject({
    missing: false,
    why: expect.stringMatching(/80 to 80 mm is 0 mm wide.*at least 1 mm/),
  });
  expect(said(answer({ spindleToPivot: '222', movable: 'twist', heldLength: '400' }))).toMatchObject({
    missing: false,
    why: expect.stringMatching(/must lie between .* mm/),
  });
});

test('records that usually run at another speed bring it along, unless one was chosen', () => {
  const rpm = (arm: ArmTyped) => {
    const got = answer({ spindleToPivot: '222', ...arm });
    return got.kind === 'place' ? got.place.rpm : null;
  };
  expect(rpm({ grooves: '7in' })).toBe(45);
  expect(rpm({ grooves: '7in', speed: '33' })).toBeCloseTo(100 / 3, 12);
  expect(rpm({ grooves: '78-10in' })).toBe(78.26);
});

test('a reading that is not complete leaves the arm and says what is missing', () => {
  const got = answer({ spindleToPivot: '222' }, { inner: { along: '-1' } });
  if (got.kind !== 'place') throw new Error(got.why.code);
  expect(got.place.asItStands).toBeNull();
  expect(said(got.reading)).toEqual({
    missing: true,
    why: 'Still to be typed: tip off the cross, outward, at the inner point.',
  });
});

test('a tip behind the cross and a cartridge turned anticlockwise: slide forward, twist clockwise', () => {
  const got = answer({ spindleToPivot: '222' }, { inner: { along: '-1.2', across: '0', twist: '-0.8' } });
  if (got.kind !== 'place') throw new Error(got.why.code);
  expect(got.place.moves.map(({ action, direction }) => [action, direction])).toEqual([
    ['slide', 'forward'],
    ['twist', 'clockwise-from-above'],
  ]);
});

test('readings refer to the sheet that was drawn, also when the numbers change afterwards', () => {
  const drawnArc = { spindleToPivotMm: 222, effectiveLengthMm: 239.3, nullPointsMm: [66, 120.89] };
  const read = { inner: { along: '0', across: '0', twist: '0' } };
  const stands = (sheet: PlaceTyped['sheet']) => {
    const got = solved({ arm: { spindleToPivot: '224' }, read, sheet });
    return got.kind === 'place' ? got.place.asItStands?.effectiveLengthMm.value : undefined;
  };
  const [onThatSheet, onThisArm] = [stands({ drawnArc }), stands({})];
  if (onThatSheet === undefined || onThisArm === undefined) throw new Error('nothing was read');
  // a sheet drawn for 222 mm, sighted at a pivot 224 mm away, with the tip on its cross
  expect(Math.abs(onThatSheet - onThisArm)).toBeGreaterThan(0.02);
});

const nonsense = fc.oneof(
  fc.constantFrom('', ' ', '-', '1e999', 'NaN', 'Infinity', '−5', '0', '1,5', '222', '60', '146', '1e-300', '99999999'),
  fc.double({ min: -500, max: 1200, noNaN: true }).map(String),
  fc.string({ maxLength: 6 }),
);
/** Mostly a number of the right size, now and then nonsense, or nothing. */
const near = (min: number, max: number) =>
  fc.oneof(
    { weight: 12, arbitrary: fc.double({ min, max, noNaN: true }).map((value) => value.toFixed(3)) },
    { weight: 1, arbitrary: nonsense },
    { weight: 1, arbitrary: fc.constant(undefined) },
  );
const armTyped = fc.record({
  known: fc.constantFrom('spindle-to-pivot', 'effective-length', 'overhang', 'tangential'),
  movable: fc.constantFrom('both', 'slide', 'twist', 'slots', 'nothing'),
  criterion: fc.constantFrom('lofgren-a', 'lofgren-b', 'least-squares', 'stevenson', 'even-music'),
  spindleToPivot: near(180, 450),
  effectiveLength: near(190, 460),
  overhang: near(10, 22),
  heldOffset: near(-5, 27),
  heldLength: near(190, 460),
  slotsShortest: near(190, 240),
  slotsLongest: near(240, 460),
  heldOverhang: near(-20, 20),
  heldTwist: near(-5, 5),
  grooves: fc.constantFrom('12in', '7in', '78-12in', 'own'),
  inner: near(40, 70),
  outer: near(80, 150),
  weightInner: near(0, 3),
  weightOuter: near(0, 3),
  toleranceOverhang: near(0, 2),
  toleranceTwist: near(0, 2),
});
const point = fc.record({ along: near(-5, 5), across: near(-5, 5), twist: near(-5, 5) });
const readTyped = fc.record({
  kind: fc.constantFrom('miss', 'twist', 'square', 'ruler', 'stated'),
  inner: point,
  outer: point,
  squareFirst: near(50, 80),
  squareSecond: near(90, 140),
  rulerOverhang: near(5, 25),
  statedLength: near(190, 460),
  statedOffset: near(0, 27),
  withinMm: near(0.1, 1),
  slotsForward: near(0, 8),
});

/** Every number anywhere in a document. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(numbersIn);
}

test('whatever is typed: a document of finite numbers, or a sentence; never a fault', () => {
  const seed = 20_260_307;
  let answered = 0;
  fc.assert(
    fc.property(armTyped, readTyped, (arm, read) => {
      const got = solved({ arm, read } as PlaceTyped);
      if (got.kind === 'obstacle') return /^[A-Z“].*[.]$/.test(sentence(got.why));
      answered += 1;
      return numbersIn(got.place).every(Number.isFinite);
    }),
    { seed, numRuns: 250 },
  );
  console.log(`typed nonsense, seed ${seed}: ${answered} of 250 answered`);
  expect(answered).toBeGreaterThan(40);
});

test('spindle to pivot known at Match is taken while nothing is typed here, and its unit may be typed', () => {
  const known = { spindleToPivotMm: 226.5 };
  const pivot = (arm: ArmTyped) => {
    const got = solved({ arm }, known);
    return got.kind === 'place' ? got.place.spindleToPivotMm : say(got.why);
  };
  expect(pivot({})).toBeCloseTo(226.5, 9);
  expect(pivot({ spindleToPivot: '222 mm' })).toBeCloseTo(222, 9);
  expect(pivot({ spindleToPivot: '22.2 cm' })).toBeCloseTo(222, 9);
  // what was typed and cannot be used is not passed over
  expect(pivot({ spindleToPivot: 'long' })).toMatch(/^Spindle to pivot: Found “long”/);
  expect(solved({ arm: {} })).toMatchObject({ kind: 'obstacle', missing: true });
});
