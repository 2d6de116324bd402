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
    'Inspected, pass': 'Guard on, arm locked in its rest, platter still',
    'Inspected, fault': 'Tip there, clean, and not worn or chipped under the glass (chipped)',
    'Not checked':
      'Arm bearings free, without play (arm is sealed); Cantilever straight, seen from the front and from the side; Cartridge leads whole, clips firm on their pins; Platter turns freely, belt or drive without fault; Deck is level (no spirit level here)',
  });
  expect(intakeLines({})).toEqual([]);
});
