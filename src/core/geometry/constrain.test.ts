import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { degToRad } from '../units/units.ts';
import { say } from '../words/statement.ts';
import { pivotedArm } from './arm.ts';
import { constrainArm, constrainTangentialArm, fixedAt } from './constrain.ts';
import { armFigures } from './distortion.ts';
import { cost, criterionNodes } from './exact.ts';
import { pivotChoices } from './pivot.ts';
import { grooveSpan, namedSpans } from './span.ts';

const seed = 59;
const span = grooveSpan('12in');
const at = (mm: number) => ({ known: 'spindle-to-pivot', mm }) as const;

describe(`the best that remains (seed ${seed})`, () => {
  test('nothing inside the limits does better (brute force over a grid)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('lofgren-a', 'least-squares', 'stevenson'),
        fc.constantFrom(...namedSpans),
        fc.double({ min: 190, max: 320, noNaN: true }),
        fc.double({ min: -3, max: 14, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        fc.double({ min: 14, max: 26, noNaN: true }),
        fc.double({ min: 0, max: 4, noNaN: true }),
        (criterion, groove, d, o, slot, offsetDeg, turn) => {
          const limits = {
            effectiveLength: { least: d + o, most: d + o + slot },
            offset: { least: degToRad(offsetDeg), most: degToRad(offsetDeg + turn) },
          };
          const best = constrainArm({ length: at(d), span: groove, criterion, limits });
          if (!best.found) throw new Error(best.why.code);
          const nodes = criterionNodes(criterion, groove);
          const least = cost(criterion, best.value.arm, groove, nodes);
          for (let i = 0; i <= 10; i++) {
            for (let k = 0; k <= 10; k++) {
              const other = pivotedArm(d, d + o + (slot * i) / 10, degToRad(offsetDeg + (turn * k) / 10));
              expect(cost(criterion, other, groove, nodes)).toBeGreaterThanOrEqual(least * (1 - 1e-6));
            }
          }
        },
      ),
      { seed, numRuns: 60 },
    );
  });

  test('limits that hold the free optimum cost nothing', () => {
    const best = constrainArm({
      length: at(222),
      span,
      criterion: 'lofgren-a',
      limits: { effectiveLength: { least: 235, most: 245 }, offset: { least: 0.3, most: 0.5 } },
    });
    if (!best.found) throw new Error(best.why.code);
    expect(best.value.costsPeakPercent).toBe(0);
    expect(best.value.heldBy.map(say)).toEqual([]);
  });

  test('a fixed length, a fixed offset, and both, cost more in that order or equal', () => {
    const price = (limits: Parameters<typeof constrainArm>[0]['limits']): number => {
      const best = constrainArm({ length: at(222), span, criterion: 'lofgren-a', limits });
      if (!best.found || best.value.costsPeakPercent === null) throw new Error('no price');
      return best.value.costsPeakPercent;
    };
    const length = price({ effectiveLength: fixedAt(238) });
    const both = price({ effectiveLength: fixedAt(238), offset: fixedAt(degToRad(24)) });
    expect(length).toBeGreaterThan(0.05);
    expect(both).toBeGreaterThan(length);
  });

  test('of two limits only the one whose edge the arm comes to is told', () => {
    const held = (limits: Parameters<typeof constrainArm>[0]['limits']): readonly string[] => {
      const best = constrainArm({ length: at(222), span, criterion: 'lofgren-a', limits });
      if (!best.found) throw new Error(best.why.code);
      return best.value.heldBy.map((one) => say(one));
    };
    // free: 239.3 mm and 22.99 degrees
    const wide = { least: degToRad(15), most: degToRad(35) };
    expect(held({ effectiveLength: { least: 234, most: 238 }, offset: wide })).toEqual([
      'effective length between 234.00 and 238.00 mm',
    ]);
    expect(held({ effectiveLength: { least: 240.5, most: 244 }, offset: wide })).toEqual([
      'effective length between 240.50 and 244.00 mm',
    ]);
    const less = { least: degToRad(18), most: degToRad(22) };
    expect(held({ effectiveLength: { least: 230, most: 250 }, offset: less })).toEqual([
      'offset between 18.00 and 22.00°',
    ]);
    const more = { least: degToRad(24), most: degToRad(28) };
    expect(held({ effectiveLength: { least: 230, most: 250 }, offset: more })).toEqual([
      'offset between 24.00 and 28.00°',
    ]);
    expect(held({ effectiveLength: { least: 234, most: 236 }, offset: fixedAt(degToRad(30)) })).toEqual([
      'effective length between 234.00 and 236.00 mm',
      'offset fixed at 30.00°',
    ]);
  });

  test('a zero-offset arm comes out underhung, with one null point', () => {
    const best = constrainArm({ length: at(222), span, criterion: 'lofgren-a', limits: { offset: fixedAt(0) } });
    if (!best.found) throw new Error(best.why.code);
    expect(best.value.figures.overhangMm).toBeLessThan(-10);
    expect(best.value.figures.nullPointsMm.length).toBe(1);
    expect(best.value.costsPeakPercent).toBeGreaterThan(3);
  });

  test('pivot free instead: a fixed offset and a known effective length place the pivot', () => {
    const best = constrainArm({
      length: { known: 'effective-length', mm: 239.3 },
      span,
      criterion: 'lofgren-a',
      limits: { offset: fixedAt(degToRad(23)) },
    });
    if (!best.found) throw new Error(best.why.code);
    expect(best.value.arm.effectiveLength).toBe(239.3);
    expect(best.value.arm.spindleToPivot).toBeCloseTo(222, 1);
  });

  test('an arm that cannot reach is refused with the bounds', () => {
    const out = constrainArm({
      length: at(222),
      span,
      criterion: 'lofgren-a',
      limits: { effectiveLength: fixedAt(300) },
    });
    expect(out).toMatchObject({ found: false });
    expect(!out.found && say(out.why)).toContain('must lie between 161.7 and 282.3 mm');
    expect(() =>
      constrainArm({
        length: at(222),
        span,
        criterion: 'lofgren-a',
        limits: { effectiveLength: { least: 240, most: 230 } },
      }),
    ).toThrow('effective length may run from 240 to 230 mm');
    expect(() =>
      constrainArm({ length: at(222), span, criterion: 'lofgren-a', limits: { offset: fixedAt(Number.NaN) } }),
    ).toThrow('least offset is NaN rad');
    const refused = (effectiveLength: { least: number; most: number }) => () =>
      constrainArm({ length: at(222), span, criterion: 'lofgren-a', limits: { effectiveLength } });
    // one value has one name, two have each its own
    expect(refused(fixedAt(20))).toThrow(/^effective length is 20 mm/);
    expect(refused({ least: 20, most: 240 })).toThrow(/^least effective length is 20 mm/);
    expect(refused({ least: 230, most: 1e6 })).toThrow(/^most effective length is 1000000 mm/);
    expect(out).toMatchObject({ why: { values: { known: 'spindle to pivot', limited: 'effective length' } } });
    const pivot = constrainArm({
      length: { known: 'effective-length', mm: 239.3 },
      span,
      criterion: 'lofgren-a',
      limits: { spindleToPivot: fixedAt(150) },
    });
    expect(pivot).toMatchObject({
      found: false,
      why: { code: 'limit-out-of-reach', values: { known: 'effective length', limited: 'spindle to pivot' } },
    });
  });
});

describe('tangential', () => {
  test('free: no error anywhere', () => {
    const best = constrainTangentialArm('lofgren-a', span, {});
    if (!best.found) throw new Error(best.why.code);
    expect(best.value.figures).toMatchObject({
      overhangMm: 0,
      offsetDeg: 0,
      peakDistortionPercent: 0,
      nullPointsMm: [],
    });
  });

  test('a line that misses the spindle is partly made good by a twist', () => {
    const best = constrainTangentialArm('lofgren-a', span, { overhang: fixedAt(2) });
    const bare = armFigures({ kind: 'tangential', overhang: 2, offset: 0 }, span);
    if (!best.found || !bare.found) throw new Error('no figures');
    expect(best.value.arm.offset).toBeGreaterThan(0);
    expect(best.value.figures.peakDistortionPercent).toBeLessThan(0.2 * bare.value.peakDistortionPercent);
    expect(best.value.heldBy.map(say)).toEqual(['overhang fixed at 2.00 mm']);
  });
});

test('tangential: a line that passes the spindle and a twist that is held, each told where it holds', () => {
  const held = (limits: Parameters<typeof constrainTangentialArm>[2]): readonly string[] => {
    const best = constrainTangentialArm('lofgren-a', span, limits);
    if (!best.found) throw new Error(best.why.code);
    return best.value.heldBy.map((one) => say(one));
  };
  const small = { least: -degToRad(1), most: degToRad(1) };
  expect(held({ overhang: { least: -1, most: 1 }, offset: small })).toEqual([]);
  expect(held({ overhang: { least: 1, most: 3 }, offset: { least: -degToRad(5), most: degToRad(5) } })).toEqual([
    'overhang between 1.00 and 3.00 mm',
  ]);
  expect(held({ overhang: { least: -6, most: 6 }, offset: { least: degToRad(1), most: degToRad(2) } })).toEqual([
    'twist between 1.00 and 2.00°',
  ]);
  expect(held({ overhang: fixedAt(2), offset: fixedAt(0) })).toEqual([
    'overhang fixed at 2.00 mm',
    'twist fixed at 0.00°',
  ]);
});

test('a pivot that is elsewhere: each choice with its distortion, the worst to leave it', () => {
  const makers = pivotedArm(222, 239.296, 0.401173);
  const choices = pivotChoices(makers, 224, { span, criterion: 'lofgren-a' });
  if (!choices.found) throw new Error(choices.why.code);
  const peak = Object.fromEntries(choices.value.map(({ choice, figures }) => [choice, figures.peakDistortionPercent]));
  expect(Object.keys(peak)).toEqual(['leave', 'slide', 'twist', 'slide-and-twist', 'move-the-pivot']);
  expect(peak.leave).toBeGreaterThan(2 * peak['move-the-pivot']);
  expect(peak['slide-and-twist']).toBeLessThan(peak.slide);
  expect(peak.slide).toBeLessThan(peak.leave);
  expect(peak.twist).toBeLessThan(peak.leave);
  expect(() => pivotChoices(makers, 300, { span, criterion: 'lofgren-a' })).toThrow(
    'measured spindle to pivot is 300 mm',
  );
});

test('of a pivot that is elsewhere only what still plays the record is a choice', () => {
  // 280 mm from a pivot at 222 mm comes within 58 mm of the spindle, from one at 200 mm within 80 mm
  const long = pivotedArm(222, 280, 0.4);
  const choices = pivotChoices(long, 200, { span, criterion: 'lofgren-a' });
  if (!choices.found) throw new Error(choices.why.code);
  expect(choices.value.map(({ choice }) => choice)).toEqual(['slide', 'slide-and-twist', 'move-the-pivot']);
  for (const { figures, does } of choices.value) {
    expect(figures.peakDistortionPercent).toBeGreaterThan(0);
    expect(does).not.toBe('');
  }
});

test('a known overhang with limits to the effective length is a limit to the pivot distance', () => {
  const limits = { effectiveLength: { least: 230, most: 235 } };
  const best = constrainArm({ length: { known: 'overhang', mm: 17 }, span, criterion: 'lofgren-a', limits });
  if (!best.found) throw new Error(best.why.code);
  // free it is some 226 mm
  expect(best.value.arm.spindleToPivot).toBeCloseTo(218, 6);
  expect(best.value.arm.effectiveLength).toBeCloseTo(235, 6);
  expect(best.value.heldBy.map((one) => say(one))).toEqual(['spindle to pivot between 213.00 and 218.00 mm']);
});
