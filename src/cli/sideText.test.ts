/** The page of a recording for a terminal, whole. */
import { expect, it } from 'vitest';
import { tiltedSide } from '../core/job/side.fixture.ts';
import type { Band } from '../core/record/band.ts';
import { sideText } from './sideText.ts';

const band = (index: number, more: Partial<Band>): Band => ({ ...tiltedSide.bands[0], index, ...more });

it('has bands, figures, what to do and problems, each under its heading', () => {
  const [head, bands, figures, advice, problems] = sideText(tiltedSide, false).split('\n\n');
  expect(head).toBe('side-a.wav: 96000 Hz, 24 bit, 42.5 s');
  expect(bands.split('\n')).toEqual([
    'bands',
    '   1      2.00 to    14.00 s  left only tone 1000.2 Hz',
    '   2     15.00 to    27.00 s  right only tone 1000.2 Hz',
  ]);
  expect(figures.split('\n')[0]).toBe('figures, ± expanded uncertainty (k = 2)');
  expect(figures.split('\n')).toHaveLength(6);
  expect(advice).toMatch(/^what to do\n {2}turn the cartridge: /);
  expect(problems).toBe('problems\n  note: There is no vertical band on this side.\n');
});

it('leaves out what there is nothing of', () => {
  const bare = { ...tiltedSide, bands: [], findings: [], advice: [], problems: [] };
  expect(sideText(bare, false)).toBe('side-a.wav: 96000 Hz, 24 bit, 42.5 s\n');
});

it('names the file by its path where it is known, in one line', () => {
  const capture = { ...tiltedSide.capture, path: '/bench/side\n2.wav' };
  expect(sideText({ ...tiltedSide, capture }, false)).toMatch(/^\/bench\/side 2\.wav: 96000 Hz/);
});

it('tells each kind of band by its motion, its signal and its pitch', () => {
  const bands = [
    band(0, { motion: 'lateral', frequencyHz: 99.994 }),
    band(1, { motion: 'lateral', frequencyHz: 100 }),
    band(2, { signal: 'two-tone', frequencyHz: null, frequenciesHz: [60, 4000] }),
    band(3, { signal: 'sweep', frequencyHz: null, fromHz: 20, toHz: 20_000 }),
    band(4, { signal: 'sweep', frequencyHz: null, fromHz: 20 }),
    band(5, { signal: 'sweep', frequencyHz: null, toHz: 20 }),
    band(9, { signal: 'unknown', motion: 'unknown' as Band['motion'], frequencyHz: null }),
  ] as readonly Band[];
  const lines = sideText({ ...tiltedSide, bands }, false)
    .split('\n\n')[1]
    .split('\n')
    .slice(1);
  expect(lines.map((line) => line.slice(0, 4))).toEqual([...['   1', '   2', '   3', '   4', '   5', '   6', '  10']]);
  const words = lines.map((line) => line.split(' s  ')[1]);
  expect(words.slice(0, 2)).toEqual(['lateral tone 99.99 Hz', 'lateral tone 100.0 Hz']);
  expect(words[2]).toBe('left only two tone 60.00 Hz and 4000.0 Hz');
  expect(words[3]).toBe('left only sweep 20.00 Hz to 20000.0 Hz');
  expect(words.slice(4, 6)).toEqual(['left only sweep', 'left only sweep']);
  expect(words[6]).toContain('not recognised');
});

it('is coloured where a terminal shows colours', () => {
  expect(sideText(tiltedSide, true)).toContain('\u001b[33madjust');
  expect(sideText(tiltedSide, true)).toContain('\u001b[2mnote');
  expect(sideText(tiltedSide, false)).not.toContain('\u001b');
});
