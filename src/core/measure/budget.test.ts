import { expect, it } from 'vitest';
import { statement } from '../words/statement.ts';
import { budgetOf, withBudget } from './budget.ts';

const of = (code: string) => ({ code, values: {} });

it('parts add by squares; the largest stands first, with its share of the variance; a part of nothing is left out', () => {
  expect(
    budgetOf(
      [
        { of: of('a'), size: 3 },
        { of: of('none'), size: 0 },
        { of: of('b'), size: 12 },
        { of: of('c'), size: 4 },
      ],
      'dB',
    ),
  ).toEqual({
    total: 13,
    budget: [
      { of: of('b'), size: 12, unit: 'dB', share: expect.closeTo(144 / 169, 12) },
      { of: of('c'), size: 4, unit: 'dB', share: expect.closeTo(16 / 169, 12) },
      { of: of('a'), size: 3, unit: 'dB', share: expect.closeTo(9 / 169, 12) },
    ],
  });
  expect(budgetOf([], '%')).toEqual({ total: 0, budget: [] });
});

it('the signal’s own part is what another pass would show, all together is the uncertainty', () => {
  const figure = { quantity: 'some', value: 1, unit: '%', bands: [], notes: [] };
  expect(withBudget(figure, 3, [{ of: of('else'), size: 4 }])).toEqual({
    ...figure,
    uncertainty: 5,
    repeatability: 3,
    budget: [
      { of: of('else'), size: 4, unit: '%', share: expect.closeTo(0.64, 12) },
      { of: statement('signal'), size: 3, unit: '%', share: expect.closeTo(0.36, 12) },
    ],
  });
});
