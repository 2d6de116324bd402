import { describe, expect, it } from 'vitest';
import { trackingOfTones, verticalOfTones } from './harmonicAngles.ts';
import { speedAt, tone } from './heard.fixture.ts';

const DEG = Math.PI / 180;
const DB = 20 / Math.LN10;
const tan = (deg: number) => Math.tan(deg * DEG);
const parts = (of: ReturnType<typeof trackingOfTones>) =>
  Object.fromEntries((of?.budget ?? []).map(({ of: source, size }) => [source.code, size]));

describe('the vertical angle of plain tones', () => {
  it.each([
    [25, 20, 1],
    [15, 20, 1],
    [25, 20, -1],
    [26, 22, -1],
  ] as const)('played at %d° what was cut at %d°, by a chain of sign %d', (play, cutDeg, sign) => {
    const tangent = -sign * (tan(play) - tan(cutDeg));
    const own = [130, 70].map((radiusMm, i) => tone({ band: 3 - i, vertical: true, radiusMm, tangent, bend: 2e-4 }));
    const other = [120, 80].map((radiusMm, i) => tone({ band: 8 + i, radiusMm, tangent: 0, bend: 2e-4 }));
    const cut = cutDeg === 20 ? undefined : ({ verticalAngleDeg: cutDeg, verticalAngleKind: 'mechanical' } as const);
    const of = verticalOfTones([...other, ...own], sign, cut, 0.2)!;
    // the house's prior of no bend pulls a little
    expect(of.value).toBeCloseTo(play - cutDeg, 1);
    expect([of.band, of.bands]).toEqual([2, [2, 3]]);
    const off = Math.abs(of.value);
    // weights 1/(V s)²
    const weights = [130, 70].map((r) => 1 / speedAt(r) ** 2);
    const mean = (values: number[]) =>
      values.reduce((sum, v, i) => sum + (v * weights[i]) / (weights[0] + weights[1]), 0);
    expect(of.radiusMm).toBeCloseTo(mean([130, 70]), 9);
    expect(parts(of)).toEqual({
      signal: expect.closeTo(of.repeatability, 12),
      'cut-velocity': expect.closeTo(off / DB, 9),
      'band-radius': expect.closeTo(off / of.radiusMm, 9),
      'cut-second-harmonic': expect.closeTo((0.003 * mean([130, 70].map((r) => speedAt(r) / 5))) / DEG, 9),
      equalisation: expect.closeTo((off * 0.2) / DB, 9),
      'cut-vertical-angle': cut === undefined ? 3 : 5,
    });
    expect(of.uncertainty).toBeCloseTo(Math.hypot(...Object.values(parts(of))), 9);
  });

  it('is none without a vertical tone', () => {
    expect(verticalOfTones([], 1, undefined, 0.2)).toBeNull();
    expect(verticalOfTones([tone({ band: 0, radiusMm: 100, tangent: 0.1 })], 1, undefined, 0.2)).toBeNull();
  });

  it('one tone alone is believed as far as generators usually bend', () => {
    // half of 1 % at 5 cm/s, as a tangent: 0.0005 · V · 2 standards, by cos² of the angle played at
    const only = [tone({ band: 0, vertical: true, radiusMm: 100, tangent: 0 })];
    const of = verticalOfTones(only, 1, undefined, 0.2)!;
    expect(of.value).toBeCloseTo(0, 9);
    expect(of.repeatability).toBeCloseTo(((2 * 0.0005 * speedAt(100)) / DEG) * Math.cos(20 * DEG) ** 2, 3);
  });
});

describe('the tracking error of plain tones', () => {
  const tones = (deg: number, radii = [130, 70], bend = 0) =>
    radii.map((radiusMm, i) => tone({ band: 5 - i, radiusMm, tangent: tan(deg), bend }));
  const vertical = (bend = 0) => [tone({ band: 9, vertical: true, radiusMm: 100, tangent: 0, bend })];
  /** an arm whose error is its own at each radius */
  const arm = { kind: 'pivoted', spindleToPivot: 222, effectiveLength: 239.3, offset: 23 * DEG } as const;
  const lawDeg = (r: number) => Math.asin((r * r + 239.3 ** 2 - 222 ** 2) / (2 * r * 239.3)) / DEG - 23;

  it.each([
    [2, 1],
    [-2, 1],
    [2, -1],
  ] as const)('%d° heard by a chain of sign %d', (deg, sign) => {
    const of = trackingOfTones([...tones(deg, [110, 90]), ...vertical()], sign, undefined, 0.2, null)!;
    expect(of.value).toBeCloseTo(sign * deg, 2);
    expect(of.bands).toEqual([4, 5]);
    expect(parts(of)).toMatchObject({
      'cut-velocity': expect.closeTo(2 / DB, 3),
      'cut-zenith': 0.5,
      'cut-tilt': expect.closeTo(1.2 * tan(5), 9),
      equalisation: expect.closeTo(0.4 / DB, 3),
    });
    expect(of.repeatability).toBeCloseTo(parts(of).signal, 12);
    expect(
      trackingOfTones([...tones(deg, [110, 90]), ...vertical()], sign, { zenithDeg: 0.6 }, 0.2, null)!.value,
    ).toBeCloseTo(sign * deg - 0.6, 2);
  });

  it('a bend of the generators that the other axis tells is none of the angle', () => {
    const bent = 1e-3;
    for (const sign of [1, -1] as const) {
      // the tones of the other axis bend as the chain hands it on
      const heard = [...tones(1.5, [110, 90], bent), ...vertical(bent)];
      expect(trackingOfTones(heard, sign, undefined, 0.2, null)!.value).toBeCloseTo(1.5 * sign, 1);
    }
  });

  it('by the arm’s own law: what is common to every radius is found on top of it', () => {
    const radii = [140, 62];
    const heard = radii.map((radiusMm, i) => tone({ band: i, radiusMm, tangent: tan(lawDeg(radiusMm)) + 0.02 }));
    const of = trackingOfTones([...heard, ...vertical()], 1, undefined, 0.2, arm)!;
    expect(tan(of.value)).toBeCloseTo(tan(lawDeg(of.radiusMm)) + 0.02, 3);
    expect(of.radiusMm).toBeGreaterThan(62);
    expect(of.radiusMm).toBeLessThan(90);
  });

  it('is none from one band, from radii far apart without an arm, or where nothing parts it from the bends', () => {
    const ask = (heard: Parameters<typeof trackingOfTones>[0], of: Parameters<typeof trackingOfTones>[4] = null) =>
      trackingOfTones(heard, 1, undefined, 0.2, of) !== null;
    expect(ask([...tones(1, [100]), ...vertical()])).toBe(false);
    // 25 mm apart at most
    expect(ask([...tones(1, [105, 80]), ...vertical()])).toBe(true);
    expect(ask([...tones(1, [105.1, 80]), ...vertical()])).toBe(false);
    expect(ask([...tones(1, [105.1, 80]), ...vertical()], arm)).toBe(true);
    // 1.3 times the speed, unless the other axis tells the bend
    expect(ask(tones(1, [104.01, 80]))).toBe(true);
    expect(ask(tones(1, [103.9, 80]))).toBe(false);
    expect(ask([...tones(1, [80, 80]), ...vertical()])).toBe(true);
    expect(ask(vertical())).toBe(false);
  });

  it('tones that disagree by more than their spread widen it', () => {
    const off = (by: number) => {
      const heard = [110, 100, 90].map((radiusMm, i) =>
        tone({ band: i, radiusMm, tangent: 0.03 + (i === 1 ? by : 0), spread: 1e-4 }),
      );
      return trackingOfTones([...heard, ...vertical()], 1, undefined, 0.2, null)!.repeatability;
    };
    expect(off(0.01)).toBeGreaterThan(2 * off(0));
    expect(off(1e-7)).toBeCloseTo(off(0), 9);
  });
});
