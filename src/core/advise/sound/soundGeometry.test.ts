import { describe, expect, it } from 'vitest';
import type { HeardGeometry } from '../../measure/soundFigures.ts';
import { told } from '../told.fixture.ts';
import { speedAt, tone, twoTone } from './heard.fixture.ts';
import { trackingAngles, verticalAngles } from './heardAngles.ts';
import { overhangHeard } from './overhangHeard.ts';
import { soundGeometry } from './soundGeometry.ts';
import { heightMoves, movesFor } from './soundMoves.ts';

const DEG = Math.PI / 180;
const [L, D, OFFSET] = [239.3, 222, 23];
const arm = { spindleToPivot: D, effectiveLength: L, offsetDeg: OFFSET };
const law = (r: number) => Math.asin((r * r + L * L - D * D) / (2 * r * L)) / DEG - OFFSET;
const lateralBand = (band: number, radiusMm: number, deg = law(radiusMm)) =>
  twoTone({ band, radiusMm, k: Math.tan(deg * DEG) / speedAt(radiusMm), kVariance: 1e-10 });
const verticalBand = (band: number, radiusMm: number, deg: number) =>
  twoTone({
    band,
    radiusMm,
    vertical: true,
    k: -(Math.tan((20 + deg) * DEG) - Math.tan(20 * DEG)) / speedAt(radiusMm),
    kVariance: 1e-10,
  });
const polarity = { found: true, sign: 1, radius: {}, bands: [] } as unknown as HeardGeometry['polarity'];
const heard = (of: Partial<HeardGeometry>): HeardGeometry => ({
  twoTones: [],
  seconds: [],
  lags: [],
  polarity,
  cut: undefined,
  ...of,
});
const lateral = [lateralBand(1, 140), lateralBand(2, 66.5), lateralBand(3, 100)];
const vertical = [verticalBand(4, 120, 3), verticalBand(5, 80, 5)];
const lag = (band: number, radiusMm: number, zeta: number, error = law(radiusMm)) => ({
  band,
  radiusMm,
  speed: speedAt(radiusMm),
  omega: 2e5 * Math.PI,
  lagS: (20e-4 * Math.tan((zeta - error) * DEG)) / speedAt(radiusMm),
  spread: 1e-9,
});
const notes = (of: ReturnType<typeof soundGeometry>) =>
  of.findings.map(
    ({ quantity, bands, notes: said }) => `${quantity} ${bands.join(' ')}: ${said.map(({ code }) => code).join(' ')}`,
  );
const withheld = (of: ReturnType<typeof soundGeometry>) =>
  of.problems.map(({ quantity, values }) => `${quantity}: ${(values?.why as { code: string } | undefined)?.code}`);

describe('what a side tells of the geometry', () => {
  it('whole: overhang first, each angle at its radius, and the moves', () => {
    const of = soundGeometry(heard({ twoTones: [...lateral, ...vertical] }), arm, 0.2);
    // the angle apart is the mean of both vertical bands
    const angles = trackingAngles(lateral, 1, undefined, 4, 0.2);
    const steep = verticalAngles(vertical, 1, undefined, 0.2);
    const overhang = overhangHeard(angles, D, undefined, 0.2)!;
    const figure = (quantity: string, angle: (typeof angles)[number], said: string[]) => ({
      quantity,
      value: expect.closeTo(angle.value, 9),
      unit: 'deg',
      uncertainty: expect.closeTo(angle.uncertainty, 6),
      repeatability: angle.repeatability,
      budget: expect.anything(),
      bands: [angle.band],
      notes: [
        { code: 'at-radius', values: { radiusMm: angle.radiusMm } },
        ...said.map((code) => expect.objectContaining({ code })),
      ],
    });
    expect(of.findings).toEqual([
      {
        quantity: 'overhang-heard',
        value: overhang.overhangMm,
        unit: 'mm',
        uncertainty: overhang.uncertainty,
        repeatability: overhang.repeatability,
        budget: overhang.budget,
        bands: [1, 2, 3],
        notes: [{ code: 'overhang-by-difference', values: { offsetDeg: overhang.offsetDeg } }],
      },
      ...angles.map((one) => figure('tracking-error', one, ['path-of-the-tip'])),
      ...steep.map((one) => figure('vertical-tracking-error', one, ['cut-angle-assumed'])),
    ]);
    expect(of.findings[1].budget).toEqual(
      angles[0].budget.map((line) => ({
        ...line,
        size: expect.closeTo(line.size, 9),
        share: expect.closeTo(line.share, 9),
      })),
    );
    expect(of.findings[1].notes[1].values).toEqual({ pathDeg: 0.6 });
    expect(of.problems).toEqual([]);
    expect(of.advice.map(({ action, direction }) => [action, direction])).toEqual(
      [...movesFor(overhang, angles, arm), ...heightMoves(steep, arm)].map(({ action, direction }) => [
        action,
        direction,
      ]),
    );
    expect(of.advice).toHaveLength(2);
    const [points, fit, ...more] = of.curves;
    const common = { quantity: 'tracking-error', xUnit: 'mm', yUnit: 'deg' };
    expect(more).toEqual([]);
    expect(points).toEqual({
      ...common,
      name: 'heard',
      x: [66.5, 100, 140],
      y: [66.5, 100, 140].map((r) => expect.closeTo(law(r), 6)),
    });
    // every millimetre, from the one inside the innermost to the outermost
    const x = Array.from({ length: 75 }, (_, i) => 66 + i);
    expect(fit).toEqual({ ...common, name: 'the arm that fits', x, y: x.map((r) => expect.closeTo(law(r), 4)) });
  });

  it('nothing to hear is nothing told; lateral tones alone are no ground either', () => {
    const nothing = { findings: [], advice: [], problems: [], curves: [] };
    const tones = [140, 66].map((radiusMm, band) => tone({ band, radiusMm, tangent: 0.02 }));
    for (const of of [undefined, heard({}), heard({ seconds: tones, lags: [lag(1, 140, 2)] })]) {
      expect(soundGeometry(of, arm, 0.2)).toEqual(nothing);
    }
  });

  it('an undecided polarity withholds each angle once, by its name', () => {
    const undecided = { found: false, why: 'pinch-weak' } as const;
    const of = (more: Partial<HeardGeometry>) => {
      const answer = soundGeometry(heard({ ...more, polarity: undecided }), arm, 0.2);
      expect([answer.findings, answer.advice, answer.curves]).toEqual([[], [], []]);
      return withheld(answer);
    };
    const verticalTone = tone({ band: 7, radiusMm: 100, vertical: true, tangent: 0.1 });
    const lateralTone = tone({ band: 8, radiusMm: 100, tangent: 0.1 });
    expect(of({ twoTones: lateral })).toEqual(['tracking-error: polarity-undecided']);
    expect(of({ twoTones: [...vertical, ...lateral] })).toEqual([
      'vertical-tracking-error: polarity-undecided',
      'tracking-error: polarity-undecided',
    ]);
    expect(of({ seconds: [lateralTone, verticalTone] })).toEqual(['vertical-tracking-error: polarity-undecided']);
  });

  it('why there is no overhang: no pivot distance, or radii too close; a tangential arm has none', () => {
    const close = [lateralBand(1, 100), lateralBand(2, 90)];
    const of = (twoTones: typeof close, given: Parameters<typeof soundGeometry>[1]) => {
      const answer = soundGeometry(heard({ twoTones }), given, 0.2);
      expect(answer.curves).toHaveLength(twoTones.length > 1 ? 1 : 0);
      expect(answer.advice).toEqual([]);
      return withheld(answer);
    };
    expect(of(lateral, null)).toEqual(['overhang-heard: pivot-distance-missing']);
    expect(of(close, arm)).toEqual(['overhang-heard: radii-too-close']);
    expect(of(lateral, 'tangential')).toEqual([]);
    expect(of(close.slice(1), arm)).toEqual([]);
    expect(of(close.slice(1), null)).toEqual([]);
  });
});

describe('the vertical angle', () => {
  it.each([
    [undefined, 'cut-angle-assumed deg=20'],
    [{ verticalAngleDeg: 22 }, 'cut-effective deg=22'],
    [{ verticalAngleDeg: 22, verticalAngleKind: 'effective' as const }, 'cut-effective deg=22'],
    [{ verticalAngleDeg: 22, verticalAngleKind: 'mechanical' as const }, 'cut-mechanical deg=22'],
  ])('of a cut %o says %s', (cut, note) => {
    const [finding] = soundGeometry(heard({ twoTones: vertical.slice(1), cut }), null, 0.2).findings;
    expect(finding.notes.map((one) => told(one))).toEqual(['at-radius radiusMm=80', note]);
  });

  it('by plain tones where no two-tone band tells it, and says so; either asks for height of an arm that is known', () => {
    const tones = [130, 70].map((radiusMm, band) =>
      tone({ band, radiusMm, vertical: true, tangent: -(Math.tan(30 * DEG) - Math.tan(20 * DEG)) }),
    );
    const of = (given: Parameters<typeof soundGeometry>[1], twoTones: typeof vertical = []) =>
      soundGeometry(heard({ seconds: tones, twoTones }), given, 0.2);
    expect(notes(of(null))).toEqual(['vertical-tracking-error 0: at-radius vertical-by-harmonic cut-angle-assumed']);
    expect(of(null).findings[0].value).toBeCloseTo(10, 0);
    expect(of(null).advice).toEqual([]);
    expect(of('tangential').advice).toEqual([]);
    expect(of(arm).advice.map(({ direction }) => direction)).toEqual(['lower-at-the-pivot']);
    expect(notes(of(arm, vertical))).toEqual([
      'vertical-tracking-error 4: at-radius cut-angle-assumed',
      'vertical-tracking-error 5: at-radius cut-angle-assumed',
    ]);
  });
});

describe('the skew of the tip', () => {
  const lags = (zeta: number, error?: number) => [lag(1, 140, zeta, error), lag(2, 66.5, zeta, error)];
  const skewOf = (of: ReturnType<typeof soundGeometry>) =>
    of.findings.find(({ quantity }) => quantity === 'stylus-skew');

  it.each([
    [8, ['skew-width-assumed', 'skew-do']],
    [-8, ['skew-width-assumed', 'skew-do']],
    [0.5, ['skew-width-assumed']],
  ])('%d°, against the arm as heard', (zeta, codes) => {
    const of = soundGeometry(heard({ twoTones: lateral, lags: lags(zeta) }), arm, 0.2);
    const skew = skewOf(of)!;
    expect(skew.value).toBeCloseTo(zeta, 3);
    expect(skew).toMatchObject({ unit: 'deg', bands: [1, 2] });
    expect(skew.notes.map(({ code }) => code)).toEqual(codes);
    expect(skew.notes[0].values).toEqual({ um: 20 });
    expect(skew.budget!.length).toBeGreaterThan(1);
    expect(skew.uncertainty).toBeGreaterThan(skew.repeatability!);
    expect(of.curves.map(({ name }) => name)).toEqual(['heard', 'the arm that fits', 'heard', 'the edge that fits']);
    expect(notes(of).at(-1)).toContain('stylus-skew');
  });

  it('a stated width is named, and the cut’s zenith belongs to the edge’s own line', () => {
    const [zenithDeg, zenithUncertaintyDeg] = [1, 2];
    const cut = { zenithDeg, zenithUncertaintyDeg };
    const of = soundGeometry(heard({ twoTones: lateral, lags: lags(3), cut }), arm, 0.2, { um: 20, size: 1 });
    expect(skewOf(of)!.notes[0]).toEqual({ code: 'skew-width-stated', values: { um: 20 } });
    // the path is told without the zenith, the edge against what was cut
    expect(skewOf(of)!.value).toBeCloseTo(3, 3);
    const size = skewOf(of)!.budget!.find(({ of: source }) => source.code === 'tracking-error-heard')!.size;
    const ofPath = trackingAngles(lateral, 1, cut, null, 0.2).map(({ budget }) =>
      Math.hypot(...budget.filter(({ of: source }) => source.code !== 'cut-zenith').map((line) => line.size)),
    );
    expect(size).toBeCloseTo(Math.hypot(Math.max(...ofPath), 0.6), 2);
  });

  it('without an arm each lag goes by a two-tone band within 12 mm, less surely', () => {
    const near = (by: number) => {
      const bands = [lateralBand(1, 140 - by, 0.7), lateralBand(2, 66.5 + by, 0.7)];
      return soundGeometry(heard({ twoTones: bands, lags: lags(3, 0.7), cut: { zenithDeg: 0.2 } }), null, 0.2);
    };
    for (const by of [12, -12]) expect(skewOf(near(by))!.value).toBeCloseTo(3, 3);
    for (const by of [12.1, -12.1]) expect(withheld(near(by))).toContain('stylus-skew: skew-no-error');
    const size = (of: ReturnType<typeof near>) =>
      skewOf(of)!.budget!.find(({ of: source }) => source.code === 'tracking-error-heard')!.size;
    const ofPath = Math.max(
      ...[140, 66.5].map((r) =>
        Math.hypot(
          ...trackingAngles([lateralBand(1, r, 0.7)], 1, undefined, null, 0.2)[0]
            .budget.filter(({ of: source }) => source.code !== 'cut-zenith')
            .map((line) => line.size),
        ),
      ),
    );
    expect(size(near(0))).toBeCloseTo(Math.hypot(ofPath, 0.6, 0.3), 2);
  });

  it('is withheld with its reason, and not asked for without lags', () => {
    const one = heard({ twoTones: lateral, lags: [lag(1, 140, 3)] });
    expect(withheld(soundGeometry(one, arm, 0.2))).toEqual(['stylus-skew: skew-one-speed']);
    expect(soundGeometry(one, arm, 0.2).curves).toHaveLength(2);
    expect(withheld(soundGeometry(heard({ twoTones: lateral }), arm, 0.2))).toEqual([]);
  });
});

describe('the second harmonic beside two-tone bands', () => {
  const seconds = (deg: number) => [
    ...[110, 90].map((radiusMm, i) => tone({ band: 6 + i, radiusMm, tangent: Math.tan(deg * DEG) })),
    tone({ band: 9, radiusMm: 100, vertical: true, tangent: 0 }),
  ];
  const check = (twoTones: typeof lateral, deg = 1) => {
    const of = soundGeometry(heard({ twoTones, seconds: seconds(deg) }), null, 0.2);
    return of.findings.find(({ quantity }) => quantity === 'tracking-error-cross-check')!;
  };

  it('agrees within both doubts, of either sign, and is held against the nearest band', () => {
    const bands = (deg: number) => [lateralBand(1, 140, 20), lateralBand(2, 98, deg), lateralBand(3, 60, -20)];
    const own = check(bands(1));
    const both = Math.hypot(
      own.uncertainty!,
      trackingAngles([lateralBand(2, 98, 1)], 1, undefined, 0, 0.2)[0].uncertainty,
    );
    expect(own).toMatchObject({ unit: 'deg', bands: [6, 7] });
    expect(own.value).toBeCloseTo(1, 1);
    expect(own.notes.map(({ code }) => code)).toEqual(['at-radius', 'by-second-harmonic', 'cross-check-agrees']);
    expect(own.notes[1].values).toEqual({ bands: 2 });
    expect(own.notes[2].values).toEqual({ deg: expect.closeTo(1, 9), radiusMm: 98 });
    for (const sign of [1, -1]) {
      const code = (by: number) => check(bands(1 + sign * by)).notes[2].code;
      expect(code(0.9 * both)).toBe('cross-check-agrees');
      expect(code(1.15 * both)).toBe('cross-check-apart');
    }
    // nearest from outside too
    expect(check([lateralBand(1, 60, 20), lateralBand(2, 103, 1)]).notes[2].values.radiusMm).toBe(103);
  });

  it('stands alone where no lateral band is heard', () => {
    const [tones, bands] = [seconds(1), [verticalBand(4, 100, 1)]];
    const of = soundGeometry(heard({ twoTones: bands, seconds: tones }), null, 0.2);
    expect(notes(of).at(-1)).toBe('tracking-error-cross-check 6 7: at-radius by-second-harmonic');
  });

  it('goes by the arm’s own law where its offset is known: radii far apart tell it then', () => {
    const far = [
      ...[140, 62].map((radiusMm, i) => tone({ band: 6 + i, radiusMm, tangent: Math.tan(law(radiusMm) * DEG) })),
      tone({ band: 9, radiusMm: 100, vertical: true, tangent: 0 }),
    ];
    const names = (given: Parameters<typeof soundGeometry>[1]) =>
      soundGeometry(heard({ twoTones: lateral, seconds: far }), given, 0.2).findings.map(({ quantity }) => quantity);
    expect(names(arm)).toContain('tracking-error-cross-check');
    for (const given of [null, 'tangential', { spindleToPivot: D, effectiveLength: L }] as const) {
      expect(names(given)).not.toContain('tracking-error-cross-check');
    }
  });
});
