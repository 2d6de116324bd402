import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';
import { moves, told } from './told.fixture.ts';
import { adviseTracking } from './trackingAdvice.ts';

type Word = 'left-lost-first' | 'right-lost-first' | 'both-lost' | 'walls-not-told';
const wall = (
  channel: 'left' | 'right',
  value: number,
  half: number,
  { hz = 300, word = 'both-lost' as Word, open = false, more = {} as Partial<Finding> } = {},
): Finding => ({
  quantity: 'tracking-limit',
  channel,
  unit: 'cm/s',
  bands: [],
  value,
  uncertainty: half,
  low: value - half,
  high: open ? null : value + half,
  notes: [statement('tracked-up-to', { hz, low: value - half, lost: value + half }), statement(word)],
  ...more,
});
const said = (...findings: Finding[]) => {
  const advice = adviseTracking(findings);
  return [...moves(advice), ...advice.flatMap(({ reasons = [] }) => reasons.map((one) => told(one)))];
};
const end = 'tracking-else / caution-skating';

describe('which wall gives way first', () => {
  it.each([
    [12, 8, 'more', 'skating-more'],
    [8, 12, 'less', 'skating-less'],
  ])('left %d and right %d cm/s: %s anti-skating, by the share', (left, right, way, code) => {
    const advice = adviseTracking([wall('left', left, 0.5), wall('right', right, 0.4)]);
    // S/F = (l − r)/(l + r)
    expect(moves(advice)).toEqual([`set-skating ${way} 20 %: ${code} skating-by-share ${end}`]);
    const [least, most] =
      left > right ? [(11.5 - 8.4) / 19.9, (12.5 - 7.6) / 20.1] : [(11.6 - 8.5) / 20.1, (12.4 - 7.5) / 19.9];
    expect(advice[0].uncertainty).toBeCloseTo(100 * (Math.max(least, most) - 0.2), 9);
    expect(advice[0].predicts).toEqual([
      { quantity: 'tracking-limit', value: 10, unit: 'cm/s', uncertainty: expect.closeTo(Math.hypot(0.5, 0.4) / 2, 9) },
    ]);
    // a mark of the dial is what friction of 0.3 at 23° makes of the force
    const marks = 20 / (0.3 * Math.tan((23 * Math.PI) / 180));
    expect(told(advice[0].reasons![1])).toBe(`skating-by-share percent=20 marks=${Number(marks.toFixed(4))}`);
  });

  it.each([
    ['left', 'more', 'skating-more'],
    ['right', 'less', 'skating-less'],
  ] as const)('the %s wall tracked throughout: %s, at least so much', (channel, way, code) => {
    const other = channel === 'left' ? 'right' : 'left';
    const findings = [wall(channel, 20, 0, { open: true }), wall(other, 8, 0.5)];
    // (20 − 8.5)/(20 + 8.5)
    const percent = Number(((100 * 11.5) / 28.5).toFixed(4));
    expect(said(...findings)).toEqual([
      `set-skating ${way} null: ${code} skating-at-least ${end}`,
      code,
      `skating-at-least percent=${percent}`,
      'tracking-else',
    ]);
    const [advice] = adviseTracking(findings);
    expect(advice).toMatchObject({ unit: '', uncertainty: null, predicts: [] });
  });

  it('steps that overlap tell no share; bursts then say which', () => {
    const overlap = (word: Word) => [wall('left', 10, 1, { word }), wall('right', 11, 1, { word })];
    expect(said(...overlap('left-lost-first'))[0]).toBe(`set-skating less null: skating-less skating-by-bursts ${end}`);
    expect(said(...overlap('right-lost-first'))[0]).toBe(
      `set-skating more null: skating-more skating-by-bursts ${end}`,
    );
    expect(said(...overlap('both-lost'))).toEqual([]);
    // touching steps are no order of the walls yet
    expect(said(wall('left', 11, 1, { word: 'left-lost-first' }), wall('right', 9, 1))[0]).toContain(
      'skating-by-bursts',
    );
    expect(said(wall('left', 9, 1, { word: 'right-lost-first' }), wall('right', 11, 1))[0]).toContain(
      'skating-by-bursts',
    );
    expect(said(wall('left', 11.01, 1), wall('right', 9, 1))[0]).toContain('skating-by-share');
    expect(said(wall('left', 9, 1), wall('right', 11.01, 1))[0]).toContain('skating-by-share');
  });

  it('without knowing which wall is whose, or without one of them, nothing is told', () => {
    const [left, right] = [wall('left', 12, 0.5), wall('right', 8, 0.5)];
    expect(said(wall('left', 12, 0.5, { word: 'walls-not-told' }), right)).toEqual([]);
    for (const odd of [
      [left],
      [right],
      [left, { ...right, low: undefined }],
      [{ ...left, low: undefined }, right],
      [left, { ...right, value: 'x' }],
      [{ ...left, quantity: 'hum' }, right],
      [{ ...left, notes: [] }, right],
      [{ ...left, notes: [statement('both-lost')] }, right],
    ]) {
      expect(said(...odd)).toEqual([]);
    }
    expect(said(left, right)).not.toEqual([]);
    // where its steps lay may stand in any of its notes
    const later = { ...left, notes: [statement('both-lost'), ...left.notes] };
    expect(said(later, right)).toEqual(said(left, right));
    expect(said({ ...left, uncertainty: null }, { ...right, uncertainty: null })[0]).toContain('set-skating more');
  });
});

describe('both walls too early', () => {
  /** cm/s of 60 µm at 300 Hz */
  const wanted = 2 * Math.PI * 300 * 0.06 * 0.1;
  const force = (value: number, half = 0.2, hz = 300) => [
    wall('left', value, half, { hz }),
    wall('right', value, half / 2, { hz }),
  ];

  it('more force, by what is missing, and what that should bring', () => {
    const advice = adviseTracking(force(10));
    const by = wanted / 10 - 1;
    expect(moves(advice)).toEqual([
      `set-force more ${Number((100 * by).toFixed(4))} %: force-more tracking-else / caution-force`,
    ]);
    expect(advice[0].predicts).toEqual([
      {
        quantity: 'tracking-limit',
        value: expect.closeTo(wanted, 9),
        unit: 'cm/s',
        uncertainty: expect.closeTo(0.2 * (1 + by), 9),
      },
    ]);
    expect(told(advice[0].reasons![0], 2)).toBe(
      `force-more percent=${Number((100 * by).toFixed(2))} wanted=${Number(wanted.toFixed(2))} um=60 hz=300`,
    );
  });

  it('a fifth more at most, and that alone will not do', () => {
    const enough = wanted / 1.2;
    expect(said(...force(enough + 0.01))[0]).not.toContain('force-not-enough');
    const advice = adviseTracking(force(enough - 0.01));
    expect(moves(advice)).toEqual(['set-force more 20 %: force-more force-not-enough tracking-else / caution-force']);
    expect(advice[0].predicts[0].value).toBeCloseTo(1.2 * (enough - 0.01), 9);
  });

  it('not where the better one may reach what is usual, nor where an amplitude says nothing', () => {
    expect(said(...force(wanted - 0.21))).not.toEqual([]);
    expect(said(...force(wanted - 0.19))).toEqual([]);
    const better = [wall('left', 10.9, 0.2), wall('right', 10.9, 0.5)];
    expect(said(...better)).toEqual([]);
    for (const hz of [200, 500]) expect(said(...force(5, 0.2, hz))).not.toEqual([]);
    for (const hz of [199, 501]) expect(said(...force(5, 0.2, hz))).toEqual([]);
  });

  it('both tracked throughout: nothing to do', () => {
    expect(said(wall('left', 20, 0, { open: true }), wall('right', 20, 0, { open: true }))).toEqual([]);
  });
});
