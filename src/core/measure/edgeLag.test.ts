import { expect, it } from 'vitest';
import type { SheetBand } from '../record/sheet.ts';
import { edgeLags } from './edgeLag.ts';
import { type HandMade, sideOf, toneOf } from './toneBands.fixture.ts';

const polarity = { inverted: false, bands: [], unsure: false, note: null };
const cut: SheetBand = { signal: 'tone', motion: 'lateral', radiusMm: 100 };
const tone = (hz: number, ratio: readonly [number, number], more: Partial<HandMade> = {}) =>
  toneOf({ hz, driven: 'both', ratio, cut, ...more });

it('right later is positive: the phase of left over right as a time, with what noise leaves of it', () => {
  const of = tone(8000, [1.6, 1.2], { variance: 4e-6, varIm: 2e-6, band: { index: 3 } });
  const omega = 2 * Math.PI * 8000;
  expect(edgeLags(sideOf([of]), polarity)).toEqual([
    {
      band: 3,
      radiusMm: 100,
      // 33⅓ turns a minute at 10 cm
      speed: expect.closeTo(((2 * Math.PI * 100) / 3 / 60) * 10, 9),
      omega: expect.closeTo(omega, 6),
      lagS: expect.closeTo(Math.atan(0.75) / omega, 15),
      spread: expect.closeTo(Math.sqrt(3e-6) / 2 / omega, 15),
    },
  ]);
  expect(edgeLags(sideOf([tone(8000, [1.6, -1.2])]), polarity)[0].lagS).toBeCloseTo(-Math.atan(0.75) / omega, 15);
});

it('a reversed channel is turned back first', () => {
  const of = tone(8000, [-1.6, -1.2]);
  const [{ lagS }] = edgeLags(sideOf([of]), { ...polarity, inverted: true });
  expect(lagS).toBeCloseTo(Math.atan(0.75) / (2 * Math.PI * 8000), 15);
  const [turned] = edgeLags(sideOf([of]), polarity);
  expect(turned.lagS).toBeCloseTo((Math.atan(0.75) - Math.PI) / (2 * Math.PI * 8000), 15);
});

it('only lateral tones of 5 kHz and more whose radius is stated', () => {
  const count = (...tones: ReturnType<typeof tone>[]): number => edgeLags(sideOf(tones), polarity).length;
  expect(count(tone(5000, [1, 0]))).toBe(1);
  expect(count(tone(4999, [1, 0]))).toBe(0);
  expect(count(tone(8000, [1, 0], { cut: { signal: 'tone', motion: 'lateral' } }))).toBe(0);
  expect(count(tone(8000, [1, 0], { cut: null }))).toBe(0);
  expect(count(tone(8000, [1, 0], { cut: { ...cut, motion: 'vertical' } }))).toBe(0);
  expect(count(tone(8000, [1, 0], { driven: 'left' }))).toBe(0);
  expect(count(tone(8000, [1, 0]), tone(300, [1, 0]), tone(10_000, [1, 0]))).toBe(2);
});
