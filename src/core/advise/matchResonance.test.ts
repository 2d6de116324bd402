import { describe, expect, test } from 'vitest';
import { DEFAULT_LIMITS } from './limits.ts';
import type { MatchInput } from './matchInput.ts';
import { massComplianceMap, matchResonance, pairOf, resonanceOptions } from './matchResonance.ts';
import { moves, told, verdicts } from './told.fixture.ts';

/** Hz of g on µm/mN. */
const hz = (g: number, compliance: number) => 1e3 / (2 * Math.PI * Math.sqrt((g * compliance) / 1e3) * Math.sqrt(1e3));
/** g that resonate at Hz on µm/mN. */
const grams = (at: number, compliance: number) => 1e6 / ((2 * Math.PI * at) ** 2 * compliance);

const pair: MatchInput = {
  effectiveMassG: 10,
  cartridgeMassG: 7,
  hardwareMassG: 1,
  complianceUmPerMn: 12,
  complianceAt: '10hz',
};
/** On 12 µm/mN: 2 g more or less of everything. */
const heavy = (total: number, hardwareMassG = 1): MatchInput => ({
  ...pair,
  hardwareMassG,
  effectiveMassG: total - 7 - hardwareMassG,
});

describe('the pair', () => {
  test('whole, with what mass and compliance leave open', () => {
    // half of each share, k = 2: 0.5 g of 18, a tenth of the compliance
    const open = (g: number, share: number, massG = 0.5) => hz(g, 12) * Math.hypot(massG / g, share);
    const way = {
      massG: 18,
      compliance: { value: 12, low: 12, high: 12 },
      uncertainty: expect.closeTo(open(18, 0.1), 4),
    };
    const at = {
      value: expect.closeTo(hz(18, 12), 9),
      low: expect.closeTo(hz(18, 12), 9),
      high: expect.closeTo(hz(18, 12), 9),
    };
    expect(pairOf(pair)).toEqual({
      found: true,
      apart: false,
      vertical: { ...way, resonance: at },
      lateral: { ...way, resonance: at },
    });
    // at 100 Hz a spring is quoted half as soft, to within 30 %
    const quoted = pairOf({
      ...pair,
      complianceUmPerMn: 6,
      complianceAt: '100hz',
      hardwareMassG: undefined,
      headshellMassG: 1,
    });
    expect(quoted.found && quoted.vertical).toEqual({
      massG: 18,
      compliance: { value: 12, low: expect.closeTo(8.4, 9), high: expect.closeTo(15.6, 9) },
      resonance: { value: at.value, low: expect.closeTo(hz(18, 15.6), 9), high: expect.closeTo(hz(18, 8.4), 9) },
      uncertainty: expect.closeTo(open(18, Math.hypot(0.1, 0.3 / Math.sqrt(3)), Math.hypot(0.5, 2 / Math.sqrt(12))), 4),
    });
  });

  test('lateral figures stand apart where one of them is stated, each falling back on the vertical one', () => {
    const of = (more: Partial<MatchInput>) => {
      const known = pairOf({ ...pair, ...more });
      return known.found
        ? [known.apart, known.lateral.massG, known.lateral.compliance.value, known.vertical.massG]
        : [];
    };
    expect(of({})).toEqual([false, 18, 12, 18]);
    expect(of({ effectiveMassLateralG: 20 })).toEqual([true, 28, 12, 18]);
    expect(of({ complianceLateralUmPerMn: 15 })).toEqual([true, 18, 15, 18]);
    expect(of({ headshellMassG: 4 })).toEqual([false, 22, 12, 22]);
  });

  test.each([
    [{ effectiveMassG: undefined }, 'the arm’s effective mass'],
    [{ cartridgeMassG: undefined }, 'the cartridge’s mass'],
    [{ complianceUmPerMn: undefined }, 'the compliance'],
    [{ effectiveMassIs: 'bare' as const }, 'the headshell’s mass'],
  ])('%o: nothing is told, and what is missing is named', (less, what) => {
    expect(pairOf({ ...pair, ...less })).toEqual({
      found: false,
      why: { code: 'not-known', values: { what, count: 1 } },
    });
    expect(matchResonance({ ...pair, ...less })).toMatchObject({
      findings: [],
      advice: [],
      curves: [],
      problems: [{ code: 'withheld', quantity: 'arm-resonance' }],
    });
    expect(massComplianceMap({ ...pair, ...less }).pair).toBeNull();
    expect(
      resonanceOptions({ ...pair, ...less, hardwareMassG: 1 }, [{ name: 'x', kind: 'hardware', massG: 2 }]),
    ).toEqual([]);
  });
});

describe('the finding', () => {
  test.each([
    [grams(8.01, 12), 'good: mass-on-spring resonance-both-ways resonance-within'],
    [grams(11.99, 12), 'good: mass-on-spring resonance-both-ways resonance-within'],
    [grams(7.99, 12), 'adjust: mass-on-spring resonance-both-ways resonance-under'],
    [grams(12.01, 12), 'adjust: mass-on-spring resonance-both-ways resonance-over'],
    [grams(5.9, 12), 'bad: mass-on-spring resonance-both-ways resonance-under'],
    [grams(15.1, 12), 'bad: mass-on-spring resonance-both-ways resonance-over'],
  ])('of %d g on 12 µm/mN is %s', (total, said) => {
    expect(verdicts(matchResonance(heavy(total)).findings)).toEqual([`arm-resonance ${said}`]);
  });

  test('a spring quoted at another frequency is told, and so is a band that reaches out of what is wanted', () => {
    const of = (total: number, complianceAt: MatchInput['complianceAt'], complianceUmPerMn: number) =>
      matchResonance({ ...heavy(total), complianceAt, complianceUmPerMn }).findings[0];
    const rest = 'resonance-both-ways resonance-within';
    // 10 Hz: 8.77 to 11.95 Hz stays inside; 8.5 and 11 Hz do not
    expect(verdicts([of(grams(10, 12), 'static', 24)])).toEqual([
      `arm-resonance good: mass-on-spring compliance-converted ${rest}`,
    ]);
    for (const at of [8.5, 11.5]) {
      expect(verdicts([of(grams(at, 12), '100hz', 6)])).toEqual([
        `arm-resonance good: mass-on-spring compliance-converted ${rest} resonance-spread`,
      ]);
    }
    const { notes = [], ...figure } = of(grams(10, 12), 'static', 24);
    const [low, high] = [10 / Math.sqrt(1.3), 10 / Math.sqrt(0.7)];
    expect(notes.map((one) => told(one))).toEqual([
      `mass-on-spring massG=${grams(10, 12).toFixed(4)} compliance=12`,
      `compliance-converted basis=static low=${Number(low.toFixed(4))} high=${Number(high.toFixed(4))}`,
      'resonance-both-ways',
      'resonance-within from=8 to=12',
    ]);
    expect(figure).toMatchObject({ unit: 'Hz', bands: [], value: expect.closeTo(10, 9), low: expect.closeTo(low, 9) });
    expect(told(of(grams(10, 12), '100hz', 6).notes![1])).toContain('basis=100 Hz');
  });

  test('hardware that is not known is told; both directions apart where one is stated', () => {
    expect(verdicts(matchResonance({ ...pair, hardwareMassG: undefined }).findings)).toEqual([
      'arm-resonance good: mass-on-spring hardware-not-known resonance-both-ways resonance-within',
    ]);
    const apart = matchResonance({ ...pair, effectiveMassLateralG: 22 }).findings;
    expect(verdicts(apart)).toEqual([
      'arm-resonance good: mass-on-spring resonance-within',
      'arm-resonance-lateral good: mass-on-spring resonance-within',
      'arm-resonance-vertical good: mass-on-spring resonance-within',
    ]);
    expect(apart.map(({ value }) => value)).toEqual(
      [hz(18, 12), hz(30, 12), hz(18, 12)].map((one) => expect.closeTo(one, 9)),
    );
  });
});

describe('what to do about it', () => {
  test.each([
    [
      grams(13, 12),
      `add-mass at-the-headshell ${(grams(11, 12) - grams(13, 12)).toFixed(4)} g`,
      'near-music add-mass',
      11,
    ],
    [
      grams(7.6, 12),
      `remove-mass at-the-headshell ${(grams(7.6, 12) - grams(9, 12)).toFixed(4)} g`,
      'near-warps remove-mass',
      9,
    ],
  ])('of %d g on 12 µm/mN', (total, move, why, aim) => {
    const { advice } = matchResonance(heavy(total, 12));
    expect(moves(advice)).toEqual([`${move}: resonance-${why}`]);
    expect(advice[0].predicts).toEqual([{ quantity: 'arm-resonance', value: aim, unit: 'Hz' }]);
  });

  test('within what is wanted, its ends too, nothing is done', () => {
    const limits = {
      ...DEFAULT_LIMITS,
      'arm-resonance-from': { ...DEFAULT_LIMITS['arm-resonance-from'], good: hz(18, 12) },
      'arm-resonance-to': { ...DEFAULT_LIMITS['arm-resonance-to'], good: hz(18, 12) },
    };
    expect(matchResonance({ ...pair, limits })).toMatchObject({ advice: [], findings: [{ verdict: 'good' }] });
    expect(verdicts(matchResonance({ ...pair, limits }).findings)[0]).toContain('resonance-within');
  });

  test('the words of more mass: how much, for what, and what is the least of it', () => {
    const total = grams(13, 12);
    const [advice] = matchResonance(heavy(total)).advice;
    expect(advice.reasons?.map((one) => told(one))).toEqual([
      'resonance-near-music which=The resonance hz=13',
      `add-mass amountG=${(grams(11, 12) - total).toFixed(4)} targetHz=11 leastG=${(grams(12, 12) - total).toFixed(4)} limitHz=12`,
    ]);
  });

  test('less mass than a bench holds: to the edge of what is wanted, then another arm', () => {
    const total = grams(7.6, 12);
    const [edge, inside] = [total - grams(8, 12), total - grams(9, 12)];
    const of = (hardware: number) => matchResonance(heavy(total, hardware)).advice;
    expect(moves(of(inside + 0.01))).toEqual([
      `remove-mass at-the-headshell ${inside.toFixed(4)} g: resonance-near-warps remove-mass`,
    ]);
    expect(moves(of(inside - 0.01))).toEqual([
      `remove-mass at-the-headshell ${edge.toFixed(4)} g: resonance-near-warps remove-mass`,
    ]);
    expect(of(inside - 0.01)[0].predicts).toEqual([{ quantity: 'arm-resonance', value: 8, unit: 'Hz' }]);
    expect(of(inside - 0.01)[0].reasons?.map((one) => told(one))[1]).toBe(
      `remove-mass amountG=${edge.toFixed(4)} targetHz=8`,
    );
    const [other] = of(edge - 0.01);
    expect(moves([other])).toEqual(['other-arm null null g: resonance-near-warps other-arm']);
    expect(other.predicts).toEqual([{ quantity: 'arm-resonance', value: 8, unit: 'Hz' }]);
    // the spring that would put this mass into the middle
    expect(told(other.reasons![1])).toBe(
      `other-arm leastG=${edge.toFixed(4)} removableG=${(edge - 0.01).toFixed(4)} compliance=${Number(grams(10, total).toFixed(4))}`,
    );
    // a shell that comes off counts with the hardware
    const shell = { ...heavy(total, 0), effectiveMassG: total - 7 - 20, headshellMassG: 20 };
    expect(moves(matchResonance(shell).advice)[0]).toContain(`remove-mass at-the-headshell ${inside.toFixed(4)} g`);
    expect(moves(matchResonance({ ...shell, hardwareMassG: undefined }).advice)[0]).toContain('remove-mass');
  });

  test('a lateral resonance alone outside: its own move, with what it makes of the vertical one, either way', () => {
    const of = (lateral: number, total: number) =>
      matchResonance({ ...heavy(total, 12), effectiveMassLateralG: lateral - 19 }).advice;
    for (const [lateral, aim, sign] of [
      [grams(12.5, 12), 11, 1],
      [grams(7.7, 12), 9, -1],
    ]) {
      const total = grams(10, 12);
      const [advice, ...more] = of(lateral, total);
      const amount = Math.abs(grams(aim, 12) - lateral);
      const after = hz(total + sign * amount, 12);
      expect(more).toEqual([]);
      expect(advice.amount).toBeCloseTo(amount, 9);
      expect(advice.action).toBe(sign > 0 ? 'add-mass' : 'remove-mass');
      expect(advice.predicts).toEqual([
        { quantity: 'arm-resonance-lateral', value: aim, unit: 'Hz' },
        { quantity: 'arm-resonance-vertical', value: expect.closeTo(after, 9), unit: 'Hz' },
      ]);
      expect(told(advice.reasons![0])).toContain('which=The lateral resonance');
      expect(told(advice.reasons!.at(-1)!)).toBe(`vertical-follows hz=${Number(after.toFixed(4))}`);
    }
    // the vertical one asks first, and then alone
    expect(of(grams(7, 12), grams(13, 12)).map(({ predicts }) => predicts.map(({ quantity }) => quantity))).toEqual([
      ['arm-resonance'],
    ]);
    // nothing to take off: another arm, and nothing follows
    const stiff = matchResonance({ ...heavy(grams(10, 12), 0), effectiveMassLateralG: grams(6, 12) - 7 }).advice;
    expect(stiff.map(({ action, predicts }) => [action, predicts.length])).toEqual([['other-arm', 1]]);
  });
});

describe('options and the map', () => {
  test('each option whole, nearest to 10 Hz first by ratio', () => {
    const input = { ...pair, headshellMassG: 6, effectiveMassG: 5 };
    const options = [
      { name: 'a', kind: 'headshell', massG: 30 },
      { name: 'b', kind: 'hardware', massG: 3 },
      { name: 'c', kind: 'headshell', massG: 2 },
    ] as const;
    const at = (g: number) => ({ value: hz(g, 12), low: hz(g, 12), high: hz(g, 12) });
    const close = (span: ReturnType<typeof at>) =>
      Object.fromEntries(Object.entries(span).map(([key, value]) => [key, expect.closeTo(value, 9)]));
    expect(resonanceOptions(input, options)).toEqual([
      { ...options[1], totalG: 21, resonance: close(at(21)), verdict: 'good' },
      { ...options[2], totalG: 15, resonance: close(at(15)), verdict: 'good' },
      { ...options[0], totalG: 43, resonance: close(at(43)), verdict: 'adjust' },
    ]);
    expect(resonanceOptions(pair, options).map(({ name }) => name)).toEqual(['b']);
    expect(resonanceOptions(input, [])).toEqual([]);
  });

  test('each contour from edge to edge of the map in 41 even steps; none where it passes by', () => {
    const span = { complianceFrom: 5, complianceTo: 40, massFrom: 6, massTo: 50 };
    const { contours, pair: region } = massComplianceMap(pair, span);
    for (const { hz: at, compliance, massG } of contours) {
      const [from, to] = [Math.max(5, grams(at, 50)), Math.min(40, grams(at, 6))];
      expect(compliance).toHaveLength(41);
      compliance.forEach((c, i) => {
        expect(c).toBeCloseTo(from * (to / from) ** (i / 40), 9);
        expect(massG[i]).toBeCloseTo(grams(at, c), 9);
      });
    }
    expect(region).toEqual({ compliance: { value: 12, low: 12, high: 12 }, mass: { value: 18, low: 17, high: 19 } });
    // half of a small mass at most
    expect(
      massComplianceMap({ ...pair, effectiveMassG: 0.5, cartridgeMassG: 0.5, hardwareMassG: 0 }).pair?.mass,
    ).toEqual({
      value: 1,
      low: 0.5,
      high: 1.5,
    });
    const off = massComplianceMap(pair, { ...span, complianceFrom: 0.5, complianceTo: 1, massFrom: 1, massTo: 2 });
    expect(off.contours.map((one) => [one.compliance, one.massG])).toEqual(Array(4).fill([[], []]));
    // as it is drawn unless asked otherwise
    const drawn = massComplianceMap(pair).contours;
    expect(drawn[1].compliance.at(0)).toBeCloseTo(grams(8, 60), 9);
    expect(drawn[1].massG.at(-1)).toBeCloseTo(grams(8, 50), 9);
    expect(drawn[3].compliance.at(0)).toBe(4);
    expect(drawn[3].massG.at(-1)).toBeCloseTo(4, 9);
    expect(matchResonance(pair).curves).toEqual(
      drawn.map(({ hz: at, compliance, massG }) => ({
        quantity: `resonance-${at}hz`,
        x: compliance,
        y: massG,
        xUnit: 'µm/mN',
        yUnit: 'g',
      })),
    );
  });
});
