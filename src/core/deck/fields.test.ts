import fc from 'fast-check';
import { expect, test } from 'vitest';
import { deckFields, readDeck } from './deck.ts';
import { demoDeck, demoSheet } from './demo.ts';
import { readSheet } from './sheet.ts';

const SEED = 77;

test('an empty deck has no fault; what is given stays, what is left out takes its default', () => {
  const deck = readDeck({});
  expect(deck.cartridge.tiltDeg).toBe(0);
  expect(deck.arm.lateralResonance).toBeNull();
  expect(deck.arm.verticalAngleDeg).toBe(20);
  const tilted = readDeck({
    cartridge: { tiltDeg: -1.2, gainDb: { left: 0.5 } },
    platter: { wow: [{ percent: 0.1 }] },
  });
  expect(tilted.cartridge).toMatchObject({ tiltDeg: -1.2, gainDb: { left: 0.5, right: 0 } });
  expect(tilted.platter.wow).toEqual([{ harmonic: 1, percent: 0.1, phaseDeg: 0 }]);
  expect(readDeck(readDeck(demoDeck))).toEqual(readDeck(demoDeck));
});

test.each([
  [{ cartridge: { tiltDeg: 200 } }, 'cartridge.tiltDeg: 200 given, expected a number from -20 to 20'],
  [{ cartridge: { tiltDeg: Number.NaN } }, 'cartridge.tiltDeg: NaN given, expected a number from -20 to 20'],
  [{ cartridge: { tiltDeg: '2' } }, 'cartridge.tiltDeg: "2" given, expected a number from -20 to 20'],
  [{ cartridge: { tilt: 2 } }, 'cartridge.tilt: no such key; there are tiltDeg, leftIntoRight'],
  [{ platter: { wow: [{ harmonic: 1.5 }] } }, 'platter.wow[0].harmonic: 1.5 given, expected an integer from 1 to 20'],
  [{ platter: { wow: {} } }, 'platter.wow: {} given, expected a list in [ ]'],
  [{ preamp: { mainsHz: 55 } }, 'preamp.mainsHz: 55 given, expected 50 or 60'],
  [{ leads: { swapped: 'yes' } }, 'leads.swapped: "yes" given, expected true or false'],
  [{ arm: [] }, 'arm: [] given, expected an object in { }'],
  [{ schema: 2 }, 'schema: 2 given, expected 1'],
  [null, 'null given, expected an object in { }'],
])('a deck that is not one is refused in a sentence (%#)', (given, sentence) => {
  expect(() => readDeck(given)).toThrow(sentence);
});

test.each([
  [{ bands: [] }, 'bands: none given'],
  [{}, 'bands: none given'],
  [{ bands: [{ motion: 'left' }] }, 'bands[0].frequencyHz: null given, but a band of signal "tone" needs one'],
  [
    { bands: [{ signal: 'sweep', motion: 'left', fromHz: 20, peakVelocityCmS: 1 }] },
    'bands[0].toHz: null given, but a band of signal "sweep" needs one',
  ],
  [
    { bands: [{ signal: 'two-tone', motion: 'left', frequenciesHz: [60], peakVelocityCmS: 1 }] },
    'bands[0].frequenciesHz: [60] given, expected two frequencies in [ ]',
  ],
  [{ bands: [{ signal: 'chirp' }] }, 'bands[0].signal: "chirp" given, expected "tone" or "two-tone"'],
  [{ rpm: 0, bands: [] }, 'rpm: 0 given, expected a number from 10 to 100'],
  ['side', '"side" given, expected an object in { }'],
])('a sheet that is not one is refused in a sentence (%#)', (given, sentence) => {
  expect(() => readSheet(given)).toThrow(sentence);
});

test("keys that only the sheet's owner knows are passed over", () => {
  const sheet = readSheet({ ...demoSheet, owner: 'house', bands: [{ ...demoSheet.bands[0], remark: 'loud' }] });
  expect(sheet.bands).toHaveLength(1);
});

test(`no JSON at all gets past the bounds or breaks out of a RangeError (seed ${SEED})`, () => {
  const keys = Object.keys(deckFields.fields);
  fc.assert(
    fc.property(fc.constantFrom(...keys), fc.jsonValue(), (key, value) => {
      try {
        const deck = readDeck({ [key]: value });
        expect(readDeck(JSON.parse(JSON.stringify(deck)))).toEqual(deck);
      } catch (error) {
        expect(error).toBeInstanceOf(RangeError);
        expect((error as Error).message).not.toContain('\n');
      }
    }),
    { seed: SEED, numRuns: 300 },
  );
});
