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
