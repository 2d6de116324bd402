import { expect, test } from 'vitest';
import { readableOf } from './stations/index.ts';
import { inspectionWords, intakeLines } from './stations/intake.ts';

test('what an earlier version kept as ticks is read as passes; what was not ticked is not checked', () => {
  const read = readableOf('intake', { cartridge: 'old', checked: ['guard', 'hours', 'tip'] });
  expect(read).toEqual({ cartridge: 'old', inspection: { guard: { grade: 'pass' }, tip: { grade: 'pass' } } });
  expect(inspectionWords(read)).toBe('2 of 7 pass, 5 not checked');
});

test('the report tells passes, faults with their notes, and what was not checked', () => {
  const lines = intakeLines({
    inspection: {
      guard: { grade: 'pass' },
      tip: { grade: 'fault', note: 'chipped' },
      bearings: { grade: 'not-checked', note: 'arm is sealed' },
      level: { note: 'no spirit level here' },
    },
  });
  expect(Object.fromEntries(lines.map(({ label, text }) => [label, text]))).toEqual({
    'Inspected, pass': 'guard and arm lock',
    'Inspected, fault': 'tip (chipped)',
    'Not checked': 'arm bearings (arm is sealed), cantilever, leads, platter, level (no spirit level here)',
  });
  expect(intakeLines({})).toEqual([]);
});
