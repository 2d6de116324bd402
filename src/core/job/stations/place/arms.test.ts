import { expect, test } from 'vitest';
import type { PlaceDocument } from '../../../geometry/document.ts';
import { armFacts, isPlaceBegun } from './armFacts.ts';
import { aimedArm, spanIn, standingArm } from './arms.ts';
import { playedArm } from './playedArm.ts';

const rad = Math.PI / 180;
const place = (more: object): PlaceDocument => ({ asItStands: null, ...more }) as unknown as PlaceDocument;

test('the arm that is aimed at, in radians; none for a tangential one', () => {
  const aimed = { spindleToPivotMm: 222, effectiveLengthMm: 239, offsetDeg: 23 };
  expect(aimedArm(place(aimed))).toEqual({
    kind: 'pivoted',
    spindleToPivot: 222,
    effectiveLength: 239,
    offset: expect.closeTo(23 * rad, 12),
  });
  expect(aimedArm(place({ ...aimed, spindleToPivotMm: null }))).toBeNull();
  expect(aimedArm(place({ ...aimed, effectiveLengthMm: null }))).toBeNull();
});

test('the arm as it was read: its pivot is the length less the overhang; none where the offset was not read', () => {
  const stands = { effectiveLengthMm: { value: 239 }, overhangMm: { value: 17 }, offsetDeg: { value: 22 } };
  expect(standingArm(place({ asItStands: stands }))).toEqual({
    kind: 'pivoted',
    spindleToPivot: 222,
    effectiveLength: 239,
    offset: expect.closeTo(22 * rad, 12),
  });
  expect(standingArm(place({ asItStands: { ...stands, offsetDeg: null } }))).toBeNull();
  expect(standingArm(place({}))).toBeNull();
});

test('the grooves of a document keep their name and source', () => {
  const groove = { innerMm: 60, outerMm: 140, name: 'mine', source: 'measured' };
  expect(spanIn(place({ groove }))).toMatchObject({ inner: 60, outer: 140, name: 'mine', source: 'measured' });
});

test('Place is begun once something stands in a field of arm or reading', () => {
  expect(isPlaceBegun({})).toBe(false);
  expect(isPlaceBegun({ arm: {}, read: {} })).toBe(false);
  expect(isPlaceBegun({ arm: { spindleToPivot: '' }, read: { withinMm: undefined } })).toBe(false);
  expect(isPlaceBegun({ sheet: { paper: 'a4' } })).toBe(false);
  expect(isPlaceBegun({ arm: { spindleToPivot: '', overhang: '1' } })).toBe(true);
  expect(isPlaceBegun({ read: { kind: 'ruler' } })).toBe(true);
});

const stated = { kind: 'stated', statedLength: '238', statedOffset: '21.5' } as const;

test('what Place tells the others: as it was read, else as it is aimed at; nothing where it has no answer', () => {
  const arm = { spindleToPivot: '222' };
  expect(armFacts({ arm, read: stated }, {})).toEqual({
    effectiveLengthMm: { value: expect.closeTo(238, 6), from: 'as read at Place' },
    offsetDeg: { value: expect.closeTo(21.5, 6), from: 'as read at Place' },
  });
  const aimed = armFacts({ arm }, {});
  expect(aimed?.effectiveLengthMm).toEqual({ value: expect.closeTo(239.3, 0), from: 'as Place aims at it' });
  expect(aimed?.offsetDeg.value).toBeCloseTo(23.3, 0);
  expect(armFacts({}, { spindleToPivotMm: 222 })?.effectiveLengthMm.value).toBe(aimed?.effectiveLengthMm.value);
  expect(armFacts({}, {})).toBeNull();
  expect(armFacts({ arm: { known: 'tangential' } }, {})).toBeNull();
});

test('the arm that plays: as read, as aimed at, else by the lengths that other stations have', () => {
  expect(playedArm({ place: { arm: { spindleToPivot: '222' }, read: stated } })).toEqual({
    spindleToPivot: expect.closeTo(222, 6),
    effectiveLength: expect.closeTo(238, 6),
  });
  const lengths = { spindleToPivotMm: '222', effectiveLengthMm: '240' };
  const nowhere = { arm: { spindleToPivot: '222', grooves: 'own', inner: 'x' } };
  expect(playedArm({ place: nowhere, weigh: { facts: { effectiveLengthMm: '240' } } })).toEqual({
    spindleToPivot: 222,
    effectiveLength: 240,
  });
  expect(playedArm({ place: nowhere })).toBeNull();
  const elsewhere = { arm: { known: 'overhang' } };
  expect(playedArm({ place: elsewhere, match: { typed: lengths } })).toEqual({
    spindleToPivot: 222,
    effectiveLength: 240,
  });
  expect(playedArm({ place: elsewhere, match: { typed: { effectiveLengthMm: '240' } } })).toBeNull();
});
