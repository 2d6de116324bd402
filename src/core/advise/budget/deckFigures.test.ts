import { expect, it } from 'vitest';
import type { TiltReading } from '../../measure/figuresOfSide.ts';
import type { Finding } from '../../measure/finding.ts';
import { degToRad, radToDeg } from '../../units/units.ts';
import { sayAll } from '../../words/statement.ts';
import { deckFigures } from './deckFigures.ts';
import { recordError } from './recordError.ts';

const zero = { re: 0, im: 0 };
const reading = (leftIntoRight: number, rightIntoLeft: number): TiltReading => ({
  leftIntoRight: { re: leftIntoRight, im: 0 },
  rightIntoLeft: { re: rightIntoLeft, im: 0 },
  spread: { leftIntoRight: zero, rightIntoLeft: zero },
  tilt: (rightIntoLeft - leftIntoRight) / 2,
  tiltSpread: 0,
});
const finding = (quantity: string, value: number, unit: string, uncertainty: number, bands = [0]): Finding => ({
  quantity,
  value,
  unit,
  uncertainty,
  bands,
  notes: [],
});
const lateral = [{ index: 0, motion: 'lateral' }] as const;
const one = (
  of: Finding,
  cut: Parameters<typeof recordError>[0],
  tilt: TiltReading | null = reading(0.03, 0.03),
  bands: Parameters<typeof deckFigures>[3] = lateral,
) => deckFigures([of], tilt, recordError(cut), bands)[0];

it('tilt: the signal’s own stays as repeatability, the record’s comes on top', () => {
  const tilt = one(finding('azimuth-error', -0.5, 'deg', 0.01), undefined);
  expect(tilt.repeatability).toBe(0.01);
  expect(tilt.uncertainty).toBeCloseTo(1.22, 1);
  expect(tilt.budget?.[0]).toMatchObject({ of: { code: 'record-leak' }, unit: 'deg' });
  expect(tilt.budget?.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 9);
  expect(sayAll(tilt.notes)).toContain('No certificate');
  const certified = one(finding('azimuth-error', -0.5, 'deg', 0.01), { tiltDeg: 0, tiltUncertaintyDeg: 0.2 });
  expect(certified.uncertainty).toBeCloseTo(0.2, 1);
  expect(certified.uncertainty).toBeGreaterThan(0.2);
  expect(sayAll(certified.notes)).not.toContain('No certificate');
});

it('balance: a degree of the record’s tilt is 0.30 dB of balance, beside the cut’s own', () => {
  const stated = one(finding('channel-balance', 0.2, 'dB', 0.01), { tiltUncertaintyDeg: 1 });
  const leak = stated.budget?.find((line) => line.of.code === 'record-tilt');
  expect(leak?.size).toBeCloseTo(0.303, 3);
  expect(stated.uncertainty).toBeCloseTo(Math.hypot(0.303, 0.3, 0.01), 3);
  // read from the one-sided tones no leak of the record reaches it
  const oneSided = one(finding('channel-balance', 0.2, 'dB', 0.01), undefined, null, [{ index: 0, motion: 'left' }]);
  expect(oneSided.uncertainty).toBeCloseTo(Math.hypot(0.3, 0.01), 6);
});

it('speed: the cut, the clock and the inward path; a certified speed is nearly as tight as the signal', () => {
  const speed = one(finding('speed-error', 0.1, '%', 0.002), undefined);
  expect(speed.uncertainty).toBeCloseTo(Math.hypot(0.2, 0.005, 0.012, 0.002), 6);
  expect(speed.repeatability).toBe(0.002);
  expect(one(finding('speed-error', 0.1, '%', 0.002), { speedUncertaintyPercent: 0.02 }).uncertainty).toBeLessThan(
    0.025,
  );
});

it('separation: an interval in dB, its larger half the uncertainty, its high end open near the record’s own leak', () => {
  const clear = one(finding('separation-left-to-right', 20, 'dB', 0.05), undefined, reading(0.1, 0.1));
  expect(clear.value).toBeCloseTo(20, 6);
  expect(clear.low).toBeCloseTo(-20 * Math.log10(0.1 + 1.96 * 0.0151), 0);
  expect(clear.high).toBeCloseTo(-20 * Math.log10(0.1 - 1.96 * 0.0151), 0);
  expect(clear.uncertainty).toBeCloseTo((clear.high as number) - 20, 6);
  const near = one(finding('separation-left-to-right', 30.46, 'dB', 0.05), undefined, reading(0.03, 0.03));
  expect(near).toMatchObject({ high: null, uncertainty: null });
  expect(near.low).toBeGreaterThan(23);
  expect(sayAll(near.notes)).toContain('At least');
  const certified = one(
    finding('separation-left-to-right', 30.46, 'dB', 0.05),
    { separationDb: 50 },
    reading(0.03, 0.03),
  );
  expect(certified.uncertainty).toBeLessThan(1.5);
  expect(certified.repeatability).toBe(0.05);
});

it('what was learned of the record is taken off tilt, separations, balance and speed alike', () => {
  const t = Math.tan(degToRad(0.5));
  const learned = {
    schema: 1,
    kind: 'learned-record',
    record: { name: 'x', key: 'k' },
    decks: 25,
    // the record reads half a degree clockwise
    leaks: {
      mean: { leftIntoRight: { re: -t, im: 0 }, rightIntoLeft: { re: t, im: 0 } },
      variance: { tilt: 1e-6, common: 1e-6, quadrature: 1e-6 },
    },
    speedPercent: { mean: 0.1, uncertainty: 0.03, spread: 0.1, decks: 25 },
  } as const;
  const heard = reading(0.03 - t, 0.03 + t);
  const figures = deckFigures(
    [
      finding('azimuth-error', 0.5, 'deg', 0.01),
      finding('separation-left-to-right', -20 * Math.log10(0.03 - t), 'dB', 0.01),
      finding('separation-right-to-left', -20 * Math.log10(0.03 + t), 'dB', 0.01),
      finding('channel-balance', 0.5, 'dB', 0.01),
      finding('speed-error', 0.3, '%', 0.002),
    ],
    heard,
    recordError(undefined, learned),
    lateral,
  );
  const value = (i: number): number => figures[i].value as number;
  expect(value(0)).toBeCloseTo(0, 6);
  expect(value(1)).toBeCloseTo(-20 * Math.log10(0.03), 4);
  expect(value(2)).toBeCloseTo(value(1), 6);
  expect(value(3)).toBeCloseTo(0.5 - 0.303 * 0.5, 3);
  expect(value(4)).toBeCloseTo(0.2, 9);
  // 1·10⁻³ of t, k = 2, and what 0.3 dB of gain makes of a common leak of 0.03
  expect(figures[0].uncertainty).toBeCloseTo(radToDeg(Math.hypot(2e-3, (0.03 * 0.3) / 8.686)), 3);
});

it('a figure in words, one without uncertainty and one with its own budget stay as they are', () => {
  const words = { ...finding('polarity', 0, '', 0), value: 'in-phase', uncertainty: null };
  expect(one(words, undefined)).toMatchObject({ value: 'in-phase', uncertainty: null, repeatability: null });
  const own = { ...finding('eccentricity', 0.1, 'mm', 0.05), repeatability: 0.01, budget: [] };
  expect(one(own, undefined)).toMatchObject({ uncertainty: 0.05, repeatability: 0.01 });
});

it('rumble: what the weighting’s shape leaves open lies to one side, what record and chain hide to both', () => {
  const heard = { ...finding('rumble-weighted', 55, 'dB', 1.7), repeatability: 0.2, low: 53.3, high: 55.2 };
  const rumble = one(heard, { levelUncertaintyDb: 0.2 });
  const beside = Math.hypot(0.2, 0.2);
  expect(rumble.low).toBeCloseTo(55 - Math.hypot(1.7, beside), 3);
  expect(rumble.high).toBeCloseTo(55 + Math.hypot(0.2, beside), 3);
  expect(rumble.uncertainty).toBeCloseTo(55 - (rumble.low ?? 0), 3);
  expect(rumble.repeatability).toBe(0.2);
});

it('harmonics: the record’s own second harmonic and the equalisation are in the total', () => {
  const second = one(finding('second-harmonic', 1, '%', 0.01), undefined);
  expect(second.uncertainty).toBeCloseTo(Math.hypot(0.01, 0.3, 0.2 / 8.686), 3);
});
