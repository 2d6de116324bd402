import { expect, it } from 'vitest';
import { whyUnread, whyUnwritten } from './fileReason.ts';

const coded = (code: string) => Object.assign(new Error('what the system said\nand more'), { code });

it('a system’s code is told in words, of reading and of writing', () => {
  expect(whyUnread(coded('ENOENT'))).toBe('there is no such file');
  expect(whyUnwritten(coded('ENOENT'))).toBe('there is no such folder');
  expect([whyUnread(coded('EISDIR')), whyUnwritten(coded('EISDIR'))]).toEqual(['it is a folder', 'it is a folder']);
  expect(whyUnwritten(coded('ENOSPC'))).toBe('the disk is full');
});

it('what has no words is told as it is, in one line', () => {
  expect(whyUnread(coded('ENOSPC'))).toBe('ENOSPC');
  expect(whyUnread(coded('toString'))).toBe('toString');
  expect(whyUnread(new Error('no more\nof it'))).toBe('no more');
  expect(whyUnread('just so')).toBe('just so');
});
