/** One term for one thing, and none of the words that read like a translation: in every table, on every page, in every help. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { spokenText } from './spokenText.ts';

/** Words that the bench does not use, and the terms that another one stands for. */
const FORBIDDEN = [
  /\breckon/i,
  /\bnought\b/i,
  /\bthereof\b/i,
  /\btaken (in )?to be\b/i,
  /\b(is|are|was|were) taken (as|at|in|into|for)\b/i,
  /\bstands?\b(?! still)/i,
  /(?<!data |--)\bsheets?\b/i,
  /(?<!--)\bshells?\b/i,
  /\bneedles?\b/i,
  /\bpick-up/i,
  /\bskating compensation\b/i,
  /\bupright\b/i,
  /\bpercent points?\b/i,
  /\bhole off cent/i,
  /\boff-cent(re|er) hole\b/i,
  /\bnull radi/i,
  /\bvirtual deck\b/i,
  /\bgone over\b/i,
  /\bwished?\b/i,
  /\bin its stead\b/i,
  /\bcaptures?\b/i,
];

const src = fileURLToPath(new URL('../../src/', import.meta.url));
const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter(
  (path) => /\.tsx?$/.test(path) && !/\.(test|fixture|d|child)\.tsx?$|store.migrations/.test(path),
);

test('the bench speaks plain technician’s English', () => {
  const found = files.flatMap((path) =>
    spokenText(path, readFileSync(join(src, path), 'utf8')).flatMap((text) =>
      FORBIDDEN.filter((word) => word.test(text)).map((word) => `${path}: ${word.source} in “${text}”`),
    ),
  );
  expect(found).toEqual([]);
});

const root = fileURLToPath(new URL('../../', import.meta.url));
const pages = [
  ...readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.md'))
    .map((path) => join('docs', path)),
  'README.md',
  'CONTRIBUTING.md',
  'CHANGELOG.md',
];
/** A page without its code, and without where its links lead. */
const prose = (text: string): string =>
  text
    .replace(/```[\s\S]*?```/g, '')
    .replace(/`[^`\n]*`/g, '`')
    .replace(/\]\([^)]*\)/g, ']');

test('so do its pages', () => {
  const found = pages.flatMap((path) =>
    prose(readFileSync(join(root, path), 'utf8'))
      .split('\n')
      .flatMap((line) =>
        FORBIDDEN.filter((word) => word.test(line)).map((word) => `${path}: ${word.source} in “${line}”`),
      ),
  );
  expect(pages.length).toBeGreaterThan(50);
  expect(found).toEqual([]);
});

test('of a page its words are read; code and where links lead are not', () => {
  expect(prose('A `sheet` and [the deck](virtual-deck.md).\n```\nsheet\n```\nEnd')).toBe('A ` and [the deck].\n\nEnd');
});

test('what is read is found: strings, templates, page text; names, classes and paths are not', () => {
  const source = [
    "import a from './b c.ts';",
    "const kind: 'one two' = 'sheet' as const;",
    "const said = ['Two words', 'Label'];",
    'const page = <p class="a b" title="A title">Read {kind} Slowly</p>;',
  ].join('\n');
  expect(spokenText('a.tsx', source)).toEqual(['Two words', 'Label', 'A title', 'Read', 'Slowly']);
});
