import { expect, it } from 'vitest';
import { unusable } from './unusable.ts';

const thrown = (code: string): Error => Object.assign(new Error(`${code}: what the library says`), { code });

it.each([
  ['SQLITE_READONLY', /may only be read/],
  ['SQLITE_READONLY_DIRECTORY', /may only be read/],
  ['SQLITE_CANTOPEN', /rights of the file or of its folder/],
  ['EACCES', /rights of the file or of its folder/],
  ['SQLITE_BUSY', /held by another program/],
  ['SQLITE_FULL', /the disk is full/],
  ['SQLITE_IOERR_READ', /the disk gave an error/],
  ['SQLITE_CORRUPT_VTAB', /is damaged\. The file was not touched/],
])('%s is told in words, and only damage is called damage', (code, sentence) => {
  const { message } = unusable('bench.sqlite', thrown(code), 'not used');
  expect(message).toMatch(sentence);
  expect(message).toMatch(/^bench\.sqlite [^\n]*\.$/);
  expect(message).not.toContain('library');
  if (!code.includes('CORRUPT')) expect(message).not.toContain('damaged');
});

it('an error of no known kind keeps its own words', () => {
  expect(unusable('bench.sqlite', new Error('odd'), 'bench.sqlite cannot be read').message).toBe(
    'bench.sqlite cannot be read (odd).',
  );
});
