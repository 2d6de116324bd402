import { describe, expect, it } from 'vitest';
import { tiltFromMonoSums } from './monoSums.ts';
import { type ReadingAtTilt, tiltFromReadings, tiltFromTwoReadings } from './voltmeter.ts';

const DEG = Math.PI / 180;
const DB = 20 / Math.LN10;
const dB = (ratio: number) => -20 * Math.log10(ratio);

describe('one pair of readings, by hand', () => {
  it.each([
    [28, 24],
    [24, 28],
    [3, 80],
    [80, 3],
  ])('%d and %d dB', (leftToRightDb, rightToLeftDb) => {
    const [a, b] = [10 ** (-leftToRightDb / 20), 10 ** (-rightToLeftDb / 20)];
    const reading = (Math.hypot(a, b) * 0.3) / DB / 2 / DEG;
    expect(tiltFromTwoReadings({ leftToRightDb, rightToLeftDb })).toEqual({
      found: true,
      angleDeg: expect.closeTo(Math.atan((b - a) / 2) / DEG, 9),
      readingDeg: expect.closeTo(reading, 9),
      uncertaintyDeg: expect.closeTo(Math.hypot(Math.atan((a + b) / 2) / DEG, reading), 9),
      leaks: null,
      predictedLeftToRightDb: expect.closeTo(dB((a + b) / 2), 9),
      predictedRightToLeftDb: expect.closeTo(dB((a + b) / 2), 9),
      assumption: { code: 'no-phase-on-a-meter', values: {} },
    });
  });

  it('with mono sums: the tilt of least leak and what a turn by it leaves', () => {
    const mono = { leftMonoDb: 0.05, rightMonoDb: 0.3 };
    const [a, b] = [10 ** (-28 / 20), 10 ** (-24 / 20)];
    for (const readingUncertaintyDb of [undefined, 0.2]) {
      const by = tiltFromMonoSums(a, b, mono, {
        separationDb: readingUncertaintyDb ?? 0.3,
        monoDb: readingUncertaintyDb ?? 0.1,
      });
      if (!by.found) throw new Error(by.why.code);
      const { leftIntoRight: l, rightIntoLeft: r } = by.leaks;
      // turned back by t the in-phase parts meet in the middle
      const common = (l.re + r.re) / 2;
      expect(tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24, mono, readingUncertaintyDb })).toEqual({
        found: true,
        angleDeg: expect.closeTo(by.tilt / DEG, 9),
        readingDeg: expect.closeTo(by.uncertainty / DEG, 9),
        uncertaintyDeg: expect.closeTo(by.uncertainty / DEG, 9),
        leaks: by.leaks,
        predictedLeftToRightDb: expect.closeTo(dB(Math.hypot(common, l.im)), 1),
        predictedRightToLeftDb: expect.closeTo(dB(Math.hypot(common, r.im)), 1),
        assumption: { code: 'equal-gain-read', values: {} },
      });
    }
    expect(
      tiltFromTwoReadings({ leftToRightDb: 40, rightToLeftDb: 40, mono: { leftMonoDb: -1, rightMonoDb: 1 } }),
    ).toMatchObject({
      found: false,
      why: { code: 'mono-sums-disagree' },
    });
  });

  it.each([2.9, 80.1, Number.NaN])('%d dB is no separation', (odd) => {
    expect(() => tiltFromTwoReadings({ leftToRightDb: odd, rightToLeftDb: 24 })).toThrow(`left into right is ${odd}`);
    expect(() => tiltFromTwoReadings({ leftToRightDb: 24, rightToLeftDb: odd })).toThrow(`right into left is ${odd}`);
    const row = (i: number, name: 'leftToRightDb' | 'rightToLeftDb') =>
      [0, 1].map((k) => ({ tiltDeg: k, leftToRightDb: 24, rightToLeftDb: 24, ...(k === i ? { [name]: odd } : {}) }));
    expect(() => tiltFromReadings(row(0, 'leftToRightDb'))).toThrow(`row 1: left into right is ${odd}`);
    expect(() => tiltFromReadings(row(1, 'rightToLeftDb'))).toThrow(`row 2: right into left is ${odd}`);
  });

  it('a reading’s ± lies above nothing and up to 10 dB', () => {
    const ask = (readingUncertaintyDb: number) =>
      tiltFromTwoReadings({ leftToRightDb: 28, rightToLeftDb: 24, readingUncertaintyDb });
    expect(ask(10).found).toBe(true);
    const rows = [-1, 0, 1].map((tiltDeg) => ({ tiltDeg, leftToRightDb: 24 + tiltDeg, rightToLeftDb: 24 }));
    for (const odd of [0, 10.1, Number.NaN]) {
      expect(() => ask(odd)).toThrow(`uncertainty is ${odd}`);
      expect(() => tiltFromReadings(rows, odd)).toThrow(`uncertainty is ${odd}`);
    }
  });
});

describe('readings at several tilts', () => {
  /** of leaks [in phase, quadrature] with the scale at zero; a degree of the scale is `scale` of the tip's */
  const rows = (
    a: readonly [number, number],
    b: readonly [number, number],
    tilts: readonly number[],
    scale = 1,
  ): ReadingAtTilt[] =>
    tilts.map((tiltDeg) => {
      const t = scale * tiltDeg * DEG;
      return { tiltDeg, leftToRightDb: dB(Math.hypot(a[0] - t, a[1])), rightToLeftDb: dB(Math.hypot(b[0] + t, b[1])) };
    });
  const read = (of: readonly ReadingAtTilt[], spread?: number) => {
    const answer = tiltFromReadings(of, spread);
    if (!answer.found) throw new Error(answer.why.code);
    return answer;
  };
  const [a, b] = [
    [0.005, 0.02],
    [0.045, 0.03],
  ] as const;

  it.each([1, 0.9, 1.2])('whole, on a scale of %d', (scale) => {
    const of = read(rows(a, b, [-3, -1, 0, 2], scale));
    const common = (a[0] + b[0]) / 2;
    expect(of).toEqual({
      found: true,
      angleDeg: expect.closeTo((b[0] - a[0]) / 2 / DEG, 5),
      readingDeg: of.uncertaintyDeg,
      uncertaintyDeg: expect.any(Number),
      leaks: {
        leftIntoRight: { re: expect.closeTo(a[0], 6), im: expect.closeTo(a[1], 5) },
        rightIntoLeft: { re: expect.closeTo(b[0], 6), im: expect.closeTo(b[1], 5) },
      },
      predictedLeftToRightDb: expect.closeTo(dB(Math.hypot(common, a[1])), 3),
      predictedRightToLeftDb: expect.closeTo(dB(Math.hypot(common, b[1])), 3),
      bestTiltDeg: expect.closeTo((a[0] - b[0]) / 2 / scale / DEG, 5),
      bestReadingDeg: expect.any(Number),
      scale: expect.closeTo(scale, 5),
      lastTiltDeg: 2,
      assumption: { code: 'scale-alike', values: {} },
    });
    // k = 2 of the tip and of the scale, by moving each reading by hand
    const moved = (i: number, side: 'leftToRightDb' | 'rightToLeftDb', by: number) =>
      read(rows(a, b, [-3, -1, 0, 2], scale).map((row, k) => (k === i ? { ...row, [side]: row[side] + by } : row)));
    const slopes = [0, 1, 2, 3].flatMap((i) =>
      (['leftToRightDb', 'rightToLeftDb'] as const).map((side) => {
        const [up, down] = [moved(i, side, 1e-3), moved(i, side, -1e-3)];
        return [(up.bestTiltDeg! - down.bestTiltDeg!) / 2e-3, (up.angleDeg - down.angleDeg) / 2e-3];
      }),
    );
    expect(of.bestReadingDeg! / (0.3 * Math.hypot(...slopes.map(([best]) => best)))).toBeCloseTo(1, 2);
    expect(of.readingDeg / (0.3 * Math.hypot(...slopes.map(([, angle]) => angle)))).toBeCloseTo(1, 2);
    expect(read(rows(a, b, [-3, -1, 0, 2], scale), 0.1).readingDeg).toBeCloseTo(of.readingDeg / 3, 9);
  });

  it('two tilts take the scale for true', () => {
    const of = read(rows(a, b, [-2, 1]));
    expect(of).toMatchObject({ scale: 1, lastTiltDeg: 1, assumption: { code: 'scale-true' } });
    expect(of.angleDeg).toBeCloseTo((b[0] - a[0]) / 2 / DEG, 5);
    expect(of.bestReadingDeg).toBeCloseTo(of.readingDeg, 9);
    // the same tilt twice counts as one
    expect(read(rows(a, b, [-2, 1, 1])).assumption.code).toBe('scale-true');
    expect(read(rows(a, b, [-2, 1, 1.5])).assumption.code).toBe('scale-alike');
  });

  it('tilts must differ by 0.2°, and lie within 15°', () => {
    const why = (tilts: readonly number[]) => {
      const of = tiltFromReadings(rows(a, b, tilts), 0.01);
      return of.found ? null : of.why.code;
    };
    expect(why([0, 0.21])).toBeNull();
    expect(why([0, 0.19])).toBe('tilts-needed');
    expect(why([0, 0.05, 0.1])).toBe('tilts-needed');
    expect(why([1])).toBe('tilts-needed');
    expect(why([1, 1])).toBe('tilts-needed');
    expect(tiltFromReadings([])).toMatchObject({ found: false, why: { code: 'tilts-needed' } });
    const at = (tiltDeg: number) => [{ tiltDeg, leftToRightDb: 24, rightToLeftDb: 24 }];
    for (const edge of [15, -15]) expect(tiltFromReadings(at(edge)).found).toBe(false);
    for (const odd of [15.1, -15.1, Number.NaN])
      expect(() => tiltFromReadings(at(odd))).toThrow(`row 1: tilt is ${odd}`);
  });

  it('one tilt with mono sums is a pair; the last row is the one that counts', () => {
    const mono = { leftMonoDb: 0.05, rightMonoDb: 0.3 };
    const row = { tiltDeg: 1, leftToRightDb: 28, rightToLeftDb: 24 };
    expect(
      tiltFromReadings([
        { ...row, leftToRightDb: 30 },
        { ...row, mono },
      ]),
    ).toEqual(tiltFromTwoReadings({ ...row, mono }));
    expect(tiltFromReadings([{ ...row, mono }], 0.2)).toEqual(
      tiltFromTwoReadings({ ...row, mono, readingUncertaintyDb: 0.2 }),
    );
    expect(tiltFromReadings([{ ...row, mono }, row]).found).toBe(false);
    // at two tilts the parabolas have the word
    expect(tiltFromReadings(rows(a, b, [-2, 1]).map((one) => ({ ...one, mono }))).found).toBe(true);
  });

  it('a curve that grows one way, hardly bends, or bends far outside is told', () => {
    const code = (of: readonly ReadingAtTilt[], spread?: number) => {
      const answer = tiltFromReadings(of, spread);
      return answer.found ? null : answer.why.code;
    };
    const flat = [-1, 0, 1].map((tiltDeg) => ({ tiltDeg, leftToRightDb: 25, rightToLeftDb: 25 }));
    expect(code(flat)).toBe('readings-grow-one-way');
    // √0.02 = 0.1414 of the scale is the least that is believed
    expect(code(rows(a, b, [-10, -5, 0, 5, 10], 0.145), 0.001)).toBeNull();
    expect(code(rows(a, b, [-10, -5, 0, 5, 10], 0.14), 0.001)).toBe('readings-grow-one-way');
    expect(code(rows(a, b, [-1, 0, 1]), 10)).toBe('readings-do-not-bend');
    const lean = (deg: number): [readonly [number, number], readonly [number, number]] => [
      [-deg * DEG, 0.01],
      [deg * DEG, 0.01],
    ];
    for (const sign of [1, -1]) {
      expect(code(rows(...lean(19.5 * sign), [-10, 0, 10]), 0.001)).toBeNull();
      expect(code(rows(...lean(20.5 * sign), [-10, 0, 10]), 0.001)).toBe('readings-do-not-bend');
    }
  });

  it('a deep null counts no more than 50 dB', () => {
    // right into left is gone at −1°, read 60 or 70 dB: it must not rule
    const of = (db: number) =>
      read([
        ...rows([0.02, 0.02], [Math.tan(1 * DEG), 0.001], [-3, 0, 2]),
        { tiltDeg: -1, leftToRightDb: dB(Math.hypot(0.02 + DEG, 0.02)), rightToLeftDb: db },
      ]).readingDeg;
    expect(of(60)).toBeCloseTo(of(79), 3);
    expect(of(60)).toBeGreaterThan(0.01);
  });
});
