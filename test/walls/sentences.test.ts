/**
 * Sentences stand in `core/words` and nowhere else; what is told is a statement there, and nobody takes its words apart.
 *
 * A sentence here: begins large, has four words or more, ends with a full stop. Labels and hints of fields are none.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { mixedLines, spokenText } from './spokenText.ts';

const src = fileURLToPath(new URL('../../src/', import.meta.url));
const files = readdirSync(src, { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.tsx?$/.test(path) && !/\.(test|d|child|fixture)\.tsx?$/.test(path))
  .map((path) => ({ path, code: readFileSync(join(src, path), 'utf8') }));

const isSentence = (text: string): boolean => /^\p{Lu}.*\.$/u.test(text) && text.split(' ').length >= 4;

const sentencesIn = (within: (path: string) => boolean): string[] =>
  files
    .filter(({ path }) => within(path))
    .flatMap(({ path, code }) =>
      spokenText(path, code)
        .filter(isSentence)
        .map((text) => `${path}: ${text}`),
    );

/** What an invented customer and an invented bench wrote by hand. */
const WRITTEN = ['core/job/demoJob.ts'];

test('core tells by statements: no sentence outside its words', () => {
  expect(sentencesIn((path) => /^core\/(?!words\/)/.test(path) && !WRITTEN.includes(path))).toEqual([]);
});

/** With values between its words, as an element of a page or a template writes it; what is only values is none. */
const isMixedSentence = (text: string): boolean =>
  /^[\p{Lu}…].*\.$/u.test(text) && text.split(' ').length >= 4 && /\p{L}{3}.*\p{L}{3}/u.test(text);

const mixedIn = (within: (path: string) => boolean): string[] =>
  files
    .filter(({ path }) => within(path))
    .flatMap(({ path, code }) =>
      [...mixedLines(path, code), ...spokenText(path, code).filter((text) => text.includes('…'))]
        .flatMap((line) => line.split(/(?<=[.!?])\s+/))
        .filter(isMixedSentence)
        .map((text) => `${path}: ${text}`),
    );

test('page and reports hold labels, headings and names of buttons: no sentence of their own, with values or without', () => {
  const shown = (path: string): boolean => /^(report|web)\//.test(path);
  expect(sentencesIn(shown)).toEqual([]);
  expect(mixedIn(shown)).toEqual([]);
});

/** A reason is a `Statement`; text only where a document of the contract, a stored answer or a file's reader holds it. */
const TOLD = [
  // documents of the contract: the words beside their statements
  'core/advise/document.ts',
  'core/geometry/document.ts',
  'core/geometry/moves.ts',
  'core/job/stations/match/answer.ts',
  // what a schema refuses, and what a person wrote
  'core/job/recordings.ts',
  'core/job/stationState.ts',
  'core/job/stations/index.ts',
  // units knows no words
  'core/units/typedQuantity.ts',
];

test('a reason is a statement, text only at the edges', () => {
  const typed = files
    .filter(({ path, code }) => path.startsWith('core/') && /\bwhy\??: string\b/.test(code))
    .map(({ path }) => path);
  expect(typed.toSorted()).toEqual(TOLD.toSorted());
});

/** Words of Node, of JSON and of the schemas' package; the deck's refusals, which begin with the key that they are about. */
const FOREIGN = [
  'cli/commandLine.ts',
  'cli/simulate.ts',
  'cli/usageWords.ts',
  'core/job/checkSentence.ts',
  'core/record/sheet.ts',
  'core/words/statement.ts',
];

test('no code takes a sentence apart', () => {
  const apart =
    /\b(why|because|message|caution|note|sentence)\)?\??\.(split|replace|replaceAll|startsWith|endsWith|match|slice|indexOf)\(/;
  const own = files.filter(({ path }) => !FOREIGN.includes(path));
  const found = own.flatMap(({ path, code }) =>
    code.split('\n').flatMap((line) => (apart.test(line) ? [`${path}: ${line.trim()}`] : [])),
  );
  expect(found).toEqual([]);
});

test('what is a sentence is found, what is a label is not', () => {
  const found = spokenText(
    'a.tsx',
    "const a = ['Weigh it again now.', 'Tracking force from', 'Row ' + n + ' is not there.', 'Row two is not there.'];",
  );
  expect(found.filter(isSentence)).toEqual(['Weigh it again now.', 'Row two is not there.']);
});

test('a sentence with values between its words is found as well', () => {
  const page = '<p>\n  Read <b>{a}</b> of {b} bands so far. {c}\n</p>';
  expect(
    mixedLines('a.tsx', `const x = ${page};`)
      .flatMap((line) => line.split(/(?<=[.!?])\s+/))
      .filter(isMixedSentence),
  ).toEqual(['Read … of … bands so far.']);
});
