import { expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import { statement } from '../words/statement.ts';
import { flutterMarks } from './flutterMarks.ts';

it('a line is marked by what turns there, else by its frequency', () => {
  const line = (atHz: number, notes: JudgedFinding['notes']) =>
    ({ quantity: 'flutter-line', atHz, notes }) as JudgedFinding;
  expect(
    flutterMarks([
      line(8.3333, [statement('flutter-line-at', { hz: 8.3 }), statement('flutter-of-motor', { times: 2 })]),
      line(0.5556, [statement('flutter-of-platter', { times: 1 })]),
      line(11.284, [statement('flutter-of-nothing-known')]),
      { quantity: 'speed-error' } as JudgedFinding,
    ]).map(({ label }) => label),
  ).toEqual(['2 × motor', 'platter', '11.3 Hz']);
});
