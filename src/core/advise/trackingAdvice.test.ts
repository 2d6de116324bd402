import { expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';
import { adviseTracking } from './trackingAdvice.ts';

const note = (code: 'left-lost-first' | 'right-lost-first' | 'both-lost' | 'walls-not-told') => statement(code);
const wall = (
  channel: 'left' | 'right',
  low: number,
  high: number | null,
  move: Parameters<typeof note>[0] = 'both-lost',
  hz = 300,
): Finding => ({
  quantity: 'tracking-limit',
  channel,
  unit: 'cm/s',
  bands: [],
  value: high === null ? low : Math.sqrt(low * high),
  uncertainty: high === null ? null : high - Math.sqrt(low * high),
  low,
  high,
  notes: [
    high === null ? statement('tracked-throughout', { hz, low }) : statement('tracked-up-to', { hz, low, lost: high }),
    note(move),
  ],
});
const only = (findings: Finding[]) => {
  const advice = adviseTracking(findings);
  expect(advice).toHaveLength(1);
  return advice[0];
};

it.each([
  [15, 1.2],
  [18, -1.5],
  [20, 3],
])('force %s mN with %s mN inwards: the share is found again and both walls meet in the middle', (force, pull) => {
  // what presses on each wall, by the triangle of forces in a 90° groove: components along both walls' normals
  const normal = (degrees: number): number => {
    const angle = (degrees * Math.PI) / 180;
    return force * Math.cos(angle) + pull * Math.sin(angle);
  };
  const scale = 12 / force;
  const [left, right] = [scale * normal(45), scale * normal(-45)];
  const step = 1.02;
  const advice = only([wall('left', left / step, left * step), wall('right', right / step, right * step)]);
  expect(advice).toMatchObject({ action: 'set-skating', direction: pull > 0 ? 'more' : 'less', unit: '%' });
  expect(advice.amount).toBeCloseTo((100 * Math.abs(pull)) / force, 6);
  expect(advice.predicts[0]).toMatchObject({ quantity: 'tracking-limit' });
  // without the pull each wall has force/√2
  expect(advice.predicts[0].value).toBeCloseTo((scale * force) / Math.SQRT2, 6);
  expect(advice.why).toMatch(/bearings, dirt on the tip or a worn tip/);
});

it('one wall tracked throughout: which way, no amount, at least so much', () => {
  const advice = only([wall('left', 25, null), wall('right', 8, 11, 'right-lost-first')]);
  expect(advice).toMatchObject({ action: 'set-skating', direction: 'more', amount: null, predicts: [] });
  // (25 − 11)/(25 + 11)
  expect(advice.why).toMatch(/At least 39 %/);
});

it('the same step for both: bursts say which, else force where neither reaches what is usual', () => {
  expect(only([wall('left', 6, 8, 'left-lost-first'), wall('right', 6, 8, 'left-lost-first')])).toMatchObject({
    action: 'set-skating',
    direction: 'less',
    amount: null,
  });
  // 60 µm at 300 Hz are 11.3 cm/s
  const force = only([wall('left', 8.5, 11), wall('right', 8.5, 11)]);
  expect(force).toMatchObject({ action: 'set-force', direction: 'more' });
  expect(force.amount).toBeCloseTo(17, 0);
  expect(force.predicts[0].value).toBeCloseTo(0.2 * Math.PI * 300 * 0.06, 1);
  expect(only([wall('left', 4, 6), wall('right', 4, 6)]).why).toMatch(/More force alone/);
});

it('nothing to do where both reach what is usual, where all is tracked, where nobody knows which wall is whose, or without steps', () => {
  expect(adviseTracking([wall('left', 11, 15), wall('right', 11, 15)])).toEqual([]);
  expect(adviseTracking([wall('left', 25, null), wall('right', 25, null)])).toEqual([]);
  expect(adviseTracking([wall('left', 4, 6, 'both-lost', 1000), wall('right', 4, 6, 'both-lost', 1000)])).toEqual([]);
  const unknown = [wall('left', 25, null, 'walls-not-told'), wall('right', 8, 11, 'walls-not-told')];
  expect(adviseTracking(unknown)).toEqual([]);
  expect(adviseTracking([])).toEqual([]);
});
