import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { quantities } from '../../core/words/quantities.ts';
import { formulaOf } from './markdown.ts';
import { mostNaming, namesIn } from './methodPages.ts';

test('a quantity leads to the page that names it most often', () => {
  const pages = new Map([
    ['methods/a', namesIn('`hum` is told in b; `--flag`, `hum.md` and `Hum` are no names')],
    ['methods/b', namesIn('`hum` and again `hum`, `rumble-weighted`')],
  ]);
  expect(mostNaming('hum', pages)).toBe('methods/b');
  expect(mostNaming('rumble-weighted', pages)).toBe('methods/b');
  expect(mostNaming('speed-error', pages)).toBeNull();
});

/** What one pass of a side gives at Tilt and Run. */
const shown = [
  'azimuth-error',
  'separation-left-to-right',
  'separation-right-to-left',
  'channel-balance',
  'polarity',
  'channel-order',
  'speed-error',
  'wow-flutter-weighted',
  'wow-flutter-unweighted',
  'once-per-turn',
  'eccentricity',
  'hum',
  'rumble-weighted',
  'noise-a-weighted',
];

const folder = fileURLToPath(new URL('../../../docs/methods/', import.meta.url));
const sources = new Map(
  readdirSync(folder)
    .filter((name) => name.endsWith('.md'))
    .map((name) => [name, readFileSync(folder + name, 'utf8')]),
);
const named = new Map([...sources].map(([name, source]) => [name, namesIn(source)]));

test.each(shown)('%s has a page of its method, with its formula', (quantity) => {
  const page = mostNaming(quantity, named);
  expect(page).not.toBeNull();
  expect(formulaOf(sources.get(page ?? '') ?? '')).not.toBeNull();
});

/** names of limits on either end of a figure, no figures themselves */
const LIMITS = ['arm-resonance-from', 'arm-resonance-to'];

test('every figure of the catalogue has a page of its method', () => {
  const bare = Object.keys(quantities).filter((quantity) => mostNaming(quantity, named) === null);
  expect(bare.filter((quantity) => !LIMITS.includes(quantity))).toEqual([]);
});
