import { expect, it } from 'vitest';
import { withheld } from '../capture/problem.ts';
import { statement } from '../words/statement.ts';
import type { Uncertain } from './crosstalk.ts';
import type { CrosstalkPair } from './crosstalkPair.ts';
import { madeTone } from './handMade.fixture.ts';
import { separationFigures } from './separation.ts';

const [LEFT, RIGHT] = ['separation-left-to-right', 'separation-right-to-left'];
const notes = [statement('method')];
const asHeard = { leftIntoRight: { re: 0.01, im: 0.02 }, rightIntoLeft: { re: 0.03, im: 0.04 } };
const tone = (index: number) => madeTone({ band: { index } });

function figures(leftIntoRight: Partial<Uncertain>, rightIntoLeft: Partial<Uncertain>) {
  const leak = (of: Partial<Uncertain>): Uncertain => ({ value: 0.01, spread: 1e-4, own: 5e-5, k: 2, ...of });
  return separationFigures({
    found: true,
    left: [tone(4), tone(1)],
    right: [tone(3)],
    both: [tone(2)],
    crosstalk: { asHeard, leftIntoRight: leak(leftIntoRight), rightIntoLeft: leak(rightIntoLeft) },
    notes,
  } as unknown as CrosstalkPair);
}
const dB = (x: number): number => -20 * Math.log10(x);

it('is −20 lg of the leak, the noise’s part of its size taken off, each way from its own bands', () => {
  const size = (value: number, spread: number): number => Math.sqrt(value ** 2 - spread ** 2);
  const { findings, problems } = figures({}, { value: 0.02, spread: 0.002, own: 0.001, k: 3 });
  const of = (quantity: string, bands: number[], value: number, spread: number, own: number, k: number) => {
    const s = size(value, spread);
    return {
      quantity,
      bands,
      complex: quantity === LEFT ? asHeard.leftIntoRight : asHeard.rightIntoLeft,
      value: expect.closeTo(dB(s), 9),
      unit: 'dB',
      uncertainty: expect.closeTo(dB(1 - (k * spread) / s), 9),
      repeatability: expect.closeTo(dB(1 - (k * own) / s), 9),
      notes,
    };
  };
  expect(problems).toEqual([]);
  expect(findings).toEqual([of(LEFT, [1, 2, 4], 0.01, 1e-4, 5e-5, 2), of(RIGHT, [2, 3], 0.02, 0.002, 0.001, 3)]);
});

it('a leak within one and a half times its ± is a bound, of 120 dB at most', () => {
  const bound = (atLeastDb: number, quantity = LEFT) =>
    withheld(quantity, statement('leak-in-noise-at-least', { atLeastDb }));
  const { findings, problems } = figures({ value: 0.0149, spread: 0.005 }, {});
  expect(findings.map(({ quantity }) => quantity)).toEqual([RIGHT]);
  expect(problems).toHaveLength(1);
  expect(problems[0].values).toMatchObject({ why: { values: { atLeastDb: expect.closeTo(dB(0.0149 + 0.01), 9) } } });
  expect(figures({ value: 0.0151, spread: 0.005 }, {}).problems).toEqual([]);
  expect(figures({}, { value: 0, spread: 1e-9 }).problems).toEqual([bound(120, RIGHT)]);
  expect(figures({ value: 0, spread: 0 }, {}).problems).toEqual([bound(120)]);
});

it('a leak whose ± is nearly its size is in noise; the noise takes off no more than half of it', () => {
  // k = 1: 1.5 spreads away, and after the noise's part is off 1.118
  expect(figures({ value: 0.0151, spread: 0.01, k: 1 }, {}).findings).toHaveLength(2);
  // 0.95 of the value as noise: still over 1.5 noise only with k under 0.66; half the value is left
  const half = figures({ value: 0.01, spread: 0.0095, k: 0.4 }, {}).findings[0];
  expect(half.value).toBeCloseTo(dB(0.005), 9);
  expect(figures({ value: 0.01, spread: 0.0095, k: 0.48 }, {}).problems).toEqual([
    withheld(LEFT, statement('leak-in-noise')),
  ]);
  expect(figures({ value: 0.01, spread: 0.0095, k: 0.47 }, {}).problems).toEqual([]);
});
