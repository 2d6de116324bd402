import { expect, test } from 'vitest';
import { said } from '../../../words/said.fixture.ts';
import { standOf } from './balance.ts';
import { knownAs, matched, nothingMatched } from './bench.fixture.ts';

const figures = {
  cartridgeMassG: 6,
  hardwareMassG: 1,
  effectiveLengthMm: 240,
  counterweightMassG: 100,
  armMomentGMm: 2320,
  stubFromMm: 28,
  stubToMm: 58,
} as const;
const facts = knownAs(figures);
/** Grams that 18 mN weigh. */
const FORCE_G = 18 / 9.80665;

function found(...asked: Parameters<typeof standOf>) {
  const stand = standOf(...asked);
  if (!stand.found) throw new Error(stand.why.code);
  return stand.value;
}

test('the moments in front, over the counterweight, say where it floats and where it plays', () => {
  const { place, findings, helps } = found(facts, nothingMatched, undefined, 18);
  // (7 g · 240 mm + 2320 g·mm) / 100 g
  expect(place.floatingMm).toBeCloseTo(40, 9);
  expect(place.atForceMm).toBeCloseTo(40 - (FORCE_G * 240) / 100, 9);
  expect(place.onStub).toBe(true);
  expect(findings.map(({ quantity }) => quantity)).toEqual(['counterweight-position']);
  expect(helps).toEqual([]);
});

test('where this arm was found to float goes before the moment that its part states', () => {
  expect(found(facts, nothingMatched, '50', 18).place.floatingMm).toBeCloseTo(50, 9);
  expect(found(facts, nothingMatched, '5 cm', 18).place.atForceMm).toBeCloseTo(50 - (FORCE_G * 240) / 100, 9);
  const { armMomentGMm: _, ...without } = figures;
  expect(found(knownAs(without), nothingMatched, '50', 18).place.floatingMm).toBeCloseTo(50, 9);
});

test('hardware and headshell hang in front as well; what is not known of them counts as nothing', () => {
  const { armMomentGMm: _, hardwareMassG: _h, ...bare } = figures;
  const headshell = matched({ typed: { headshellMassG: '8' } });
  const at = (facts: Parameters<typeof knownAs>[0], match = nothingMatched) =>
    found(knownAs(facts), match, '45', 18).findings.map(({ value }) => value);
  const expected = 45 - (FORCE_G * 240) / 100;
  // the float says where it balances whatever hangs in front, as long as the same is meant both times
  expect(at(bare)[0]).toBeCloseTo(expected, 9);
  expect(at({ ...bare, hardwareMassG: 2 }, headshell)[0]).toBeCloseTo(expected, 9);
  const moment = found(facts, headshell, undefined, 18).place;
  expect(moment.floatingMm).toBeCloseTo((15 * 240 + 2320) / 100, 9);
});

test('a stub that is too short: what helps is told, and the force itself is judged elsewhere', () => {
  const short = knownAs({ ...figures, stubToMm: 38, trackingForceMinMn: 20, trackingForceMaxMn: 25 });
  const { place, findings, helps } = found(short, nothingMatched, undefined, 18);
  expect(place.onStub).toBe(false);
  expect(findings.map(({ quantity, verdict }) => [quantity, verdict])).toEqual([['counterweight-position', 'bad']]);
  expect(helps).toHaveLength(1);
  expect(helps[0]).toBe(
    'The counterweight would run off the end of its stub. One of 121 g floats the arm in the middle of the stub; a plate added to this one does the same.',
  );
});

test('what cannot be worked out says why: not typed yet, not usable, or impossible', () => {
  const why = (...asked: Parameters<typeof standOf>) => said(standOf(...asked));
  expect(why(facts, nothingMatched, 'far', 18)).toEqual({
    found: false,
    missing: false,
    why: 'the place where the arm floats cannot be used as it is typed',
  });
  expect(why({}, nothingMatched, '50', 18)).toEqual({
    found: false,
    missing: true,
    why: 'the cartridge’s mass, the effective length and the counterweight’s mass are not known',
  });
  for (const [name, words] of [
    ['cartridgeMassG', 'the cartridge’s mass is not known'],
    ['effectiveLengthMm', 'the effective length is not known'],
    ['counterweightMassG', 'the counterweight’s mass is not known'],
  ] as const) {
    const { [name]: _, ...rest } = figures;
    expect(why(knownAs(rest), nothingMatched, '50', 18)).toEqual({ found: false, missing: true, why: words });
  }
  expect(why(knownAs({ ...figures, effectiveLengthMm: 5000 }), nothingMatched, '50', 18)).toMatchObject({
    found: false,
    missing: false,
    why: expect.stringContaining('5000'),
  });
  const { armMomentGMm: _, ...momentless } = figures;
  expect(why(knownAs(momentless), nothingMatched, undefined, 18)).toMatchObject({ found: false, missing: true });
  expect(why(knownAs({ ...figures, effectiveLengthMm: 5000 }), nothingMatched, undefined, 18)).toMatchObject({
    found: false,
    missing: false,
  });
});
