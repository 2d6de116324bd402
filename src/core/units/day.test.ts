import { expect, it } from 'vitest';
import { dayNumber, dayText } from './day.ts';

it('counts days as the platform does, over leap years and centuries, and back', () => {
  for (let day = -120_000; day < 120_000; day += 61) {
    const text = new Date(day * 86_400_000).toISOString().slice(0, 10);
    expect([dayNumber(text), dayText(day)]).toEqual([day, text]);
  }
  expect(dayNumber('2000-02-29T23:59:59.999Z') - dayNumber('2000-02-28')).toBe(1);
  expect(dayText(dayNumber('1900-02-28') + 1.9)).toBe('1900-03-01');
  expect(() => dayNumber('4.3.2026')).toThrow("'4.3.2026': a day such as 2026-03-04 was expected");
});
