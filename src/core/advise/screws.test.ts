import { expect, test } from 'vitest';
import { M2_5_PITCH } from '../mechanics/screwLength.ts';
import { say } from '../words/statement.ts';
import { hardwareMass, screwChoice } from './screws.ts';

const stack = {
  headshell: 2.5,
  spacer: 0,
  washer: 0,
  into: { kind: 'nut', flange: 3, nut: 2 },
  pitch: M2_5_PITCH,
} as const;

test('a 2 mm nut takes a stock length whatever the screw passes: 8 mm where 6.85 to 8.85 would fit', () => {
  expect(screwChoice(stack)).toMatchObject({ found: true, lengthMm: 8, suits: [8] });
  for (let flange = 1; flange <= 8; flange += 0.25) {
    expect(screwChoice({ ...stack, into: { kind: 'nut', flange, nut: 2 } }).found, `flange ${flange}`).toBe(true);
  }
});

test('between 8.15 and 9.55 mm nothing is in stock, and the way out is told', () => {
  const thin = { ...stack, headshell: 3, into: { kind: 'nut', flange: 3.8, nut: 1.4 } } as const;
  const choice = screwChoice(thin);
  expect(choice.found).toBe(false);
  if (!choice.found) expect(say(choice.why)).toMatch(/from 8\.[12] to 9\.[56] mm/);
  const washered = screwChoice({ ...thin, washer: 0.5 });
  expect(washered.found && washered.lengthMm).toBe(10);
});

test('the shortest that engages four threads is taken, three where four bottom', () => {
  const deep = screwChoice({ ...stack, into: { kind: 'tapped', depth: 6 } });
  expect(deep).toMatchObject({ found: true, lengthMm: 5, suits: [4, 5, 6, 8] });
  const shallow = screwChoice({ ...stack, headshell: 4.4, into: { kind: 'tapped', depth: 1.9 } });
  expect(shallow).toMatchObject({ found: true, lengthMm: 6 });
  if (shallow.found) expect(shallow.threads).toBeCloseTo(1.6 / 0.45, 9);
});

test('mass of two steel screws 8 mm with nuts is near a gram and goes with the density', () => {
  const set = {
    screws: 2,
    screwLengthMm: 8,
    nuts: 2,
    nutThicknessMm: 2,
    washers: 0,
    washerThicknessMm: 0,
    spacerG: 0,
  };
  const steel = hardwareMass({ ...set, material: 'steel' });
  expect(steel.massG).toBeGreaterThan(0.8);
  expect(steel.massG).toBeLessThan(2);
  expect(hardwareMass({ ...set, material: 'aluminium' }).massG / steel.massG).toBeCloseTo(2.7 / 7.85, 12);
  expect(hardwareMass({ ...set, material: 'steel', spacerG: 3 }).massG).toBeCloseTo(steel.massG + 3, 12);
  expect(() => hardwareMass({ ...set, material: 'steel', screws: Number.NaN })).toThrow(/screws is NaN/);
});

test('the thread is called M2.5 only at that pitch', () => {
  const says = (pitch: number) => {
    const choice = screwChoice({ ...stack, pitch });
    return say(choice.found ? choice.says : choice.why);
  };
  expect(says(0.45)).toMatch(/^M2.5 × 8 mm engages 4.4 threads/);
  expect(says(0.4)).toMatch(/^A thread of 0.4 mm pitch × 8 mm/);
});
