import { expect, test } from 'vitest';
import type { Band } from '../../core/record/band.ts';
import { bandNumbers, bandTimes, bandWords } from './bandWords.ts';

const band = (rest: Partial<Band>): Band => ({
  index: 0,
  startS: 4.05,
  endS: 73.92,
  signal: 'tone',
  motion: 'left',
  frequencyHz: 1001.8,
  radiusMm: null,
  sheetBand: null,
  ...rest,
});

test('bands in words, a tone a little off its nominal still by its nominal', () => {
  const none = { frequencyHz: null } as const;
  expect(bandWords(band({}))).toBe('left only · 1 kHz');
  expect(bandWords(band({ motion: 'lateral', frequencyHz: 3156.2 }))).toBe('lateral · 3.15 kHz');
  expect(bandWords(band({ motion: 'vertical', frequencyHz: 1031 }))).toBe('vertical · 1.03 kHz');
  expect(bandWords(band({ motion: 'unknown' }))).toBe('tone · 1 kHz');
  expect(bandWords(band({ signal: 'two-tone', motion: 'lateral', frequenciesHz: [400.9, 4009], ...none }))).toBe(
    'lateral · 400 Hz + 4 kHz',
  );
  expect(bandWords(band({ signal: 'sweep', motion: 'lateral', fromHz: 20.4, toHz: 19_700, ...none }))).toBe(
    'lateral · sweep 20 Hz to 20 kHz',
  );
  expect(bandWords(band({ signal: 'noise', motion: 'right', ...none }))).toBe('right only · noise');
  expect(bandWords(band({ signal: 'silent-groove', motion: 'none', ...none }))).toBe('silent groove');
  expect(bandWords(band({ signal: 'unknown', motion: 'unknown', ...none }))).toBe('not recognised');
});

test('times and places, counted from one', () => {
  expect(bandTimes(band({}))).toBe('0:04.0 to 1:13.9');
  expect([[], [2], [0, 1], [0, 1, 4]].map(bandNumbers)).toEqual([
    'no band of a recording',
    'band 3',
    'bands 1 and 2',
    'bands 1, 2 and 5',
  ]);
});
