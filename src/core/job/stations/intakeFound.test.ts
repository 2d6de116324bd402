import { describe, expect, test } from 'vitest';
import { foundAtIntake, graded, inspectionWords, intakeLines, intakeModel } from './intake.ts';

const passed = (...names: string[]) => Object.fromEntries(names.map((name) => [name, { grade: 'pass' as const }]));
const all = passed('guard', 'cantilever', 'tip', 'bearings', 'leads', 'platter', 'level');

test('items by grade, in the order of the hands', () => {
  const inspection = {
    level: { grade: 'pass' },
    tip: { grade: 'fault' },
    guard: { grade: 'pass' },
    leads: { grade: 'not-checked' },
    platter: { note: 'later' },
  } as const;
  expect(graded({ inspection })).toEqual({
    pass: ['guard', 'level'],
    fault: ['tip'],
    notChecked: ['leads'],
    open: ['cantilever', 'bearings', 'platter'],
  });
  expect(graded({}).open).toHaveLength(7);
});

test('how it went, in few words', () => {
  expect(inspectionWords({ inspection: all })).toBe('7 of 7 pass');
  expect(inspectionWords({ inspection: { ...all, tip: { grade: 'fault' } } })).toBe('6 of 7 pass, 1 fault');
  expect(inspectionWords({ inspection: { ...all, tip: { grade: 'fault' }, leads: { grade: 'fault' } } })).toBe(
    '5 of 7 pass, 2 faults',
  );
  expect(inspectionWords({ inspection: { ...all, tip: {}, leads: { grade: 'not-checked' } } })).toBe(
    '5 of 7 pass, 2 not checked',
  );
  expect(inspectionWords({})).toBe('0 of 7 pass, 7 not checked');
});

describe('for the customer', () => {
  test('faults with their notes, what was told besides, and what nobody looked at', () => {
    const inspection = { ...all, tip: { grade: 'fault', note: ' chipped ' }, leads: { grade: 'fault' } } as const;
    expect(foundAtIntake({ inspection })).toEqual({ faults: 'tip (chipped), leads', notChecked: '' });
    expect(foundAtIntake({ inspection, faults: ' the lid \n  is cracked; ' }).faults).toBe(
      'tip (chipped), leads; the lid is cracked',
    );
    expect(foundAtIntake({ faults: 'the lid is cracked.' })).toEqual({
      faults: 'the lid is cracked',
      notChecked: '',
    });
    expect(foundAtIntake({})).toEqual({ faults: '', notChecked: '' });
  });

  test('what was not checked is told once anything was looked at: first what was left, then what is open', () => {
    const left = 'leads, guard and arm lock, cantilever, arm bearings, platter, level';
    const rest = { leads: { grade: 'not-checked' } } as const;
    expect(foundAtIntake({ inspection: { ...rest, tip: { grade: 'pass' } } }).notChecked).toBe(left);
    expect(foundAtIntake({ inspection: { ...rest, tip: { grade: 'fault' } } }).notChecked).toBe(left);
    expect(foundAtIntake({ inspection: rest }).notChecked).toBe(
      'leads, guard and arm lock, cantilever, tip, arm bearings, platter, level',
    );
    expect(foundAtIntake({ inspection: { tip: { note: 'x' } } }).notChecked).toBe('');
  });

  test('notes too long for a line are left out, so that no fault is lost behind them', () => {
    const noted = (letters: number) =>
      foundAtIntake({
        inspection: { tip: { grade: 'fault', note: 'x'.repeat(letters) }, leads: { grade: 'fault' } },
      }).faults;
    // "tip (…), leads" of 120 letters
    expect(noted(107)).toBe(`tip (${'x'.repeat(107)}), leads`);
    expect(noted(107)).toHaveLength(120);
    expect(noted(108)).toBe('tip, leads');
  });
});

test('the report has what was filled in, in the order of the page', () => {
  const typed = {
    cartridge: 'bench moving magnet',
    stylusHours: '400',
    inspection: { tip: { grade: 'pass' }, leads: { grade: 'fault', note: ' ' } },
    faults: 'the lid is cracked',
  } as const;
  expect(intakeLines(typed)).toEqual([
    { label: 'Cartridge', text: 'bench moving magnet' },
    { label: 'Stylus hours', text: '400 h' },
    { label: 'Inspected, pass', text: 'tip' },
    { label: 'Inspected, fault', text: 'leads' },
    { label: 'Not checked', text: 'guard and arm lock, cantilever, arm bearings, platter, level' },
    { label: 'Faults found', text: 'the lid is cracked' },
  ]);
  expect(intakeLines({ cartridge: '  ', stylusHours: 'many', inspection: {} })).toEqual([
    { label: 'Stylus hours', text: '“many”, which cannot be used' },
  ]);
  for (const grade of ['fault', 'not-checked'] as const) {
    expect(intakeLines({ inspection: { tip: { grade } } }).map(({ label }) => label)).toContain('Not checked');
  }
});

test('ticks of an earlier version are passes, where today’s grades do not stand already', () => {
  const older = (data: object) => intakeModel.fromOlder(data as Parameters<typeof intakeModel.fromOlder>[0]);
  expect(older({ checked: ['level', 'tip'], forReport: [], cartridge: 'old' })).toEqual({
    cartridge: 'old',
    inspection: { tip: { grade: 'pass' }, level: { grade: 'pass' } },
  });
  expect(older({ checked: ['no-such'] })).toEqual({});
  expect(older({ checked: 'tip' })).toEqual({});
  expect(older({ checked: ['tip'], inspection: {} })).toEqual({ inspection: {} });
  expect(older({ cartridge: 'old' })).toEqual({ cartridge: 'old' });
});
