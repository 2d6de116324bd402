/** Readings into the arm as it is set: given back where they fix it, withheld where they do not. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { say } from '../words/statement.ts';
import { pivotedArm } from './arm.ts';
import { armFromReadings } from './estimate.ts';
import { errorWithinReach, nullRadii } from './law.ts';
import { readAtPoint, target } from './readAtPoint.fixture.ts';
import { type Reading, squareAt } from './readings.ts';

const seed = 73;
const truths = fc.record({
  d: fc.double({ min: 190, max: 300, noNaN: true }),
  dL: fc.double({ min: -4, max: 4, noNaN: true }),
  turn: fc.double({ min: -0.07, max: 0.07, noNaN: true }),
  swing: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
  R: fc.double({ min: 62, max: 140, noNaN: true }),
});

describe(`readings into the arm (seed ${seed})`, () => {
  test('a point with its misses gives the arm back', () => {
    fc.assert(
      fc.property(truths, ({ d, dL, turn, swing, R }) => {
        const aim = target(d);
        const truth = { d, L: aim.effectiveLength + dL, offset: aim.offset + turn };
        const reading = readAtPoint(truth, { d, L: aim.effectiveLength }, R, swing);
        const answer = armFromReadings([reading], aim, { value: d });
        if (!answer.found) throw new Error(answer.why.code);
        expect(answer.value.arm.effectiveLength).toBeCloseTo(truth.L, 6);
        expect(answer.value.arm.offset).toBeCloseTo(truth.offset, 8);
      }),
      { seed },
    );
  });

  test('so does a sheet drawn for another arm and another pivot distance', () => {
    const truth = { d: 222, L: 238.1, offset: 0.41 };
    const sheet = { d: 215, L: 232.8 };
    const answer = armFromReadings([readAtPoint(truth, sheet, 80, 0.004)], target(222), { value: 222 });
    if (!answer.found) throw new Error(answer.why.code);
    expect(answer.value.arm.effectiveLength).toBeCloseTo(238.1, 6);
    expect(answer.value.arm.offset).toBeCloseTo(0.41, 8);
  });

  test('two twists, or the two square radii, give the arm back', () => {
    fc.assert(
      fc.property(truths, ({ d, dL, turn }) => {
        const aim = target(d);
        const truth = pivotedArm(d, aim.effectiveLength + dL, aim.offset + turn);
        const twists: Reading[] = [66, 121].map((radius) => ({
          kind: 'twist',
          radius,
          twist: -errorWithinReach(truth, radius),
        }));
        const readings = [twists];
        const nulls = nullRadii(truth);
        if (nulls.length === 2 && nulls[0] > 30 && nulls[1] < 190 && nulls[1] - nulls[0] > 20) {
          readings.push(squareAt(nulls[0], nulls[1]));
        }
        for (const list of readings) {
          const answer = armFromReadings(list, aim, { value: d });
          if (!answer.found) throw new Error(answer.why.code);
          expect(answer.value.arm.effectiveLength).toBeCloseTo(truth.effectiveLength, 5);
          expect(answer.value.arm.offset).toBeCloseTo(truth.offset, 7);
        }
      }),
      { seed },
    );
  });
});

describe('what does not fix the arm', () => {
  const aim = target(222);

  test('nothing read, one twist alone, radii too close', () => {
    expect(armFromReadings([], aim, { value: 222 })).toMatchObject({ found: false });
    const one = armFromReadings([{ kind: 'twist', radius: 66, twist: 0 }], aim, { value: 222 });
    expect(one.found).toBe(false);
    const close = armFromReadings(
      [66, 68].map((radius) => ({ kind: 'twist', radius, twist: 0 })),
      aim,
      { value: 222 },
    );
    expect(close).toMatchObject({ found: false });
    expect(!close.found && say(close.why)).toContain('read at radii further apart');
  });

  test('readings that contradict one another are said to', () => {
    const answer = armFromReadings(
      [
        { kind: 'overhang', overhang: 20 },
        { kind: 'length', effectiveLength: 239.3 },
        { kind: 'offset', offset: 0.4 },
      ],
      aim,
      { value: 222 },
    );
    if (!answer.found) throw new Error(answer.why.code);
    expect(answer.value.disagreement?.code).toBe('readings-disagree');
  });

  test('an arm that cannot stand so is none', () => {
    // 100 mm short of a spindle at 120 mm: an arm of 20 mm
    const stub = armFromReadings([{ kind: 'overhang', overhang: -100 }], aim, { value: 120 });
    expect(stub).toMatchObject({ found: false, why: { code: 'length-not-fixed' } });
  });
});
