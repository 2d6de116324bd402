import { expect, it } from 'vitest';
import { playedArm } from './playedArm.ts';

it('is the arm that Place aims at: the length follows from the pivot and the criterion', () => {
  const arm = playedArm({ place: { arm: { known: 'spindle-to-pivot', spindleToPivot: '222' } } });
  if (arm === null || arm === 'tangential') throw new Error('no pivoted arm');
  expect(arm.spindleToPivot).toBe(222);
  // Löfgren A on IEC grooves, exact law: 239.3 mm (docs/methods of Place)
  expect(arm.effectiveLength).toBeCloseTo(239.3, 0);
});

it('is what nobody told where nobody told it, and tangential where Place says so', () => {
  expect(playedArm({})).toBeNull();
  expect(playedArm({ place: { arm: { known: 'tangential' } } })).toBe('tangential');
});
