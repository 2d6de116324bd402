import { expect, it } from 'vitest';
import type { JudgedFinding } from '../../../advise/document.ts';
import { halfTurnAnswer, halfTurnLines, turnsOf } from './halfTurn.ts';

/** Phasors of two tones: the record's part turns its sign against the platter's. */
function recording(id: string, sign: 1 | -1, platter = 0.0004) {
  const finding = (sheetBand: number, record: readonly [number, number]): JudgedFinding => ({
    ...{ quantity: 'once-per-turn', value: 0.1, unit: '%', uncertainty: 0.001, bands: [sheetBand] },
    ...{ notes: [], note: '', verdict: 'info' as const },
    atStart: {
      re: record[0] + sign * platter,
      im: record[1],
      ...{ variance: 1e-12, degreesOfFreedom: 40, rotationHz: 0.5556 },
      ...{ frequencyHz: 3150, radiusMm: 100, sheetBand },
    },
  });
  return { id, findings: [finding(4, [0.001, 0.0005]), finding(9, [-0.0003, 0.0012])] };
}
const two = [recording('a', 1), recording('b', -1)];

it('two recordings with half a turn between tell the platter from the record', () => {
  const answer = halfTurnAnswer({ first: 'a', second: 'b' }, two);
  if (answer?.found !== true) throw new Error('a figure was expected');
  expect(answer.finding).toMatchObject({ quantity: 'once-per-turn-platter', unit: '%', bands: [4, 9] });
  expect(answer.finding.value).toBeCloseTo(0.04, 4);
  expect(answer.finding.uncertainty).toBeGreaterThan(0.04);
  expect(halfTurnLines({ first: 'a', second: 'b' }, two)[0].text).toMatch(/^0\.0\d* ± .* half a turn/);
});

it('nothing is told of one recording, of one that is gone, nor of those that an earlier version kept', () => {
  expect(halfTurnAnswer({}, two)).toBeNull();
  expect(halfTurnAnswer({ first: 'a', second: 'a' }, two)).toBeNull();
  expect(halfTurnAnswer({ first: 'a', second: 'gone' }, two)).toBeNull();
  const older = two.map(({ id, findings }) => ({
    id,
    findings: findings.map(({ atStart: _, ...one }) => one),
  }));
  expect(turnsOf(older[0])).toEqual([]);
  expect(halfTurnAnswer({ first: 'a', second: 'b' }, older)).toMatchObject({ found: false });
  expect(halfTurnLines({ first: 'a', second: 'b' }, older)).toEqual([]);
});
