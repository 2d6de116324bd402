import { describe, expect, test } from 'vitest';
import { pivotedArm } from '../../../geometry/arm.ts';
import { grooveSpan, ownSpan } from '../../../geometry/span.ts';
import { armRequest, type KnownElsewhere, spanOf, speedOf } from './armRequest.ts';
import { Unusable } from './fieldValue.ts';
import type { ArmTyped } from './typed.ts';

const rad = Math.PI / 180;
const pivot: ArmTyped = { spindleToPivot: '222' };

/** What is said where it cannot be asked, and whether it is only not typed yet. */
function obstacle(typed: ArmTyped, known?: KnownElsewhere): [boolean, string] {
  try {
    armRequest(typed, known);
  } catch (error) {
    if (error instanceof Unusable) return [error.missing, error.message];
    throw error;
  }
  throw new Error('it was asked');
}
const missing = (what: string): [boolean, string] => [true, `Still to be typed: ${what}.`];
const limits = (typed: ArmTyped) => armRequest({ ...pivot, ...typed }).limits;

test('nothing but a distance: everything else as usual', () => {
  expect(armRequest(pivot)).toEqual({
    length: { known: 'spindle-to-pivot', mm: 222 },
    span: grooveSpan('12in'),
    criterion: 'lofgren-a',
    music: undefined,
    rpm: 100 / 3,
    limits: undefined,
    makers: undefined,
    tolerance: { tolerances: { overhang: 0.5, twist: expect.closeTo(0.5 * rad, 12), spindleToPivot: 1 } },
  });
});

describe('what is known of the arm', () => {
  const length = (typed: ArmTyped, known?: KnownElsewhere) => armRequest(typed, known).length;
  const elsewhere = { spindleToPivotMm: 226.5, effectiveLengthMm: 243.5 };

  test('typed here, else known at another station, else asked for', () => {
    expect(length({}, elsewhere)).toEqual({ known: 'spindle-to-pivot', mm: 226.5 });
    expect(length(pivot, elsewhere)).toEqual({ known: 'spindle-to-pivot', mm: 222 });
    expect(length({ known: 'effective-length' }, elsewhere)).toEqual({ known: 'effective-length', mm: 243.5 });
    expect(length({ known: 'effective-length', effectiveLength: '239' }, elsewhere)).toEqual({
      known: 'effective-length',
      mm: 239,
    });
    expect(length({ known: 'overhang', overhang: '17.3' })).toEqual({ known: 'overhang', mm: 17.3 });
    expect(length({ known: 'tangential' })).toEqual({ known: 'tangential' });
    expect(obstacle({})).toEqual(missing('spindle to pivot'));
    expect(obstacle({ known: 'effective-length' }, { spindleToPivotMm: 222 })).toEqual(missing('effective length'));
    expect(obstacle({ known: 'overhang' }, elsewhere)).toEqual(missing('overhang'));
  });
});

describe('what can be moved', () => {
  const held = { heldOffset: '23', heldLength: '239' };
  const offset = { least: expect.closeTo(23 * rad, 12), most: expect.closeTo(23 * rad, 12) };
  const length = { least: 239, most: 239 };

  test('each way of holding an arm with a pivot', () => {
    expect(limits({ movable: 'both', ...held })).toBeUndefined();
    expect(limits({ movable: 'slide', ...held })).toEqual({ offset });
    expect(limits({ movable: 'twist', ...held })).toEqual({ effectiveLength: length });
    expect(limits({ movable: 'nothing', ...held })).toEqual({ effectiveLength: length, offset });
  });

  test('where length or overhang is what is known, only a fixed offset holds it', () => {
    const known = { known: 'effective-length', effectiveLength: '239' } as const;
    expect(limits({ ...known, movable: 'slide', ...held })).toEqual({ offset });
    for (const movable of ['twist', 'slots', 'nothing'] as const) {
      expect(limits({ ...known, movable, ...held }), movable).toBeUndefined();
    }
  });

  test('slots that end, and a headshell that turns so far', () => {
    const slots = { movable: 'slots', slotsShortest: '230', slotsLongest: '245' } as const;
    const effectiveLength = { least: 230, most: 245 };
    expect(limits(slots)).toEqual({ effectiveLength });
    expect(limits({ ...slots, turnLeast: '20', turnMost: '25' })).toEqual({
      effectiveLength,
      offset: { least: expect.closeTo(20 * rad, 12), most: expect.closeTo(25 * rad, 12) },
    });
    expect(limits({ ...slots, slotsLongest: '230' })?.effectiveLength).toEqual({ least: 230, most: 230 });
    const at = { ...pivot, ...slots };
    expect(obstacle({ ...at, turnLeast: '20' })).toEqual(missing('largest offset'));
    expect(obstacle({ ...at, turnMost: '20' })).toEqual(missing('least offset'));
    expect(obstacle({ ...pivot, movable: 'slots', slotsLongest: '230' })).toEqual(missing('shortest effective length'));
    expect(obstacle({ ...pivot, movable: 'slots', slotsShortest: '230' })).toEqual(missing('longest effective length'));
    const [still, words] = obstacle({ ...at, slotsLongest: '229' });
    expect(still).toBe(false);
    expect(words).toContain('Effective lengths that the slots allow');
    expect(words).toContain('230 to 229 mm');
    const turned = obstacle({ ...at, turnLeast: '25', turnMost: '20' });
    expect(turned[0]).toBe(false);
    expect(turned[1]).toContain('Offsets that the headshell allows');
    expect(turned[1]).toMatch(/25 to 20\s*°/);
  });

  test('what is held and not typed is asked for', () => {
    expect(obstacle({ ...pivot, movable: 'slide' })).toEqual(missing('fixed offset'));
    expect(obstacle({ ...pivot, movable: 'twist' })).toEqual(missing('fixed effective length'));
    expect(obstacle({ ...pivot, movable: 'nothing', heldLength: '239' })).toEqual(missing('fixed offset'));
  });

  test('a tangential arm: overhang and twist that cannot be changed, each where it is typed', () => {
    const tangential = (typed: ArmTyped) => limits({ known: 'tangential', movable: 'slide', ...typed });
    expect(tangential({})).toEqual({});
    expect(tangential({ heldOverhang: '0.5' })).toEqual({ overhang: { least: 0.5, most: 0.5 } });
    expect(tangential({ heldTwist: '-1' })).toEqual({
      offset: { least: expect.closeTo(-rad, 12), most: expect.closeTo(-rad, 12) },
    });
    expect(tangential({ heldOverhang: '0', heldTwist: '0' })).toEqual({
      overhang: { least: 0, most: 0 },
      offset: { least: 0, most: 0 },
    });
  });
});

test('grooves by name or by their own radii', () => {
  expect(spanOf({})).toEqual(grooveSpan('12in'));
  expect(spanOf({ grooves: '7in', inner: '60', outer: '140' })).toEqual(grooveSpan('7in'));
  expect(spanOf({ grooves: 'own', inner: '60', outer: '140' })).toEqual(ownSpan(60, 140));
  expect(obstacle({ ...pivot, grooves: 'own', outer: '140' })).toEqual(missing('innermost groove'));
  expect(obstacle({ ...pivot, grooves: 'own', inner: '60' })).toEqual(missing('outermost groove'));
});

test('the speed that was chosen, else the one that such records usually run at', () => {
  const usual = (usualRpm: number) => speedOf({}, { ...grooveSpan('12in'), usualRpm });
  expect([usual(100 / 3), usual(40), usual(40.1), usual(45), usual(60), usual(60.1), usual(78.26)]).toEqual([
    '33',
    '33',
    '45',
    '45',
    '45',
    '78',
    '78',
  ]);
  expect(speedOf({ speed: '45' }, grooveSpan('78-10in'))).toBe('45');
  const rpm = (typed: ArmTyped) => armRequest({ ...pivot, ...typed }).rpm;
  expect([rpm({ speed: '33' }), rpm({ speed: '45' }), rpm({ speed: '78' })]).toEqual([100 / 3, 45, 78.26]);
  expect(rpm({ speed: 'own', rpm: '16.7' })).toBe(16.7);
  expect(rpm({ speed: '45', rpm: '16.7' })).toBe(45);
  expect(obstacle({ ...pivot, speed: 'own' })).toEqual(missing('turns a minute'));
});

test('music is weighed only where the arm is set for it', () => {
  const weights = { weightInner: '0,4', weightOuter: '1' };
  const music = (typed: ArmTyped) => armRequest({ ...pivot, ...weights, ...typed }).music;
  expect(music({ criterion: 'even-music' })).toEqual([
    { radius: 60.325, weight: 0.4 },
    { radius: 146.05, weight: 1 },
  ]);
  expect(music({ criterion: 'lofgren-b' })).toBeUndefined();
  expect(armRequest({ ...pivot, criterion: 'lofgren-b' }).criterion).toBe('lofgren-b');
  const even = { ...pivot, criterion: 'even-music' } as const;
  expect(obstacle({ ...even, weightOuter: '1' })).toEqual(missing('weight at the inner groove'));
  expect(obstacle({ ...even, weightInner: '1' })).toEqual(missing('weight at the outer groove'));
});

test('the maker’s arm counts only where the pivot stands elsewhere and is what is known', () => {
  const makers = { makersPivot: '222', makersLength: '239', makersOffset: '23' };
  const of = (typed: ArmTyped) => armRequest({ ...pivot, ...makers, ...typed }).makers;
  expect(of({ elsewhere: true })).toEqual({ ...pivotedArm(222, 239, 0.4), offset: expect.closeTo(23 * rad, 12) });
  expect(of({ elsewhere: false })).toBeUndefined();
  expect(of({})).toBeUndefined();
  expect(of({ elsewhere: true, known: 'effective-length', effectiveLength: '239' })).toBeUndefined();
  expect(obstacle({ ...pivot, elsewhere: true, ...makers, makersLength: '' })).toEqual(
    missing('maker’s effective length'),
  );
});

test('tolerances as typed, each over the usual one', () => {
  const of = (typed: ArmTyped) => armRequest({ ...pivot, ...typed }).tolerance?.tolerances;
  expect(of({ toleranceOverhang: '0.2', toleranceTwist: '1', tolerancePivot: '0' })).toEqual({
    overhang: 0.2,
    twist: expect.closeTo(rad, 12),
    spindleToPivot: 0,
  });
  expect(of({ toleranceTwist: '0' })).toEqual({ overhang: 0.5, twist: 0, spindleToPivot: 1 });
});

test('what is typed and cannot be used is said with its field', () => {
  expect(obstacle({ ...pivot, toleranceTwist: 'fine' })).toEqual([
    false,
    'Twist to within ±: Found “fine”; a number, 0 to 10 deg was expected.',
  ]);
});
