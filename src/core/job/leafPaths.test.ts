import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyLeaves, atPath, joinedList, leafChanges, leafChangesSchema, leafWords, withPath } from './leafPaths.ts';
import { sameJson } from './sameJson.ts';

const document = fc.dictionary(
  fc.constantFrom('a', 'b', 'c'),
  fc.oneof(
    fc.string({ maxLength: 3 }),
    fc.constant(null),
    fc.array(fc.constantFrom('x', 'y'), { maxLength: 2 }),
    fc.dictionary(fc.constantFrom('d', 'e'), fc.oneof(fc.nat(9), fc.dictionary(fc.constantFrom('f'), fc.nat(3)))),
  ),
);
/** objects without keys are the same as none */
const bare = (value: unknown): unknown => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  const kept = Object.entries(value)
    .map(([key, inner]) => [key, bare(inner)] as const)
    .filter(([, inner]) => inner !== undefined);
  return kept.length === 0 ? undefined : Object.fromEntries(kept);
};

describe('changes by leaf path', () => {
  it('lead from one document to the other, and a repeated request is harmless', () => {
    fc.assert(
      fc.property(document, document, (was, is) => {
        const changes = JSON.parse(JSON.stringify(leafChanges(was, is)));
        leafChangesSchema.parse(changes);
        const once = applyLeaves(was, changes);
        if (once.outcome !== 'applied') throw new Error('a conflict with nobody');
        expect(bare(once.document)).toEqual(bare(is));
        const twice = applyLeaves(once.document, changes);
        expect(twice).toEqual(once);
      }),
      { seed: 20_261_128 },
    );
  });

  it('two windows: a gauge reading typed in one and a height stored by the other both stay', () => {
    const was = { gauge: { reading: '1.8' } };
    const other = applyLeaves(was, leafChanges(was, { gauge: { reading: '1.8', height: '2' } }));
    if (other.outcome !== 'applied') throw new Error('conflict');
    expect(applyLeaves(other.document, leafChanges(was, { gauge: { reading: '1.82' } }))).toEqual({
      outcome: 'applied',
      document: { gauge: { reading: '1.82', height: '2' } },
    });
  });

  it('the same leaf changed to two values is told with both, and nothing of the request is applied', () => {
    const changes = [
      { path: ['target'], was: '1.8', is: '2.0' },
      { path: ['dial'], is: '1.9' },
    ];
    expect(applyLeaves({ target: '1.7' }, changes)).toEqual({
      outcome: 'conflict',
      conflicts: [{ path: ['target'], yours: '2.0', theirs: '1.7' }],
    });
  });

  it('a key that is not there differs from one that is null', () => {
    const was = { leads: { white: 'left+' } };
    const changes = leafChanges(was, { leads: { white: 'left+', blue: null } });
    expect(changes).toEqual([{ path: ['leads', 'blue'], is: null }]);
    expect(applyLeaves({ leads: { white: 'left+', blue: 'right+' } }, changes)).toMatchObject({ outcome: 'conflict' });
  });

  it('what is one thing is one leaf', () => {
    const was = { parts: { arm: { id: 'a', part: { name: 'one' } } } };
    const is = { parts: { arm: { id: 'b', part: { name: 'two' } } } };
    expect(leafChanges(was, is, [['parts', '*']])).toEqual([
      { path: ['parts', 'arm'], was: was.parts.arm, is: is.parts.arm },
    ]);
  });

  it('lists are joined where both changes can stand', () => {
    const joined = (was: string[], mine: string[], theirs: string[]) =>
      applyLeaves({ list: theirs }, [{ path: ['list'], was, is: mine }]);
    expect(joined(['a'], ['a', 'b'], ['a', 'c'])).toMatchObject({ document: { list: ['a', 'c', 'b'] } });
    expect(joined(['a', 'b'], ['b'], ['a', 'b', 'c'])).toMatchObject({ document: { list: ['b', 'c'] } });
    // a repeat that comes after somebody else's row
    expect(joined(['a'], ['a', 'b'], ['a', 'b', 'c'])).toMatchObject({ document: { list: ['a', 'b', 'c'] } });
    const rows = applyLeaves({ sets: [{ mn: 1 }, { mn: 3 }] }, [
      { path: ['sets'], was: [{ mn: 1 }], is: [{ mn: 1 }, { mn: 2 }] },
    ]);
    expect(rows).toMatchObject({ document: { sets: [{ mn: 1 }, { mn: 3 }, { mn: 2 }] } });
    const cell = applyLeaves({ rows: [{ t: '2' }] }, [{ path: ['rows'], was: [{ t: '1' }], is: [{ t: '3' }] }]);
    expect(cell.outcome).toBe('conflict');
  });

  it('never reaches into what is no document', () => {
    expect(leafChangesSchema.safeParse([{ path: ['__proto__', 'x'], is: 1 }]).success).toBe(false);
    expect(leafChangesSchema.safeParse([{ path: [], is: 1 }]).success).toBe(false);
    expect(atPath({}, ['toString'])).toBeUndefined();
    expect(
      sameJson(applyLeaves({ a: 'text' }, [{ path: ['a', 'b'], is: 1 }]), {
        outcome: 'applied',
        document: { a: { b: 1 } },
      }),
    ).toBe(true);
  });

  it('a path without a label reads as words', () => {
    expect(leafWords(['gauge', 'secondReading'])).toBe('gauge, second reading');
    expect(leafWords(['facts', 'hardwareMassG'])).toBe('facts, hardware mass');
  });
});

describe('what stands at a path', () => {
  const document = { a: { b: [{ c: 1 }], n: null, t: 'text' } };
  it('is a value, a list whole, and nothing within either', () => {
    expect(atPath(document, [])).toEqual(document);
    expect(atPath(document, ['a', 'b'])).toEqual([{ c: 1 }]);
    expect(atPath(document, ['a', 'n'])).toBeNull();
    for (const path of [['a', 'b', '0'], ['a', 'n', 'x'], ['a', 't', 'length'], ['x'], ['a', 'constructor']])
      expect(atPath(document, path), path.join('.')).toBeUndefined();
    expect(atPath(undefined, ['a'])).toBeUndefined();
  });

  it('is put in with what stands on the way made, and taken out with what it empties', () => {
    const before = { a: { b: { c: '1', d: '2' } }, e: 'x' };
    const copy = structuredClone(before);
    expect(withPath(before, ['a', 'b', 'c'], '3')).toEqual({ a: { b: { c: '3', d: '2' } }, e: 'x' });
    expect(withPath(before, ['e', 'f', 'g'], 1)).toEqual({ ...before, e: { f: { g: 1 } } });
    expect(withPath(before, ['a'], undefined)).toEqual({ e: 'x' });
    expect(withPath(before, ['a', 'b', 'c'], undefined)).toEqual({ a: { b: { d: '2' } }, e: 'x' });
    expect(withPath({ a: { b: { c: '1' } }, e: 'x' }, ['a', 'b', 'c'], undefined)).toEqual({ e: 'x' });
    expect(withPath({ a: { b: { c: '1' }, d: 2 } }, ['a', 'b', 'c'], undefined)).toEqual({ a: { d: 2 } });
    for (const path of [['e', 'f'], ['x', 'y'], ['z']]) expect(withPath(before, path, undefined)).toEqual(before);
    expect(withPath({ a: { b: {} } }, ['a', 'b'], {})).toEqual({ a: { b: {} } });
    expect(before).toEqual(copy);
  });
});

describe('leaves in which two documents differ', () => {
  it('are told with what stood and what stands there, each once', () => {
    const was = { same: 1, gone: 'x', list: [1], text: 'a', object: { inner: 1 }, empty: {} };
    const is = { same: 1, list: [2], text: { now: 1 }, object: 'leaf', fresh: { inner: [] }, none: {} };
    expect(leafChanges(was, is)).toEqual([
      { path: ['gone'], was: 'x' },
      { path: ['list'], was: [1], is: [2] },
      { path: ['text'], was: 'a', is: { now: 1 } },
      { path: ['object'], was: { inner: 1 }, is: 'leaf' },
      { path: ['fresh', 'inner'], is: [] },
    ]);
    expect(leafChanges(was, was)).toEqual([]);
    expect(leafChanges(undefined, undefined)).toEqual([]);
    expect(leafChanges(undefined, { a: 1 }, [], ['b'])).toEqual([{ path: ['b', 'a'], is: 1 }]);
    expect(leafChanges(undefined, null)).toEqual([{ path: [], is: null }]);
  });

  it('a whole is one leaf at its path alone, whatever the key under a star', () => {
    const [was, is] = [{ p: { x: { y: { z: 1 } } } }, { p: { x: { y: { z: 2 } } } }];
    const paths = (...wholes: string[][]) => leafChanges(was, is, wholes).map(({ path }) => path.join('.'));
    expect(paths(['p'])).toEqual(['p']);
    expect(paths(['p', '*'])).toEqual(['p.x']);
    expect(paths(['*', 'x'])).toEqual(['p.x']);
    expect(paths(['p', 'q'], ['q'], ['*', '*', '*', '*', '*'])).toEqual(['p.x.y.z']);
    expect(paths(['q'], ['p', 'x', 'y'])).toEqual(['p.x.y']);
    expect(leafChanges({ p: { x: { y: 1 } } }, { p: {} }, [['p', '*']])).toEqual([{ path: ['p', 'x'], was: { y: 1 } }]);
  });
});

describe('two changes of one list', () => {
  it('are joined where both can stand', () => {
    const rows = (...list: number[]) => list.map((n) => ({ n }));
    const cases: [unknown, unknown, unknown, unknown][] = [
      // was, mine, theirs, both
      [['a'], ['a', 'b'], ['a', 'c'], ['a', 'c', 'b']],
      [undefined, ['b'], ['c'], ['c', 'b']],
      [['a'], ['b'], ['a', 'c'], ['c', 'b']],
      [['a', 'b'], ['a'], ['b'], []],
      [
        ['a', 'b', 'c'],
        ['a', 'c', 'd'],
        ['c', 'b', 'd'],
        ['c', 'd'],
      ],
      [[], [], ['a'], ['a']],
      [rows(1), rows(1, 2), rows(1, 3), rows(1, 3, 2)],
      [rows(1), rows(1, 2), rows(1, 2, 3), rows(1, 2, 3)],
      [rows(1), rows(1, 2), rows(4, 3), undefined],
      [rows(1), rows(2), rows(1, 3), undefined],
      [rows(1, 2), rows(1), rows(1, 2, 3), undefined],
      [['a', 1], ['a'], ['a', 1, 'b'], undefined],
      [['a'], 'text', ['a', 'b'], undefined],
      ['text', ['a'], ['a', 'b'], undefined],
      [['a'], ['a', 'b'], 'text', undefined],
      [['a'], undefined, ['a', 'b'], undefined],
      [['a'], ['a', 'b'], undefined, undefined],
    ];
    for (const [was, mine, theirs, both] of cases)
      expect(joinedList(was as never, mine as never, theirs as never), JSON.stringify([was, mine, theirs])).toEqual(
        both,
      );
  });
});

describe('changes that are applied', () => {
  const apply = (document: object, ...changes: object[]) => applyLeaves(document as never, changes as never);
  it('are applied one after the other, a repeated one and one that takes away what is gone are none', () => {
    expect(
      apply(
        { a: '1' },
        { path: ['a'], was: '1', is: '2' },
        { path: ['a'], was: '2', is: '3' },
        { path: ['b'], is: null },
      ),
    ).toEqual({
      outcome: 'applied',
      document: { a: '3', b: null },
    });
    expect(apply({ a: '1' }, { path: ['b'], was: 'x' })).toEqual({ outcome: 'applied', document: { a: '1' } });
    expect(apply({ a: '1', b: '2' }, { path: ['a'], was: '1' })).toEqual({ outcome: 'applied', document: { b: '2' } });
    expect(apply({ a: '1' })).toEqual({ outcome: 'applied', document: { a: '1' } });
  });

  it('tell every conflict with both values; what is not there has none', () => {
    expect(
      apply(
        { a: '1', b: '2', c: '3' },
        { path: ['a'], was: '0', is: '9' },
        { path: ['b'], was: '0' },
        { path: ['d'], was: '0', is: '1' },
        { path: ['c'], was: '3', is: '4' },
      ),
    ).toEqual({
      outcome: 'conflict',
      conflicts: [
        { path: ['a'], yours: '9', theirs: '1' },
        { path: ['b'], theirs: '2' },
        { path: ['d'], yours: '1' },
      ],
    });
  });
});

it('changes from outside are bounded, and name fields alone', () => {
  const takes = (path: unknown, more: object = {}) => leafChangesSchema.safeParse([{ path, is: 1, ...more }]).success;
  expect(
    [[], ['a'], Array(12).fill('a'), Array(13).fill('a'), [''], ['x'.repeat(100)], ['x'.repeat(101)]].map((path) =>
      takes(path),
    ),
  ).toEqual([...[false, true, true, false, false, true, false]]);
  for (const key of ['__proto__', 'constructor', 'prototype']) expect(takes(['a', key])).toBe(false);
  expect(takes(['a'], { more: 1 })).toBe(false);
  expect(leafChangesSchema.safeParse(Array(5001).fill({ path: ['a'] })).success).toBe(false);
});

it('units behind a name are no words of it', () => {
  expect(leafWords(['spindleToPivotMm', 'forceMn', 'offsetDeg', 'gainDb', 'massG'])).toBe(
    'spindle to pivot, force, offset, gain, mass',
  );
  expect(leafWords(['MmTo', 'dB', 'G'])).toBe(' mm to, d b, ');
});

describe('the same JSON', () => {
  it('is of the same keys, kinds and values', () => {
    const same: [unknown, unknown][] = [
      [undefined, undefined],
      [[], []],
      [{}, {}],
      [
        [1, [2]],
        [1, [2]],
      ],
      [{ a: { b: 1 } }, { a: { b: 1 } }],
    ];
    for (const [a, b] of same) expect(sameJson(a, b)).toBe(true);
    const other: [unknown, unknown][] = [
      ...([
        [undefined, null],
        [{}, null],
        [null, []],
        [{}, 'x'],
        ['x', {}],
        [[], {}],
        [{}, []],
        [[1], { 0: 1 }],
        [{ 0: 1 }, [1]],
      ] as [unknown, unknown][]),
      ...([
        [[1], [1, 2]],
        [[1, 2], [1]],
        [{ a: 1 }, {}],
        [{}, { a: 1 }],
        [{ a: undefined }, { b: undefined }],
      ] as [unknown, unknown][]),
      [{ toString: undefined }, { a: 1 }],
    ];
    for (const [a, b] of other) expect(sameJson(a, b), JSON.stringify([a, b])).toBe(false);
  });
});
