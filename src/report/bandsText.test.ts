import { expect, test } from 'vitest';
import { bandsText } from './bandsText.ts';

test('bands count from 1, three or more in a row as a run', () => {
  expect(bandsText([])).toBe('–');
  expect(bandsText([6])).toBe('7');
  expect(bandsText([0, 1, 9])).toBe('1, 2, 10');
  expect(bandsText([0, 1, 2, 3, 4, 8, 9])).toBe('1 to 5, 9, 10');
  expect(bandsText([0, 2, 4, 5, 6])).toBe('1, 3, 5 to 7');
});
