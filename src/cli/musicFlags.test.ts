/** Where the music lies, from a file or from its two ends. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { grooveSpan } from '../core/geometry/span.ts';
import { scratchFolder } from '../store/scratch.fixture.ts';
import { UsageError } from './command.ts';
import { readMusic } from './musicFlags.ts';

const folder = scratchFolder();
afterAll(() => folder.remove());
const span = grooveSpan('60,146');
const file = join(folder.path, 'music.csv');
const written = (text: string) => {
  writeFileSync(file, text);
  return readMusic(file, undefined, span);
};

it('a file’s columns may stand in any order, with capitals and others beside them', () => {
  const points = [
    { radius: 60, weight: 3 },
    { radius: 146, weight: 1 },
  ];
  expect(written('radius_mm,weight\n60,3\n146,1\n')).toEqual(points);
  expect(written('note, Weight ,RADIUS_MM\nloud,3,60\n,1,146\n')).toEqual(points);
  expect(readMusic(undefined, '3,1', span)).toEqual(points);
  expect(readMusic(undefined, undefined, span)).toBeUndefined();
});

it.each([
  ['', 'music.csv line 1: nothing was found; the columns radius_mm,weight were expected'],
  ['radius_mm,loud\n60,3\n', "music.csv line 1: 'radius_mm,loud' was found; the columns"],
  ['\n\nradius,weight\n60,3\n', "music.csv line 3: 'radius,weight' was found; the columns"],
  [`${'x'.repeat(80)},weight\n`, `line 1: '${'x'.repeat(60)}' was found`],
  ['radius_mm,weight\n60,3\n146\n', "music.csv line 3: '' is no number; a weight was expected"],
  ['weight,radius_mm\n60\n', "music.csv line 2: '' is no number; a radius in mm was expected"],
  ['radius_mm,weight\n60,x\n', "music.csv line 2: 'x' is no number; a weight was expected"],
  ['radius_mm,weight\n60,"3\n', 'line 2: a quotation mark is not closed; a closing one was expected'],
  ['radius_mm,weight\n60,3\n', 'music.csv: the music weight has 1 points'],
])('a file of %j is refused by its line', (text, sentence) => {
  expect(() => written(text)).toThrow(UsageError);
  expect(() => written(text)).toThrow(sentence);
});

it('file and ends together are refused, and ends that are not two', () => {
  expect(() => readMusic(file, '3,1', span)).toThrow('--music and --music-weight exclude each other');
  expect(() => readMusic(undefined, '3', span)).toThrow('INNER,OUTER was expected');
});
