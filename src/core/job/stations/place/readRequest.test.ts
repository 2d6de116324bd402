import { describe, expect, test } from 'vitest';
import type { PlaceDocument } from '../../../geometry/document.ts';
import { Unusable } from './fieldValue.ts';
import { emptied, isBegun, radiusText, readRequest, rulerRadiusText, sheetRead } from './readRequest.ts';
import type { DrawnSheet, ReadTyped } from './typed.ts';

const rad = Math.PI / 180;
const near = (deg: number) => expect.closeTo(deg * rad, 12);
const sheet: DrawnSheet = { spindleToPivotMm: 222, effectiveLengthMm: 239.3, nullPointsMm: [66, 120.891] };
const drawnFor = { spindleToPivot: 222, effectiveLength: 239.3 };
const point = { along: '-1.2', across: '0.3', twist: '-0.8' };

const readings = (read: ReadTyped, of: DrawnSheet | null = sheet) => readRequest(read, of).readings;
function obstacle(read: ReadTyped, of: DrawnSheet | null = sheet): [boolean, string] {
  try {
    readRequest(read, of);
  } catch (error) {
    if (error instanceof Unusable) return [error.missing, error.message];
    throw error;
  }
  throw new Error('it was read');
}
const missing = (what: string): [boolean, string] => [true, `Still to be typed: ${what}.`];

describe('the miss on the arc template', () => {
  const nothing = { along: undefined, across: undefined, twist: undefined };

  test('one point or both, at the radii that the template has', () => {
    const inner = {
      kind: 'point',
      radius: 66,
      along: -1.2,
      across: 0.3,
      twist: near(-0.8),
      drawnFor,
      uncertainty: nothing,
    };
    expect(readings({ inner: point })).toEqual([inner]);
    expect(readings({ kind: 'miss', inner: point, outer: { along: '0', across: '1', twist: '0' } })).toEqual([
      inner,
      { ...inner, radius: 120.89, along: 0, across: 1, twist: 0 },
    ]);
    expect(readings({ outer: { ...point, radius: '118' } })).toEqual([{ ...inner, radius: 118 }]);
  });

  test('how well it was read, of lengths and of angles', () => {
    expect(readings({ inner: point, withinMm: '0.4', withinDeg: '1' })).toMatchObject([
      { uncertainty: { along: 0.4, across: 0.4, twist: near(1) } },
    ]);
  });

  test('a template for other numbers is what those say', () => {
    const other = {
      sheetFor: 'other',
      sheetPivot: '215',
      sheetLength: '230',
      inner: { ...point, radius: '66' },
    } as const;
    expect(readings(other, null)).toMatchObject([
      { radius: 66, drawnFor: { spindleToPivot: 215, effectiveLength: 230 } },
    ]);
    expect(obstacle({ ...other, sheetPivot: '' })).toEqual(missing('template’s spindle to pivot'));
    expect(obstacle({ ...other, sheetLength: '' })).toEqual(missing('template’s effective length'));
  });

  test('what is not there yet is named with its point', () => {
    expect(obstacle({})).toEqual(missing('what was read at one point: forward, outward, turned'));
    expect(obstacle({ inner: { radius: '66' } })).toEqual(
      missing('what was read at one point: forward, outward, turned'),
    );
    const { along: _a, ...noAlong } = point;
    const { across: _b, ...noAcross } = point;
    const { twist: _c, ...noTwist } = point;
    expect(obstacle({ inner: noAlong })).toEqual(missing('tip off the cross, forward, at the inner point'));
    expect(obstacle({ outer: noAcross })).toEqual(missing('tip off the cross, outward, at the outer point'));
    expect(obstacle({ outer: noTwist })).toEqual(missing('cartridge turned clockwise, at the outer point'));
    expect(obstacle({ inner: point, outer: { along: '0' } })).toEqual(
      missing('tip off the cross, outward, at the outer point'),
    );
  });

  test('a tangential arm swings no arc', () => {
    const [still, words] = obstacle({ inner: point }, null);
    expect(still).toBe(false);
    expect(words).toMatch(/arc/i);
  });
});

test('the twist at both points of the two-point template', () => {
  const both = { kind: 'twist', inner: { twist: '1' }, outer: { twist: '-2' } } as const;
  expect(readings(both)).toEqual([
    { kind: 'twist', radius: 66, twist: near(1), uncertainty: { twist: undefined, radius: undefined } },
    { kind: 'twist', radius: 120.89, twist: near(-2), uncertainty: { twist: undefined, radius: undefined } },
  ]);
  expect(readings({ ...both, withinMm: '0.3', withinDeg: '2' })[1]).toMatchObject({
    uncertainty: { twist: near(2), radius: 0.3 },
  });
  expect(obstacle({ ...both, inner: {} })).toEqual(missing('cartridge turned clockwise, at the inner point'));
  expect(obstacle({ ...both, outer: {} })).toEqual(missing('cartridge turned clockwise, at the outer point'));
  expect(obstacle(both, null)).toEqual(missing('radius of the inner point'));
  expect(obstacle(both, { ...sheet, nullPointsMm: [66] })).toEqual(missing('radius of the outer point'));
});

test('the two radii where it is square', () => {
  const square = { kind: 'square', squareFirst: '66', squareSecond: '121' } as const;
  const at = (radius: number, uncertainty: object) => ({ kind: 'twist', radius, twist: 0, uncertainty });
  const none = { twist: undefined, radius: undefined };
  expect(readings(square, null)).toEqual([at(66, none), at(121, none)]);
  const within = { twist: near(1), radius: 0.4 };
  expect(readings({ ...square, withinMm: '0.4', withinDeg: '1' })).toEqual([at(66, within), at(121, within)]);
  expect(obstacle({ ...square, squareFirst: '' })).toEqual(missing('first radius'));
  expect(obstacle({ ...square, squareSecond: '' })).toEqual(missing('second radius'));
});

test('the overhang by ruler, with the twist at a point where that was read', () => {
  const ruler = { kind: 'ruler', rulerOverhang: '17.3' } as const;
  const overhang = (mm?: number) => ({ kind: 'overhang', overhang: 17.3, uncertainty: { overhang: mm } });
  expect(readings(ruler, null)).toEqual([overhang()]);
  expect(readings({ ...ruler, withinMm: '1' })).toEqual([overhang(1)]);
  const twist = (radius: number, of: object) => ({ kind: 'twist', radius, twist: near(0.5), uncertainty: of });
  expect(readings({ ...ruler, rulerTwist: '0.5' })).toEqual([
    overhang(),
    twist(66, { twist: undefined, radius: undefined }),
  ]);
  expect(readings({ ...ruler, rulerTwist: '0.5', rulerRadius: '100', withinMm: '1', withinDeg: '2' })).toEqual([
    overhang(1),
    twist(100, { twist: near(2), radius: 1 }),
  ]);
  expect(obstacle({ kind: 'ruler', rulerTwist: '0.5' })).toEqual(missing('overhang by ruler'));
  expect(obstacle({ ...ruler, rulerTwist: '0.5' }, null)).toEqual(missing('radius of that point'));
});

test('length and offset from elsewhere', () => {
  const stated = { kind: 'stated', statedLength: '239', statedOffset: '23' } as const;
  expect(readings(stated, null)).toEqual([
    { kind: 'length', effectiveLength: 239, uncertainty: { effectiveLength: undefined } },
    { kind: 'offset', offset: near(23), uncertainty: { offset: undefined } },
  ]);
  expect(readings({ ...stated, withinMm: '0.4', withinDeg: '1' })).toMatchObject([
    { uncertainty: { effectiveLength: 0.4 } },
    { uncertainty: { offset: near(1) } },
  ]);
  expect(obstacle({ ...stated, statedLength: '' })).toEqual(missing('effective length as it is set'));
  expect(obstacle({ ...stated, statedOffset: '' })).toEqual(missing('offset as it is set'));
});

test('what is said of the shell and of the pivot goes with every reading', () => {
  const stated = { kind: 'stated', statedLength: '239', statedOffset: '23' } as const;
  const { readings: _, ...rest } = readRequest(stated, null);
  expect(rest).toEqual({
    travel: {},
    tipAhead: undefined,
    slotAngle: undefined,
    spindleToPivotUncertainty: undefined,
  });
  const said = { slotsForward: '3', slotsBack: '0', turnLeft: '2', tipAhead: '9', slotAngle: '20', withinPivot: '0.2' };
  const { readings: _r, ...more } = readRequest({ ...stated, ...said }, null);
  expect(more).toEqual({
    travel: { forward: 3, back: 0, turn: near(2) },
    tipAhead: 9,
    slotAngle: near(20),
    spindleToPivotUncertainty: 0.2,
  });
});

describe('the sheet that was read', () => {
  const solved = {
    spindleToPivotMm: 224,
    effectiveLengthMm: 241,
    nullPointsMm: [65, 120],
  } as unknown as PlaceDocument;
  const now: DrawnSheet = { spindleToPivotMm: 224, effectiveLengthMm: 241, nullPointsMm: [65, 120] };
  const arc = sheet;
  const twoPoint = { ...sheet, spindleToPivotMm: 220 };
  const both = { drawnArc: arc, drawnTwoPoint: twoPoint };

  test('the one drawn last of its kind, unless another was named; without one the one that would be drawn now', () => {
    expect(sheetRead({}, {}, solved)).toEqual(now);
    expect(sheetRead({}, both, solved)).toBe(arc);
    expect(sheetRead({ kind: 'miss' }, both, solved)).toBe(arc);
    expect(sheetRead({ kind: 'twist' }, both, solved)).toBe(twoPoint);
    expect(sheetRead({ kind: 'ruler' }, both, solved)).toBe(twoPoint);
    expect(sheetRead({ kind: 'twist' }, { drawnArc: arc }, solved)).toEqual(now);
    expect(sheetRead({ sheetFor: 'solved' }, both, solved)).toEqual(now);
    expect(sheetRead({ sheetFor: 'other' }, both, solved)).toEqual(now);
    expect(sheetRead({ sheetFor: 'printed' }, both, solved)).toBe(arc);
    expect(sheetRead({ sheetFor: 'printed' }, {}, solved)).toEqual(now);
  });

  test('a tangential arm has none', () => {
    expect(sheetRead({}, {}, { ...solved, spindleToPivotMm: null })).toBeNull();
    expect(sheetRead({}, {}, { ...solved, effectiveLengthMm: null })).toBeNull();
  });

  test('radii of its points as they stand in their fields', () => {
    expect([radiusText({}, 'inner', sheet), radiusText({}, 'outer', sheet)]).toEqual(['66.00', '120.89']);
    expect(radiusText({ inner: { radius: '70' } }, 'inner', sheet)).toBe('70');
    expect(radiusText({ inner: { radius: '' } }, 'inner', sheet)).toBe('');
    expect([radiusText({}, 'inner', null), radiusText({}, 'outer', null)]).toEqual(['', '']);
    const one = { ...sheet, nullPointsMm: [66] };
    expect([radiusText({}, 'inner', one), radiusText({}, 'outer', one)]).toEqual(['66.00', '']);
    expect(rulerRadiusText({}, sheet)).toBe('66.00');
    expect(rulerRadiusText({ rulerRadius: '90' }, sheet)).toBe('90');
    expect([rulerRadiusText({}, null), rulerRadiusText({}, { ...sheet, nullPointsMm: [] })]).toEqual(['', '']);
  });
});

test('a reading is begun once something of its own kind was typed', () => {
  for (const which of ['inner', 'outer'] as const) {
    for (const key of ['along', 'across', 'twist'] as const) expect(isBegun({ [which]: { [key]: '0' } })).toBe(true);
    expect(isBegun({ [which]: { radius: '66', along: ' ' } })).toBe(false);
    expect(isBegun({ kind: 'twist', [which]: { twist: '0' } })).toBe(true);
    expect(isBegun({ kind: 'twist', [which]: { along: '1' } })).toBe(false);
  }
  const begun: [ReadTyped['kind'], ReadTyped][] = [
    ['square', { squareFirst: '66' }],
    ['square', { squareSecond: '66' }],
    ['ruler', { rulerOverhang: '17' }],
    ['ruler', { rulerTwist: '1' }],
    ['stated', { statedLength: '239' }],
    ['stated', { statedOffset: '23' }],
  ];
  for (const [kind, typed] of begun) {
    expect(isBegun({ kind, ...typed }), JSON.stringify(typed)).toBe(true);
    expect(isBegun(typed), JSON.stringify(typed)).toBe(false);
    const blank = Object.fromEntries(Object.keys(typed).map((key) => [key, ' ']));
    expect(isBegun({ kind, ...blank })).toBe(false);
  }
  for (const kind of ['miss', 'twist', 'square', 'ruler', 'stated'] as const) {
    expect(isBegun({ kind })).toBe(false);
    expect(isBegun({ kind, withinMm: '0.3', slotsForward: '2', rulerRadius: '70' })).toBe(false);
  }
  expect(isBegun({})).toBe(false);
});

test('once the cartridge was moved nothing is read any more; radii and what is said of reading well stay', () => {
  const whole: ReadTyped = {
    kind: 'miss',
    inner: { ...point, radius: '70' },
    outer: point,
    squareFirst: '66',
    squareSecond: '121',
    rulerOverhang: '17',
    rulerTwist: '1',
    rulerRadius: '80',
    statedLength: '239',
    statedOffset: '23',
    slotsForward: '3',
    slotsBack: '2',
    turnLeft: '1',
    withinMm: '0.3',
    tipAhead: '9',
  };
  expect(emptied(whole)).toEqual({
    kind: 'miss',
    inner: { radius: '70' },
    rulerRadius: '80',
    withinMm: '0.3',
    tipAhead: '9',
  });
  expect(emptied({ outer: { radius: '' } })).toEqual({ outer: { radius: '' } });
  expect(emptied({})).toEqual({});
});
