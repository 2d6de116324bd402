import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import { M2_5_PITCH, screwLengths, threadsEngaged } from './screwLength.ts';

const seed = 25;

describe('screw length', () => {
  test('by hand: 2.5 mm shell, 3 mm flange, 2 mm nut: 6.85 mm for three threads, 7.3 for four, 8.85 at most', () => {
    const stack = {
      headshell: 2.5,
      spacer: 0,
      washer: 0,
      into: { kind: 'nut', flange: 3, nut: 2 },
      pitch: M2_5_PITCH,
    } as const;
    const lengths = screwLengths(stack);
    if (!lengths.found) throw new Error(lengths.why.code);
    expect(lengths.shortest).toBeCloseTo(6.85, 12);
    expect(lengths.fourThreads).toBeCloseTo(7.3, 12);
    expect(lengths.longest).toBeCloseTo(8.85, 12);
  });

  test('by hand: 2.5 mm shell, 1 mm spacer, tapped 3 mm: 4.85 mm to half a thread before the bottom', () => {
    const stack = {
      headshell: 2.5,
      spacer: 1,
      washer: 0,
      into: { kind: 'tapped', depth: 3 },
      pitch: M2_5_PITCH,
    } as const;
    const lengths = screwLengths(stack);
    if (!lengths.found) throw new Error(lengths.why.code);
    expect(lengths.shortest).toBeCloseTo(4.85, 12);
    expect(lengths.longest).toBeCloseTo(6.5 - 0.225, 12);
  });

  test('too shallow a hole and too thin a nut are told', () => {
    const tapped = screwLengths({
      headshell: 2,
      spacer: 0,
      washer: 0,
      into: { kind: 'tapped', depth: 1 },
      pitch: 0.45,
    });
    expect(tapped).toMatchObject({ found: false });
    if (!tapped.found) expect(say(tapped.why)).toContain('1 mm deep');
    const nut = screwLengths({
      headshell: 2,
      spacer: 0,
      washer: 0,
      into: { kind: 'nut', flange: 2, nut: 1 },
      pitch: 0.45,
    });
    if (!nut.found) expect(say(nut.why)).toContain('2.22 threads');
    expect(nut.found).toBe(false);
  });

  const part = fc.double({ min: 0, max: 6, noNaN: true });
  test(`the shortest engages three threads, the longest no fewer (seed ${seed})`, () => {
    fc.assert(
      fc.property(part, part, part, part, fc.boolean(), (headshell, spacer, flange, depth, tapped) => {
        const into = tapped ? ({ kind: 'tapped', depth } as const) : ({ kind: 'nut', flange, nut: depth } as const);
        const stack = { headshell, spacer, washer: 0.5, into, pitch: M2_5_PITCH };
        const lengths = screwLengths(stack);
        if (!lengths.found) return;
        expect(threadsEngaged(stack, lengths.shortest)).toBeCloseTo(3, 9);
        expect(threadsEngaged(stack, lengths.fourThreads)).toBeGreaterThanOrEqual(3 - 1e-9);
        expect(threadsEngaged(stack, lengths.longest)).toBeGreaterThanOrEqual(3 - 1e-9);
        expect(lengths.longest).toBeGreaterThanOrEqual(lengths.shortest);
      }),
      { seed },
    );
  });

  test('refuses what is no thickness', () => {
    expect(() =>
      screwLengths({ headshell: Number.NaN, spacer: 0, washer: 0, into: { kind: 'tapped', depth: 3 }, pitch: 0.45 }),
    ).toThrow(/headshell is NaN mm/);
  });
});
