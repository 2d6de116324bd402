import { describe, expect, it } from 'vitest';
import { doubts, verticalDoubt } from './doubts.ts';
import { speedAt, twoTone } from './heard.fixture.ts';
import { trackingAngles, verticalAngles } from './heardAngles.ts';

const DEG = Math.PI / 180;
const DB = 20 / Math.LN10;
const parts = (budget: readonly { of: { code: string }; size: number }[]) =>
  Object.fromEntries(budget.map(({ of, size }) => [of.code, size]));
const close = (of: Record<string, number>) =>
  Object.fromEntries(Object.entries(of).map(([code, size]) => [code, expect.closeTo(size, 9)]));

describe('what record and chain may hide in an angle', () => {
  it('by default', () => {
    const of = doubts(undefined, 0.2);
    expect({ ...of, phase: [of.phase(true), of.phase(false)] }).toEqual({
      velocity: expect.closeTo(1 / DB, 12),
      equalisation: expect.closeTo(0.2 / DB, 12),
      zenith: 0.5,
      verticalAngle: 3,
      cutTilt: 1.2,
      verticalApart: 5,
      radiusMm: 1,
      phase: [0.01, 0.04],
    });
  });

  it('by the record file', () => {
    const cut = {
      levelUncertaintyDb: 0.3,
      zenithUncertaintyDeg: 0.1,
      tiltUncertaintyDeg: 0.4,
      radiusUncertaintyMm: 0.2,
    };
    expect(doubts(cut, 0)).toMatchObject({
      velocity: expect.closeTo(0.3 / DB, 12),
      equalisation: 0,
      zenith: 0.1,
      cutTilt: 0.4,
      radiusMm: 0.2,
    });
  });

  it.each([
    [undefined, 3],
    [{}, 3],
    [{ verticalAngleKind: 'mechanical' as const }, 3],
    [{ verticalAngleKind: 'effective' as const }, 3],
    [{ verticalAngleDeg: 20 }, 3],
    [{ verticalAngleDeg: 20, verticalAngleKind: 'mechanical' as const }, 5],
    [{ verticalAngleDeg: 20, verticalAngleKind: 'effective' as const }, 1],
  ])('a vertical angle stated as %o is known to %d°', (cut, size) => {
    expect(verticalDoubt(cut)).toBe(size);
    expect(doubts(cut, 0).verticalAngle).toBe(size);
  });
});

describe('a lateral two-tone band', () => {
  const band = (deg: number) =>
    twoTone({
      band: 4,
      radiusMm: 80,
      k: Math.tan(deg * DEG) / speedAt(80),
      kVariance: 1e-8,
      kPerRadian: 0.02,
      leaksKnown: false,
    });

  it.each([
    [2, 1],
    [-2, 1],
    [2, -1],
    [-2, -1],
  ] as const)('%d° by a chain of sign %d, whole', (deg, sign) => {
    const [angle, ...more] = trackingAngles([band(deg)], sign, undefined, null, 0.2);
    const perK = speedAt(80) / DEG;
    const of = {
      signal: 2e-4 * perK,
      'cut-velocity': 2 / DB,
      'band-radius': 2 / 80,
      'cut-zenith': 0.5,
      'cut-tilt': 1.2 * Math.tan(5 * DEG),
      equalisation: (2 * 0.2) / DB,
      leaks: 0.02 * 0.04 * perK,
    };
    expect(more).toEqual([]);
    expect(parts(angle.budget)).toEqual(close(of));
    expect(angle).toMatchObject({
      band: 4,
      radiusMm: 80,
      value: expect.closeTo(sign * deg, 9),
      repeatability: expect.closeTo(of.signal, 9),
      uncertainty: expect.closeTo(Math.hypot(...Object.values(of)), 9),
    });
    expect(angle.budget.every(({ unit }) => unit === 'deg')).toBe(true);
  });

  it('the cut’s zenith is taken off, and what its tilt adds goes with how far the vertical angles lie apart, either way', () => {
    const of = (apart: number | null, zenithDeg = 0) => trackingAngles([band(1)], 1, { zenithDeg }, apart, 0.2)[0];
    expect(of(0, 0.7).value).toBeCloseTo(0.3, 9);
    expect(of(0, -0.7).value).toBeCloseTo(1.7, 9);
    for (const apart of [8, -8]) expect(parts(of(apart).budget)['cut-tilt']).toBeCloseTo(1.2 * Math.tan(8 * DEG), 9);
    expect(parts(of(0).budget)['cut-tilt']).toBeUndefined();
  });

  it('each axis tells only its own bands; a leak that is undone leaves less, of either sign', () => {
    const bands = [band(1), twoTone({ band: 5, vertical: true, k: 0.01, kPerRadian: -0.02, leaksKnown: true })];
    expect(trackingAngles(bands, 1, undefined, null, 0.2).map((one) => one.band)).toEqual([4]);
    const [vertical, ...more] = verticalAngles(bands, 1, undefined, 0.2);
    expect([vertical.band, more]).toEqual([5, []]);
    expect(parts(vertical.budget).leaks).toBeGreaterThan(0);
    const negative = twoTone({ radiusMm: 80, kPerRadian: -0.02, leaksKnown: true });
    expect(parts(trackingAngles([negative], 1, undefined, 0, 0.2)[0].budget).leaks).toBeCloseTo(
      (0.02 * 0.01 * speedAt(80)) / DEG,
      9,
    );
  });
});

describe('a vertical two-tone band', () => {
  it.each([
    [25, 20, 1],
    [15, 20, 1],
    [25, 20, -1],
    [18, 22, -1],
  ] as const)('played at %d° what was cut at %d°, by a chain of sign %d, whole', (play, cutDeg, sign) => {
    const k = (-sign * (Math.tan(play * DEG) - Math.tan(cutDeg * DEG))) / speedAt(120);
    const band = twoTone({ band: 7, vertical: true, radiusMm: 120, k, kVariance: 1e-8, kPerRadian: -0.02 });
    const cut = cutDeg === 20 ? undefined : ({ verticalAngleDeg: cutDeg, verticalAngleKind: 'effective' } as const);
    const [angle] = verticalAngles([band], sign, cut, 0.2);
    const perK = (speedAt(120) / DEG) * Math.cos(play * DEG) ** 2;
    const off = Math.abs(play - cutDeg);
    const of = {
      signal: 2e-4 * perK,
      'cut-velocity': off / DB,
      'band-radius': off / 120,
      'cut-vertical-angle': cut === undefined ? 3 : 1,
      equalisation: (off * 0.2) / DB,
      leaks: 0.02 * 0.01 * perK,
    };
    expect(parts(angle.budget)).toEqual(close(of));
    expect(angle).toMatchObject({
      band: 7,
      radiusMm: 120,
      value: expect.closeTo(play - cutDeg, 9),
      repeatability: expect.closeTo(of.signal, 9),
      uncertainty: expect.closeTo(Math.hypot(...Object.values(of)), 9),
    });
  });
});
