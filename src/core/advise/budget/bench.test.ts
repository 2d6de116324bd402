import { expect, it } from 'vitest';
import type { Finding } from '../../measure/finding.ts';
import { sayAll } from '../../words/statement.ts';
import { type BenchKnown, chainOf } from './bench.ts';
import { deckFigures } from './deckFigures.ts';
import { recordError } from './recordError.ts';

const finding = (quantity: string, value: number, unit: string, uncertainty: number): Finding => ({
  quantity,
  value,
  unit,
  uncertainty,
  bands: [0],
  notes: [],
});
const speed = (heard: number, bench: BenchKnown, cutPercent?: number) =>
  deckFigures(
    [finding('speed-error', heard, '%', 0.002)],
    null,
    recordError(cutPercent === undefined ? undefined : { speedUncertaintyPercent: cutPercent }, null, bench),
    [],
  )[0];

it('a crystal’s reading takes the place of what the cut may hide', () => {
  const read = speed(0.15, { strobe: { percent: 0.02, uncertainty: 0.01 } });
  // heard 0.15 ± 0.2004, read 0.02 ± 0.01: weights by 1/U²
  const share = 0.2004 ** 2 / (0.2004 ** 2 + 0.01 ** 2);
  expect(read.value).toBeCloseTo(0.15 - share * 0.13, 5);
  expect(read.uncertainty).toBeCloseTo(0.01, 4);
  expect(read.budget?.[0].of.code).toBe('strobe-reading');
  expect(read.budget?.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  // before and after on the same record still compare by the signal alone
  expect(read.repeatability).toBe(0.002);
  expect(read.notes).toEqual([]);
});

it('a strobe without its own ± has the table’s, and weighs little beside a certified speed', () => {
  const read = speed(0.1, { strobe: { percent: 0.2 } }, 0.02);
  expect(read.value).toBeCloseTo(0.1 + 0.1 * (0.0239 ** 2 / (0.0239 ** 2 + 0.01)), 3);
  expect(read.uncertainty).toBeLessThan(0.0239);
});

it('two speeds that cannot both be right are told', () => {
  const read = speed(1.2, { strobe: { percent: 0, uncertainty: 0.02 } });
  expect(sayAll(read.notes)).toContain('+1.20 %');
  expect(sayAll(read.notes)).toContain('further apart');
  expect(speed(0.25, { strobe: { percent: 0, uncertainty: 0.02 } }).notes).toEqual([]);
});

it('equalisation and clock are the bench’s own where it knows them', () => {
  const second = (equalisationDb?: number) =>
    deckFigures([finding('second-harmonic', 5, '%', 0)], null, recordError(undefined, null, { equalisationDb }), [])[0];
  const dB = 20 / Math.LN10;
  expect(second().uncertainty).toBeCloseTo(Math.hypot(0.3, (5 * 0.2) / dB), 6);
  expect(second(1).uncertainty).toBeCloseTo(Math.hypot(0.3, 5 / dB), 6);
  expect(speed(0, { clockPercent: 0.5 }).uncertainty).toBeCloseTo(Math.hypot(0.5, 0.2, 0.012, 0.002), 6);
  expect(chainOf()).toMatchObject({ strobe: null, setByMirror: false, clock: { size: 0.005 } });
});
