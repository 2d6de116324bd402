import { describe, expect, test } from 'vitest';
import { counterweightReach, massStandardG, matchBalance, startForceMn } from './matchBalance.ts';
import type { MatchInput } from './matchInput.ts';
import { moves, told, verdicts } from './told.fixture.ts';

const G = 9.80665;
const arm: MatchInput = {
  cartridgeMassG: 7,
  hardwareMassG: 1,
  effectiveLengthMm: 240,
  armMomentGMm: 3000,
  counterweightMassG: 100,
  trackingForceMn: 2 * G,
  stubFromMm: 25,
  stubToMm: 60,
};
/** mm behind the pivot: floating, and with 2 g at the tip */
const FLOATING = (8 * 240 + 3000) / 100;
const AT_FORCE = (6 * 240 + 3000) / 100;
/** k = 2: masses, length, weight and force each by what is taken for them */
const doubt = (massG = 0.5) =>
  2 * Math.hypot((massG * 240) / 100, (0.25 * 6) / 100, 0.01 * AT_FORCE, (0.01 * 2 * 240) / 100);

describe('the counterweight’s place', () => {
  test('whole', () => {
    expect(counterweightReach(arm)).toEqual({
      found: true,
      place: {
        atForceMm: expect.closeTo(AT_FORCE, 9),
        floatingMm: expect.closeTo(FLOATING, 9),
        onStub: true,
        uncertaintyMm: expect.closeTo(doubt(), 4),
      },
    });
    const { findings, advice, problems, curves } = matchBalance(arm);
    expect([advice, problems, curves]).toEqual([[], [], []]);
    expect(findings).toMatchObject([
      {
        quantity: 'counterweight-position',
        value: expect.closeTo(AT_FORCE, 9),
        unit: 'mm',
        uncertainty: expect.closeTo(doubt(), 4),
        bands: [],
        verdict: 'good',
      },
    ]);
    expect(findings[0].notes?.map((one) => told(one))).toEqual([
      `counterweight-place floatingMm=${FLOATING}`,
      'stub-holds fromMm=25 toMm=60',
    ]);
    expect(massStandardG({})).toBeCloseTo(Math.hypot(0.5, 2 / Math.sqrt(12)), 12);
    expect(massStandardG({ hardwareMassG: 0 })).toBe(0.5);
    expect(verdicts(matchBalance({ ...arm, hardwareMassG: undefined }).findings)[0]).toMatch(/ hardware-not-known$/);
  });

  test('a shell that comes off hangs at the tip too; what is not known of screws or shell counts as nothing', () => {
    const at = (more: Partial<MatchInput>) => {
      const reach = counterweightReach({ ...arm, ...more });
      return reach.found ? reach.place.atForceMm : Number.NaN;
    };
    expect(at({ headshellMassG: 10 })).toBeCloseTo(AT_FORCE + 24, 9);
    expect(at({ hardwareMassG: undefined })).toBeCloseTo(AT_FORCE - 2.4, 9);
  });

  test.each(['cartridgeMassG', 'effectiveLengthMm', 'armMomentGMm', 'counterweightMassG', 'trackingForceMn'] as const)(
    'waits for %s',
    (name) => {
      const answer = matchBalance({ ...arm, [name]: undefined });
      expect(answer.findings).toEqual([]);
      expect(answer.problems).toMatchObject([{ code: 'withheld', quantity: 'counterweight-position' }]);
    },
  );

  test('is asked for by any figure of the weight or its stub, and by none else', () => {
    for (const name of ['counterweightMassG', 'armMomentGMm', 'stubFromMm', 'stubToMm'] as const) {
      expect(matchBalance({ [name]: 30 }).problems.map(({ quantity }) => quantity)).toEqual(['counterweight-position']);
    }
    expect(matchBalance({ cartridgeMassG: 7, effectiveLengthMm: 240 })).toEqual({
      findings: [],
      advice: [],
      curves: [],
      problems: [],
    });
  });

  test.each([
    [undefined, 60, null],
    [25, undefined, null],
    [AT_FORCE - 0.001, FLOATING + 0.001, true],
    [AT_FORCE + 0.01, 60, false],
    [25, FLOATING - 0.01, false],
    [10, 20, false],
    [50, 60, false],
  ])('a stub from %d to %d holds it: %s', (stubFromMm, stubToMm, holds) => {
    const reach = counterweightReach({ ...arm, stubFromMm, stubToMm });
    expect(reach.found && reach.place.onStub).toBe(holds);
    const [finding] = matchBalance({ ...arm, stubFromMm, stubToMm }).findings;
    expect(finding.verdict).toBe(holds === null ? 'info' : holds ? 'good' : 'bad');
    expect(finding.notes?.[1].code).toBe(holds === null ? 'stub-not-known' : holds ? 'stub-holds' : 'stub-too-short');
  });

  test('an end nearer than the uncertainty is told for the place that comes to it, from either side', () => {
    const near = (stubFromMm: number, stubToMm: number) =>
      verdicts(matchBalance({ ...arm, stubFromMm, stubToMm }).findings)[0].includes('stub-end-near');
    const u = doubt();
    expect(near(AT_FORCE - u - 0.05, FLOATING + u + 0.05)).toBe(false);
    expect(near(AT_FORCE - u + 0.05, 90)).toBe(true);
    expect(near(AT_FORCE + u - 0.05, 90)).toBe(true);
    expect(near(AT_FORCE + u + 0.05, 90)).toBe(false);
    expect(near(5, FLOATING + u - 0.05)).toBe(true);
    expect(near(5, FLOATING - u + 0.05)).toBe(true);
    expect(near(5, FLOATING - u - 0.05)).toBe(false);
  });
});

describe('a weight off its stub', () => {
  test.each([
    [25, 45, 'heavier', 4920 / 35],
    [50, 80, 'lighter', 4920 / 65],
    // both ends passed: the far one decides
    [AT_FORCE + 1, FLOATING - 1, 'heavier', 4920 / ((AT_FORCE + FLOATING) / 2)],
  ])('from %d to %d mm it must be %s', (stubFromMm, stubToMm, direction, grams) => {
    const { advice } = matchBalance({ ...arm, stubFromMm, stubToMm });
    expect(moves(advice)).toEqual([
      `change-counterweight ${direction} ${Number(grams.toFixed(4))} g: ${direction}-counterweight`,
    ]);
    expect(advice[0].predicts).toEqual([
      { quantity: 'counterweight-position', value: (stubFromMm + stubToMm) / 2, unit: 'mm' },
    ]);
    expect(told(advice[0].reasons![0])).toBe(`${direction}-counterweight grams=${Number(grams.toFixed(4))}`);
  });

  test('none is advised on the stub, nor where its ends are not known', () => {
    expect(matchBalance(arm).advice).toEqual([]);
    expect(matchBalance({ ...arm, stubToMm: undefined }).advice).toEqual([]);
  });

  test('an arm that is tail-heavy by itself needs mass in front', () => {
    const { advice } = matchBalance({ ...arm, armMomentGMm: -3000 });
    expect(moves(advice)).toEqual(['add-mass at-the-headshell null g: cannot-balance']);
    expect(advice[0]).toMatchObject({ predicts: [], reasons: [{ values: { why: { code: 'tail-heavy' } } }] });
  });

  test('a stub about the pivot asks for a weight a millimetre behind it', () => {
    const { advice } = matchBalance({ ...arm, stubFromMm: 0, stubToMm: 1 });
    expect(advice[0].amount).toBeCloseTo(4920, 9);
  });
});

describe('what the arm carries', () => {
  test.each([
    [8, 12, 'good', 'carried-mass-from-to leastG=8 mostG=12'],
    [4, 8, 'good', 'carried-mass-from-to leastG=4 mostG=8'],
    [8.1, 12, 'bad', 'carried-mass-from-to leastG=8.1 mostG=12'],
    [4, 7.9, 'bad', 'carried-mass-from-to leastG=4 mostG=7.9'],
    [undefined, 8, 'good', 'carried-mass-from-to leastG=0 mostG=8'],
    [undefined, 7.9, 'bad', 'carried-mass-from-to leastG=0 mostG=7.9'],
    [8, undefined, 'good', 'carried-mass-from leastG=8'],
    [8.1, undefined, 'bad', 'carried-mass-from leastG=8.1'],
  ])('8 g on an arm for %d to %d g: %s', (cartridgeMassMinG, cartridgeMassMaxG, verdict, note) => {
    const { findings } = matchBalance({ cartridgeMassG: 7, hardwareMassG: 1, cartridgeMassMinG, cartridgeMassMaxG });
    expect(findings).toMatchObject([
      { quantity: 'carried-mass', value: 8, unit: 'g', uncertainty: 1, bands: [], verdict },
    ]);
    expect(findings[0].notes?.map((one) => told(one))).toEqual([note]);
  });

  test('hardware that is not known counts as nothing, and is told; a cartridge that is not withholds it', () => {
    const [finding] = matchBalance({ cartridgeMassG: 7, cartridgeMassMaxG: 12 }).findings;
    expect(finding).toMatchObject({ value: 7, uncertainty: 2 * Math.hypot(0.5, 2 / Math.sqrt(12)) });
    expect(finding.notes?.map((one) => told(one))[1]).toBe('hardware-not-known mostG=2');
    expect(matchBalance({ hardwareMassG: 1, cartridgeMassMaxG: 12 })).toMatchObject({
      findings: [],
      problems: [{ quantity: 'carried-mass' }],
    });
  });
});

describe('the force in its range', () => {
  const range: MatchInput = { trackingForceMinMn: 15, trackingForceMaxMn: 21 };

  test.each([
    [15, 'good', null],
    [21, 'good', null],
    [14.9, 'bad', 'force-too-light'],
    [21.1, 'bad', 'force-too-heavy'],
  ])('%d mN of 15 to 21 is %s', (trackingForceMn, verdict, code) => {
    const { findings, advice } = matchBalance({ ...range, trackingForceMn });
    expect(findings).toMatchObject([
      {
        quantity: 'tracking-force',
        value: trackingForceMn,
        unit: 'mN',
        uncertainty: expect.closeTo(0.02 * trackingForceMn, 12),
        low: 15,
        high: 21,
        bands: [],
        verdict,
      },
    ]);
    expect(findings[0].notes?.map((one) => told(one))).toEqual(['force-given leastMn=15 mostMn=21']);
    expect(moves(advice)).toEqual(code === null ? [] : [`set-force null 19 mN: ${code} / caution-guard-force`]);
    if (code !== null) {
      expect(advice[0].predicts).toEqual([{ quantity: 'tracking-force', value: 19, unit: 'mN' }]);
      expect(told(advice[0].reasons![0])).toBe(`${code} mn=${trackingForceMn} startMn=19`);
    }
  });

  test('no force yet: where to start, as information', () => {
    const { findings, advice } = matchBalance({ ...range, trackingForceRecommendedMn: 18 });
    expect(findings).toMatchObject([{ value: 18, verdict: 'info', uncertainty: expect.closeTo(0.36, 12) }]);
    expect(findings[0].notes?.map((one) => told(one))).toEqual(['force-to-start leastMn=15 mostMn=21']);
    expect(advice).toEqual([]);
  });

  test('a recommendation on the range’s ends is in it, one beyond either end is passed over and told', () => {
    const notes = (mn: number) => verdicts(matchBalance({ ...range, trackingForceRecommendedMn: mn }).findings);
    for (const mn of [15, 21]) expect(notes(mn)).toEqual(['tracking-force info: force-to-start']);
    for (const mn of [14.9, 21.1])
      expect(notes(mn)).toEqual(['tracking-force info: force-to-start recommended-outside']);
    expect([15, 21, 14.9, 21.1].map((mn) => startForceMn(15, 21, mn))).toEqual([15, 21, 19, 19]);
    expect(startForceMn(15, 15)).toBe(15);
  });

  test('one end alone is withheld; no end is not asked about', () => {
    for (const one of [{ trackingForceMinMn: 15 }, { trackingForceMaxMn: 21 }]) {
      expect(matchBalance({ ...one, trackingForceMn: 18 })).toMatchObject({
        findings: [],
        problems: [{ quantity: 'tracking-force' }],
      });
    }
    expect(matchBalance({ trackingForceMn: 18 }).problems).toEqual([]);
  });

  test.each([
    [0, 10],
    [11, 10],
    [10, 201],
    [Number.NaN, 10],
  ])('a range of %d to %d mN is refused', (least, most) => {
    expect(() => startForceMn(least, most)).toThrow(/above 0, lower first, at most 200/);
  });
});

test('place first, then the mass carried, then the force', () => {
  const all = { ...arm, cartridgeMassMaxG: 12, trackingForceMinMn: 15, trackingForceMaxMn: 21 };
  expect(matchBalance(all).findings.map(({ quantity }) => quantity)).toEqual([
    'counterweight-position',
    'carried-mass',
    'tracking-force',
  ]);
});
