import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import type { PlaceTyped } from '../place.ts';
import { solved } from './solved.ts';

const arm = { spindleToPivot: '222' };
const stated = { kind: 'stated', statedLength: '239', statedOffset: '23' } as const;
const drawnArc = { spindleToPivotMm: 222, effectiveLengthMm: 239.3, nullPointsMm: [66, 120.89] };

test('the last answer is kept until something that it rests on changes', () => {
  const first = solved({ arm, read: stated });
  expect(solved({ arm: { ...arm }, read: { ...stated }, moves: [], sheet: { paper: 'a4' } })).toBe(first);
  for (const data of [
    { arm: { ...arm, criterion: 'stevenson' }, read: stated },
    { arm, read: { ...stated, statedLength: '238' } },
    { arm, read: stated, sheet: { drawnArc } },
    { arm, read: stated, sheet: { drawnTwoPoint: drawnArc } },
  ] as PlaceTyped[]) {
    expect(solved(data)).not.toBe(first);
  }
  expect(solved({ arm, read: stated }, { spindleToPivotMm: 222 })).not.toBe(first);
});

test('a reading goes with the request that it was solved by; without one there is none', () => {
  const read = solved({ arm, read: stated });
  const bare = solved({ arm, read: { kind: 'stated' } });
  if (read.kind !== 'place' || bare.kind !== 'place') throw new Error('no arm');
  expect(read.reading).toBeNull();
  expect(read.place.asItStands?.effectiveLengthMm.value).toBeCloseTo(239, 6);
  expect(read.request.readings?.readings.map(({ kind }) => kind)).toEqual(['length', 'offset']);
  expect(bare.reading).toBeNull();
  expect(bare.place.asItStands).toBeNull();
  expect(bare.request).not.toHaveProperty('readings');
  expect(read.request).toMatchObject(bare.request);
  // with its readings taken away the arm is the same
  expect({ ...read.place, asItStands: null, moves: [], overlays: [], withheld: [] }).toEqual({
    ...bare.place,
    asItStands: null,
    moves: [],
    overlays: [],
    withheld: [],
  });
});

test('a reading that cannot be used leaves the arm and says why, and whether it is only not there yet', () => {
  const reading = (read: PlaceTyped['read'], sheet: PlaceTyped['sheet'] = {}) => {
    const answer = solved({ arm, read, sheet });
    if (answer.kind !== 'place') throw new Error('no arm');
    expect(answer.place.asItStands).toBeNull();
    expect(answer.request).not.toHaveProperty('readings');
    return said(answer.reading);
  };
  expect(reading({ kind: 'stated', statedLength: '239' })).toEqual({
    missing: true,
    why: 'Still to be typed: offset as it is set.',
  });
  expect(reading({ ...stated, withinMm: 'x' })).toMatchObject({
    missing: false,
    why: expect.stringMatching(/^Lengths to within ±: Found “x”/),
  });
  // the core refuses a template on which no such point can be drawn
  const point = { radius: '190', along: '0', across: '0', twist: '0' };
  const other = { sheetFor: 'other', sheetPivot: '200', sheetLength: '420' } as const;
  expect(reading({ ...other, inner: point })).toMatchObject({ missing: false, why: expect.stringContaining('190 mm') });
});

test('an arm that cannot play the span is said to be none, with a reading as without', () => {
  const none = { arm: { known: 'overhang', overhang: '-90', movable: 'slide', heldOffset: '0' } } as const;
  for (const data of [none, { ...none, read: stated }]) {
    const answer = solved(data);
    expect(answer.kind, JSON.stringify(said(answer)).slice(0, 300)).toBe('obstacle');
    if (answer.kind === 'obstacle') expect(answer.missing).toBe(false);
  }
});
