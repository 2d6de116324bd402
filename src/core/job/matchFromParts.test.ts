import { describe, expect, test } from 'vitest';
import { matchDocument } from '../advise/match.ts';
import { demoArm, demoDeck, demoParts } from './demoParts.ts';
import { type ChosenParts, cableCapacitancePf, matchInputOf } from './matchFromParts.ts';
import type { Part, PartOf } from './parts.ts';

const named = <Kind extends Part['kind']>(kind: Kind, name: string): PartOf<Kind> =>
  demoParts.find((part) => part.kind === kind && part.name === name) as unknown as PartOf<Kind>;

const bench: ChosenParts = {
  deck: demoDeck,
  arm: demoArm,
  cartridge: named('cartridge', 'bench moving magnet'),
  preamp: named('preamp', 'bench preamp, moving-magnet input'),
  cable: named('cable', 'bench cable, with the arm’s wiring'),
  hardware: named('hardware', 'light screws and nuts'),
};

describe('parts to Match', () => {
  test('the practice bench goes together, nothing withheld', () => {
    const { findings, problems } = matchDocument(matchInputOf(bench));
    expect(problems).toEqual([]);
    expect(findings.filter((f) => f.verdict === 'bad')).toEqual([]);
    expect(findings.find((f) => f.quantity === 'arm-resonance')?.verdict).toBe('good');
    expect(findings.find((f) => f.quantity === 'counterweight-position')?.verdict).toBe('good');
  });

  test('cable and input add up; by the metre too; a cable that is not chosen is not guessed', () => {
    expect(matchInputOf(bench).loadCapacitancePf).toBe(220);
    expect(cableCapacitancePf(named('cable', 'long bench cable'))).toBe(300);
    expect(matchInputOf({ ...bench, cable: undefined }).loadCapacitancePf).toBeUndefined();
    expect(matchInputOf(bench).coilResistanceOhm).toBe(801);
  });

  test('an output without its velocity stays unknown; an rms velocity is turned into a peak', () => {
    const cartridge = bench.cartridge!;
    expect(matchInputOf({ cartridge: { ...cartridge, outputVelocityIs: 'rms' } }).outputMv).toBeCloseTo(
      5 / Math.SQRT2,
      12,
    );
    expect(matchInputOf({ cartridge: { ...cartridge, outputAtCmS: undefined } }).outputMv).toBeUndefined();
  });

  test('a bare arm takes the shell’s mass, one quoted with its shell does not', () => {
    const headshell = named('headshell', 'bench headshell');
    expect(matchInputOf({ ...bench, headshell }).headshellMassG).toBeUndefined();
    const bare = matchInputOf({ ...bench, arm: { ...demoArm, effectiveMassIncludes: 'bare' }, headshell });
    expect(bare.headshellMassG).toBe(8);
  });

  test('the deck’s own distance goes over the arm’s; a length can come from distance and overhang', () => {
    const deck = { ...demoDeck, spindleToPivotMm: 223 };
    expect(matchInputOf({ ...bench, deck }).spindleToPivotMm).toBe(223);
    const { effectiveLengthMm: _, ...arm } = demoArm;
    expect(matchInputOf({ arm }).effectiveLengthMm).toBeCloseTo(243.48, 9);
  });

  test('no parts, no figures', () => {
    expect(matchInputOf({})).toEqual({});
  });
});
