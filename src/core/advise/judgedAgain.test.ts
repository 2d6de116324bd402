import { describe, expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { say, statement } from '../words/statement.ts';
import { DECK_CLASSES } from './deckClasses.ts';
import { type Advice, type JudgedFinding, mainReason, toldAdvice, toldFinding } from './document.ts';
import type { Limits } from './limits.ts';
import { parseLimits } from './limitsFile.ts';
import { outOfTolerance, RECHECK_CLASSES } from './recheck.ts';
import { rejudged } from './rejudge.ts';

const figure = (quantity: string, value: number, more: Partial<JudgedFinding> = {}): JudgedFinding => ({
  quantity,
  value,
  unit: '%',
  uncertainty: 0.05,
  bands: [],
  note: '',
  verdict: 'info',
  ...more,
});
const with_ = (name: string, good: number, bad: number, base: Limits = DECK_CLASSES.shop): Limits => ({
  ...base,
  [name]: { ...base[name], good, bad },
});

describe('judged by other limits', () => {
  const named = (limits: Limits) => ({ deckClass: 'studio', limits }) as const;

  it('a change of either edge judges again what goes by it, and nothing else', () => {
    for (const limits of [with_('speed-error', 0.1, 1), with_('speed-error', 0.3, 0.9)]) {
      const part = { findings: [figure('speed-error', 0.5), figure('channel-balance', 5)], more: 1 };
      const again = rejudged(part, named(limits));
      expect(again).toEqual({
        ...part,
        findings: [{ ...part.findings[0], verdict: 'adjust' }, part.findings[1]],
        limits: { deckClass: 'studio', limits },
      });
      expect(again.findings[1]).toBe(part.findings[1]);
    }
  });

  it('either end of a range does', () => {
    const of = (limits: Limits) =>
      rejudged({ findings: [figure('arm-resonance-vertical', 10)] }, named(limits)).findings[0].verdict;
    expect(of(with_('arm-resonance-from', 11, 10.5))).toBe('bad');
    expect(of(with_('arm-resonance-to', 9, 9.5))).toBe('bad');
    expect(of(with_('speed-error', 9, 9.5))).toBe('info');
  });

  it('goes by what the document names, the defaults for what it does not', () => {
    const strict = with_('speed-error', 0.1, 0.2);
    const part = { findings: [figure('speed-error', 0.5)], limits: { deckClass: 'studio', limits: strict } };
    expect(rejudged(part, named(strict))).toBe(part);
    expect(rejudged(part, named(DECK_CLASSES.shop)).findings[0].verdict).toBe('adjust');
    const { 'speed-error': kept } = strict;
    const partly = { ...part, limits: { deckClass: 'studio', limits: { 'speed-error': kept } } };
    const balance = { ...partly, findings: [figure('channel-balance', 5), ...part.findings] };
    expect(rejudged(balance, named(strict)).findings).toEqual(balance.findings);
  });

  it('what decided it goes with a verdict that is open no more, and comes with one that is', () => {
    const open = figure('speed-error', 0.3, {
      verdict: 'undecided',
      decidedBy: 'x',
      decides: statement('decide-by-strobe'),
    });
    const [closed] = rejudged({ findings: [open] }, named(with_('speed-error', 0.5, 1))).findings;
    expect(closed).toEqual(figure('speed-error', 0.3, { verdict: 'good' }));
    const [again] = rejudged({ findings: [figure('speed-error', 0.3)] }, named(with_('speed-error', 0.31, 1))).findings;
    expect(again).toMatchObject({ verdict: 'undecided', decides: { code: 'decide-by-recording' } });
  });
});

describe('a finding and an advice in words', () => {
  const plain: Finding = {
    quantity: 'hum',
    value: 3,
    unit: 'dB',
    uncertainty: 1,
    bands: [1],
    notes: [statement('height-no-tilt')],
  };

  it('notes said; a budget with its sources said, repeats about their own mean', () => {
    expect(toldFinding(plain, 'good')).toEqual({ ...plain, note: 'No tilt comes of it.', verdict: 'good' });
    const repeats = { count: 3, fromMean: 0.25, scatter: 0.1, uncertainty: 0.2 };
    const budget = [{ of: statement('signal'), size: 1, unit: 'dB', share: 1 }];
    expect(toldFinding({ ...plain, repeats, budget }, 'bad')).toEqual({
      ...plain,
      note: 'No tilt comes of it.',
      verdict: 'bad',
      repeats: { count: 3, mean: 3.25, scatter: 0.1, uncertainty: 0.2 },
      budget: [{ source: say(statement('signal')), ...budget[0] }],
    });
    expect(toldFinding({ ...plain, repeats }, 'bad')).not.toHaveProperty('budget');
  });

  it('a caution stands only where there is one', () => {
    const move = {
      action: 'x',
      amount: 1,
      unit: '',
      direction: null,
      predicts: [],
      reasons: [statement('height-no-tilt'), statement('leave-tilt')],
    };
    const why = 'No tilt comes of it. Leave the tilt as it is.';
    expect(toldAdvice(move)).toEqual({ ...move, why });
    expect(toldAdvice({ ...move, cautions: [] })).toEqual({ ...move, cautions: [], why });
    const cautions = [statement('caution-base')];
    expect(toldAdvice({ ...move, cautions })).toEqual({ ...move, cautions, why, caution: say(cautions[0]) });
  });

  it('the move itself is the first reason, or everything where that is not known', () => {
    const of = (reasons?: Advice['reasons']) => mainReason({ reasons, why: 'All of it.' });
    expect(of([statement('leave-tilt'), statement('leave-no-gain')])).toBe('Leave the tilt as it is.');
    for (const none of [undefined, [], [{ code: 'of-a-later-version', values: {} }]])
      expect(of(none)).toBe('All of it.');
  });
});

describe('a file of limits', () => {
  const read = (of: object) => {
    const parsed = parseLimits(JSON.stringify({ schema: 1, ...of }), 'x.json');
    if (!parsed.ok) throw new Error(say(parsed.why));
    return parsed;
  };

  it('whole', () => {
    const given = { good: 0.15, bad: 0.4, source: 'the owner’s wish' };
    const of = read({ class: 'studio', limits: { 'speed-error': given }, recheck: { tilt: 0.1 } });
    expect(of).toEqual({
      ok: true,
      deckClass: 'studio',
      limits: { ...DECK_CLASSES.studio, 'speed-error': { ...given, sense: 'below' } },
      recheck: { ...RECHECK_CLASSES.studio, tilt: { most: 0.1, unit: 'deg', source: 'set in x.json' } },
      given: { deckClass: 'studio', limits: { 'speed-error': given }, recheck: { tilt: 0.1 } },
    });
    expect(read({})).toEqual({
      ok: true,
      deckClass: 'shop',
      limits: DECK_CLASSES.shop,
      recheck: RECHECK_CLASSES.shop,
      given: { deckClass: 'shop', limits: {}, recheck: {} },
    });
    expect(parseLimits('\uFEFF{"schema": 1}', 'x.json').ok).toBe(true);
  });

  it('both edges may be one; the order is that of the sense', () => {
    const order = (name: string, good: number, bad: number) => {
      const parsed = parseLimits(JSON.stringify({ schema: 1, limits: { [name]: { good, bad } } }), 'x.json');
      return parsed.ok ? null : parsed.why;
    };
    for (const name of ['speed-error', 'hum']) expect(order(name, 1, 1)).toBeNull();
    expect(order('speed-error', 1, 2)).toBeNull();
    expect(order('hum', 2, 1)).toBeNull();
    const values = (name: string, good: number, bad: number) => ({ file: 'x.json', name, good, bad });
    expect(order('speed-error', 2, 1)).toEqual({ code: 'limits-order-below', values: values('speed-error', 2, 1) });
    expect(order('hum', 1, 2)).toEqual({ code: 'limits-order-above', values: values('hum', 1, 2) });
    for (const edge of [0, 1000]) expect(order('speed-error', 0, edge)).toBeNull();
    for (const odd of [-0.1, 1000.1]) expect(order('speed-error', 0, odd)?.code).toBe('limits-odd');
  });

  it.each([
    ['[]', 'the whole'],
    ['{"schema": 1, "limits": 3}', 'limits'],
    ['{"schema": 1, "limits": {"hum": 3}}', 'limits.hum'],
    ['{"schema": 1, "limits": {"hum": {"good": 3, "bad": 2, "more": 1}}}', 'limits.hum'],
    ['{"schema": 1, "limits": {"hum": {"good": 3}}}', 'limits.hum.bad'],
    ['{"schema": 1, "recheck": 3}', 'recheck'],
    ['{"schema": 1, "recheck": {"tilt": 1001}}', 'recheck.tilt'],
    ['{}', 'schema'],
  ])('%s is refused at %s', (text, place) => {
    const parsed = parseLimits(text, 'x.json');
    expect(parsed.ok || parsed.why).toMatchObject({ code: 'limits-odd', values: { file: 'x.json', place } });
  });

  it.each(['constructor', 'nothing'])('%s is neither a limit nor a tolerance', (name) => {
    const limits = parseLimits(`{"schema": 1, "limits": {"${name}": {"good": 1, "bad": 2}}}`, 'x.json');
    expect(limits.ok || limits.why).toEqual({
      code: 'limits-none-such',
      values: { file: 'x.json', name, names: Object.keys(DECK_CLASSES.shop).join(', ') },
    });
    const recheck = parseLimits(`{"schema": 1, "recheck": {"${name}": 1}}`, 'x.json');
    expect(recheck.ok || recheck.why).toEqual({
      code: 'recheck-none-such',
      values: { file: 'x.json', name, names: Object.keys(RECHECK_CLASSES.shop).join(', ') },
    });
  });
});

it('a change is looked at again beyond its tolerance, either way', () => {
  const out = (size: number) => outOfTolerance({ quantity: 'tilt', size }, RECHECK_CLASSES.shop);
  expect([0.25, -0.25, 0].map(out)).toEqual([false, false, false]);
  expect([0.26, -0.26, Number.NaN].map(out)).toEqual([true, true, true]);
});
