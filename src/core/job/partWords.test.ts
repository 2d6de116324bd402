import { expect, test } from 'vitest';
import { demoParts } from './demoParts.ts';
import type { PartOf } from './parts.ts';
import { optionText, specLine, typedIn } from './partWords.ts';

const cartridge: PartOf<'cartridge'> = {
  schema: 1,
  kind: 'cartridge',
  name: 'mine',
  massG: 6.5,
  trackingForceRecommendedMn: 17.651970000000002,
  outputMv: 5,
  asTyped: { trackingForceRecommendedMn: '1.8 g', massG: '6.50' },
};

test('a part’s figures come back in the units and digits they were typed in', () => {
  expect(specLine(cartridge)).toBe('6.50 g · tracks at 1.8 g · gives 5 mV');
  expect(typedIn([undefined, cartridge], 'trackingForceRecommendedMn', 17.651970000000002, 'mN')).toBe('1.8 g');
  expect(typedIn([cartridge], 'outputMv', 5, 'mV')).toBeUndefined();
  expect(typedIn([cartridge], 'trackingForceRecommendedMn', 17, 'mN')).toBeUndefined();
});

test('each kind is told by its most telling figures, choices and texts in words', () => {
  expect(demoParts.map(specLine)).toEqual([
    'spindle to pivot 226.5 mm · belt',
    '10 g · length 243.5 mm · removable',
    'moving magnet · 6.5 g · 13 µm/mN · at 10 Hz · tracks at 17 mN · gives 5 mV',
    'moving coil · 9 g · 7 µm/mN · at 100 Hz · tracks at 19.5 mN · gives 0.4 mV',
    'moving magnet · gain 40 dB · 47 kΩ · 100 pF',
    'moving coil · gain 60 dB · 120 Ω · 1000 pF',
    '120 pF',
    '150 pF/m · 2 m',
    '8 g · thick 2.5 mm',
    '14 g · thick 4 mm',
    '110 g',
    '150 g',
    '0.6 g · screws 8 mm · aluminium',
    '4 g · screws 10 mm · brass',
  ]);
  expect(specLine({ schema: 1, kind: 'cable', name: 'x' })).toBe('');
  expect(specLine({ schema: 1, kind: 'preamp', name: 'x', responseCsv: 'frequency_hz,db\n20,1\n30,2' })).toBe(
    'response measured',
  );
});

test('what was typed without its unit is given it, where it has one', () => {
  const part = { ...cartridge, asTyped: { massG: ' 6,50 ', outputMv: 'some' } };
  expect(typedIn([part], 'massG', 6.5, 'g')).toBe('6,50 g');
  expect(typedIn([part], 'massG', 6.5, '')).toBe('6,50');
  expect(typedIn([part], 'outputMv', 5, 'mV')).toBe('some');
  expect(typedIn([], 'massG', 6.5, 'g')).toBeUndefined();
  expect(typedIn([{ ...cartridge, asTyped: undefined }], 'massG', 6.5, 'g')).toBeUndefined();
  expect(typedIn([{ ...cartridge, massG: 7 }, part], 'massG', 6.5, 'g')).toBe('6,50 g');
});

test('a choice that has no words of its own has its hyphens taken out', () => {
  expect(['through-holes', 'thread-and-weight', 'static', '50', 'bare', 'with-headshell'].map(optionText)).toEqual([
    ...[
      'through holes',
      'thread and weight',
      'at rest (static)',
      '50 Hz',
      'without the headshell',
      'with the headshell',
    ],
  ]);
});
