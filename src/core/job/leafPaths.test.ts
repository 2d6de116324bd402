import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyLeaves, atPath, leafChanges, leafChangesSchema, leafWords } from './leafPaths.ts';
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
