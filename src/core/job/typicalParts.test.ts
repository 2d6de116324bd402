import { expect, it } from 'vitest';
import { demoArm } from './demoParts.ts';
import { partSchemaOf } from './parts.ts';
import { typicalClasses } from './typicalClasses.ts';
import { classBehind, rangeText, typicalPart } from './typicalParts.ts';

const named = (name: string) => typicalClasses.find((one) => one.name === name)!;

it('a class as a part has its usual figure, its range in the note, and how the figure is meant', () => {
  expect(typicalPart(named('light arm'))).toEqual({
    schema: 1,
    kind: 'arm',
    name: 'light arm',
    marked: 'common-practice',
    note: 'Typical range 4 to 10 g, common practice, from no one source.',
    effectiveMassG: 7,
    effectiveMassIncludes: 'with-headshell',
  });
  const soft = typicalPart(named('high compliance'));
  expect(soft).toMatchObject({ kind: 'cartridge', complianceUmPerMn: 28, complianceAt: '10hz' });
  expect(soft.note).toMatch(/^Typical range 20 to 40 µm\/mN, common practice, from no one source\. \S/);
  expect(typicalPart(named('moving coil, resistance'))).toMatchObject({ kind: 'cartridge', coilResistanceOhm: 10 });
  expect(rangeText(named('moving coil, resistance'))).toBe('2 to 100 Ω');
});

it('every class is a part that the library takes, and is found again behind it', () => {
  for (const one of typicalClasses) {
    const part = typicalPart(one);
    expect(partSchemaOf(part.kind).safeParse(part).success, one.name).toBe(true);
    expect(classBehind(part, one.field), one.name).toBe(one);
  }
});

it('a part whose figure is its own stands for no class', () => {
  const one = named('light arm');
  const part = typicalPart(one) as Extract<ReturnType<typeof typicalPart>, { kind: 'arm' }>;
  expect(classBehind({ ...part, effectiveMassG: 8 }, 'effectiveMassG')).toBeNull();
  expect(classBehind({ ...part, name: 'medium arm' }, 'effectiveMassG')).toBeNull();
  expect(classBehind({ ...part, marked: 'demo' }, 'effectiveMassG')).toBeNull();
  expect(classBehind({ ...part, marked: undefined }, 'effectiveMassG')).toBeNull();
  expect(classBehind(part, 'effectiveLengthMm')).toBeNull();
  expect(classBehind(demoArm, 'effectiveMassG')).toBeNull();
  expect(classBehind(undefined, 'effectiveMassG')).toBeNull();
});
