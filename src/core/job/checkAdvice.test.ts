import { describe, expect, it } from 'vitest';
import { adviceEntries, linkAdvice } from './adviceHistory.ts';
import { captureAfter, checkAdvice } from './checkAdvice.ts';
import { straightSide, tiltedSide, turnAdvice } from './side.fixture.ts';

describe('an advice against the later capture', () => {
  it('puts before, predicted and measured side by side, with the uncertainty of the difference', () => {
    const [leftToRight, rightToLeft] = checkAdvice(turnAdvice, straightSide, tiltedSide);
    expect(leftToRight).toMatchObject({
      quantity: 'separation-left-to-right',
      unit: 'dB',
      before: 30.3,
      predicted: 27.9,
      measured: 27.95,
      came: 'as-predicted',
    });
    // √(0.1² + 0.1²)
    expect(leftToRight.uncertainty).toBeCloseTo(0.1414214, 6);
    // 27.2 − 27.9 = −0.7: more than ±0.14 and a tenth of a degree at the screw (0.38 dB at 27.9) explain
    expect(rightToLeft).toMatchObject({ measured: 27.2, came: 'otherwise' });
  });

  it('allows a tenth of a degree for the hand at the screw, where the advice was to turn', () => {
    const [first] = straightSide.findings;
    const came = (value: number, advice = turnAdvice) => checkAdvice(advice, { findings: [{ ...first, value }] })[0];
    // 20 lg(1 + tan 0.1° · 10^(27.9/20)) = 0.37 dB, to first order 0.376 dB; with ±0.1 dB of the figure 0.39 dB
    expect(came(27.9 - 0.35)).toMatchObject({ came: 'as-predicted' });
    expect(came(27.9 - 0.42)).toMatchObject({ came: 'otherwise' });
    expect(came(27.9 - 0.42).why).toMatch(/0\.1° at the screw can explain: nothing was moved, /);
    // a speed is not set at a screw of the headshell
    expect(came(27.9 - 0.35, { ...turnAdvice, action: 'speed' })).toMatchObject({ came: 'otherwise' });
  });

  it('uses the later uncertainty alone where the earlier capture is not known', () => {
    const [check] = checkAdvice(turnAdvice, straightSide);
    expect(check.before).toBeNull();
    expect(check.uncertainty).toBeCloseTo(0.1, 12);
  });

  it('says so when the figure is missing, in another unit, or without uncertainty', () => {
    const came = (findings: typeof straightSide.findings) => checkAdvice(turnAdvice, { findings })[0];
    expect(came([])).toMatchObject({ measured: null, uncertainty: null, came: 'cannot-tell' });
    const [first] = straightSide.findings;
    expect(came([{ ...first, unit: '%' }])).toMatchObject({ measured: null, came: 'cannot-tell' });
    expect(came([{ ...first, uncertainty: null }])).toMatchObject({ measured: 27.95, came: 'cannot-tell' });
  });

  it('lets a figure that is bounded only tell that it came otherwise, never that it came as predicted', () => {
    const [first] = straightSide.findings;
    const bounded = (low: number, high: number | null) =>
      checkAdvice(turnAdvice, { findings: [{ ...first, uncertainty: null, low, high }] })[0];
    // 27.9 dB were predicted
    expect(bounded(23.6, null)).toMatchObject({
      came: 'cannot-tell',
      why: expect.stringContaining('within the bounds'),
    });
    expect(bounded(20, 26)).toMatchObject({ came: 'otherwise', why: expect.stringContaining('outside the bounds') });
    expect(bounded(28.5, null)).toMatchObject({ came: 'otherwise', uncertainty: null });
  });

  it('takes the surest of several figures', () => {
    const [first] = straightSide.findings;
    const findings = [
      { ...first, value: 20, uncertainty: null },
      { ...first, value: 25, uncertainty: 3 },
      { ...first, value: 27.9, uncertainty: 0.2 },
    ];
    expect(checkAdvice(turnAdvice, { findings })[0].measured).toBe(27.9);
  });
});

describe('which capture checks an advice', () => {
  const heard = (id: string, sha256: string | null) => ({ id, sha256, heardAt: `2026-03-04T09:0${id}:00.000Z` });

  it('the next one heard, the same file played again left aside', () => {
    const captures = [heard('1', 'a'), heard('2', 'a'), heard('3', 'b'), heard('4', 'c')];
    expect(captureAfter(captures, '1')).toBe('3');
    expect(captureAfter(captures, '2')).toBe('3');
    expect(captureAfter(captures, '4')).toBeNull();
    expect(captureAfter(captures, '9')).toBeNull();
  });

  it('live captures have no fingerprint and are always different', () => {
    expect(captureAfter([heard('1', null), heard('2', null)], '1')).toBe('2');
  });

  it('nothing checks a move that was not made', () => {
    const captures = [
      { id: '1', heardAt: '2026-03-04T09:00:00.000Z', sha256: 'a', findings: tiltedSide.findings },
      { id: '2', heardAt: '2026-03-04T10:00:00.000Z', sha256: 'b', findings: straightSide.findings },
    ];
    const [entry] = adviceEntries(tiltedSide, '1', '2026-03-04T09:00:00.000Z', (place) => `advice-${place}`);
    const linked = { ...entry, ...linkAdvice(entry, captures) };
    expect(linked.checkedBy).toBe('2');
    expect(linked.checks.map((check) => check.came)).toEqual(['as-predicted', 'otherwise']);
    const notDone = { ...linked, outcome: { did: 'not-done' as const, note: '', at: null } };
    expect(linkAdvice(notDone, captures)).toEqual({ checkedBy: null, checks: [] });
  });
});

describe('a check whole', () => {
  const predict = (quantity: string, value: number, unit = 'dB', action = 'tilt') => ({
    ...turnAdvice,
    action,
    predicts: [{ quantity, value, unit }],
  });
  const found = (quantity: string, value: number | string, uncertainty: number | null, more: object = {}) => ({
    findings: [{ ...straightSide.findings[0], quantity, value, uncertainty, ...more }],
  });
  const speed = predict('speed-error', 0.5, 'dB', 'speed');

  it('has the figure before, what was foretold, what was measured, and why it came so', () => {
    expect(checkAdvice(speed, found('speed-error', 1, 0.4), found('speed-error', 2, 0.3))).toEqual([
      {
        quantity: 'speed-error',
        unit: 'dB',
        before: 2,
        predicted: 0.5,
        measured: 1,
        uncertainty: expect.closeTo(0.5, 12),
        came: 'as-predicted',
        why: 'The difference is within the uncertainty of the two measurements.',
      },
    ]);
    expect(checkAdvice(speed, found('speed-error', 1.01, 0.4), found('speed-error', 2, 0.3))).toMatchObject([
      {
        came: 'otherwise',
        why: expect.stringMatching(/^The difference is more than the uncertainty of the two measurements can/),
      },
    ]);
    // before without an uncertainty counts as exact, a word as none
    expect(checkAdvice(speed, found('speed-error', 1, 0.4), found('speed-error', 2, null))[0].uncertainty).toBe(0.4);
    expect(checkAdvice(speed, found('speed-error', 1, 0.4), found('speed-error', 'odd', 1))[0]).toMatchObject({
      before: null,
      uncertainty: 0.4,
    });
    expect(checkAdvice(speed, found('speed-error', 1, 0.4), found('other', 2, 1))[0].before).toBeNull();
    expect(checkAdvice({ ...speed, predicts: [] }, found('speed-error', 1, 0.4))).toEqual([]);
  });

  it('cannot tell what was not measured or has no uncertainty', () => {
    const [held, bare] = [
      checkAdvice(speed, found('other', 1, 0.4)),
      checkAdvice(speed, found('speed-error', 1, null)),
    ];
    expect(held).toEqual([
      {
        ...{ quantity: 'speed-error', unit: 'dB', before: null, predicted: 0.5, measured: null, uncertainty: null },
        ...{ came: 'cannot-tell', why: 'What was read later does not hold this figure.' },
      },
    ]);
    expect(bare).toEqual([{ ...held[0], measured: 1, why: 'The later figure has no uncertainty to compare with.' }]);
  });

  it('is held against the interval alone, its ends included', () => {
    const bounded = (low: number, high: number | null | undefined, uncertainty: number | null = null) =>
      checkAdvice(speed, found('speed-error', 3, uncertainty, { low, high }))[0].came;
    expect([
      bounded(0.5, 0.5),
      bounded(0.51, 9),
      bounded(0, 0.49),
      bounded(0.5, null),
      bounded(0.4, undefined),
    ]).toEqual(['cannot-tell', 'otherwise', 'otherwise', 'cannot-tell', 'cannot-tell']);
    expect(bounded(2, 9, 2.5)).toBe('as-predicted');
  });

  it('allows the hand twice the turn on the balance, and nothing on what a turn leaves alone', () => {
    // 20/ln 10 · tan 0.1°, dB
    const turn = (20 / Math.LN10) * Math.tan((0.1 * Math.PI) / 180);
    const came = (quantity: string, off: number, action = 'tilt') =>
      checkAdvice(predict(quantity, 0, 'dB', action), found(quantity, off, 0))[0].came === 'as-predicted';
    expect([came('channel-balance', 1.99 * turn), came('channel-balance', 2.01 * turn)]).toEqual([true, false]);
    expect([came('channel-balance', -1.99 * turn), came('channel-balance', 1e-6, 'speed')]).toEqual([true, false]);
    // at 0 dB a leak is as large as what leaks
    expect([came('separation-left-to-right', 0.99 * turn), came('separation-left-to-right', 1.01 * turn)]).toEqual([
      true,
      false,
    ]);
    expect([came('speed-error', 0), came('speed-error', 1e-9)]).toEqual([true, false]);
    const at = (off: number) =>
      checkAdvice(predict('separation-right-to-left', 20), found('separation-right-to-left', 20 + off, 0))[0].came;
    expect([at(9.99 * turn), at(10.01 * turn)]).toEqual(['as-predicted', 'otherwise']);
    expect(checkAdvice(predict('channel-balance', 0), found('channel-balance', 0.01, 0))[0].why).toBe(
      'The difference is within the uncertainty of the two measurements and 0.1° at the screw.',
    );
    // a turn leaves the speed alone: no hand is in it
    expect(checkAdvice(predict('speed-error', 0), found('speed-error', 0, 0))[0].why).not.toContain('screw');
  });
});
