import { expect, test } from 'vitest';
import { degToRad } from '../units/units.ts';
import { pivotedArm } from './arm.ts';
import { nullRadii } from './law.ts';
import { nullSpread } from './nullSpread.ts';

// n² − 2 n L sin φ + L² − d² = 0, differentiated: (n − L sin φ) dn = (n sin φ − L) dL + n L cos φ dφ + d dd
test('small tolerances move the null points as the derivative of the law says', () => {
  const arm = pivotedArm(222, 239.296, degToRad(22.9855));
  const { effectiveLength: L, spindleToPivot: d, offset } = arm;
  const small = { overhang: 0.01, twist: degToRad(0.01), spindleToPivot: 0.02 };
  const expected = nullRadii(arm).map((n) => {
    const by = n - L * Math.sin(offset);
    return Math.hypot(
      (small.overhang * (n * Math.sin(offset) - L)) / by,
      (small.twist * n * L * Math.cos(offset)) / by,
      (small.spindleToPivot * d) / by,
    );
  });
  const got = nullSpread(arm, small);
  expect(got).toHaveLength(2);
  expected.forEach((value, i) => {
    expect(got?.[i]).toBeCloseTo(value, 4);
  });
});

test('no spread is claimed where the null points may be gone within the tolerances', () => {
  const nearlyOne = pivotedArm(222, 239.296, degToRad(22.2));
  expect(nullRadii(nearlyOne)).toHaveLength(2);
  expect(nullSpread(nearlyOne, { overhang: 0.5, twist: degToRad(2), spindleToPivot: 1 })).toBeNull();
});
