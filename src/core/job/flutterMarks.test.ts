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

it('a mark stands at its frequency; what has none, or is no line, has no mark', () => {
  const line = (more: object) => ({ quantity: 'flutter-line', atHz: 4.4567, ...more }) as JudgedFinding;
  const of = (code: string, times: number) => ({ notes: [{ code, values: { times } }] });
  expect(flutterMarks([line({}), line({ atHz: undefined }), line({ quantity: 'other' })])).toEqual([
    { x: 4.4567, label: '4.46 Hz' },
  ]);
  expect(
    ['flutter-of-belt', 'flutter-of-idler', 'flutter-of-mains', 'toString'].map(
      (code) => flutterMarks([line(of(code, 3))])[0].label,
    ),
  ).toEqual(['3 × belt', '3 × idler', '3 × mains', '4.46 Hz']);
  expect(flutterMarks([])).toEqual([]);
});
