import { expect, test } from 'vitest';
import { formulaOf, readInline, readMarkdown, titleOf } from './markdown.ts';

test('blocks of a method page', () => {
  const page = [
    '# Tilt from *one* pass',
    '',
    'Text over',
    'two lines with `|c|`.',
    '',
    '    t = (Re c_RL − Re c_LR) / 2',
    '',
    '| a | `x|y` |',
    '| --- | --- |',
    '| 1 | **2** |',
    '',
    '- one',
    '  more of one',
    '- two',
    '  - deeper',
    '',
    '1. first',
    '2. second',
    '',
    '> quoted',
    '',
    '```ts',
    'code # not a heading',
    '```',
  ].join('\n');
  const blocks = readMarkdown(page);
  expect(blocks.map((block) => block.kind)).toEqual([
    'heading',
    'paragraph',
    'code',
    'table',
    'list',
    'list',
    'quote',
    'code',
  ]);
  expect(titleOf(page)).toBe('Tilt from one pass');
  expect(formulaOf(page)).toBe('t = (Re c_RL − Re c_LR) / 2');
  const table = blocks[3];
  expect(table.kind === 'table' && table.head[1]).toEqual([{ kind: 'code', text: 'x|y' }]);
  const list = blocks[4];
  expect(list.kind === 'list' && list.items.length).toBe(2);
  expect(list.kind === 'list' && list.items[1][1]?.kind).toBe('list');
});

test('words that hold marks stay words', () => {
  expect(readInline('separation_left_to_right and 2*3*4')).toEqual([
    { kind: 'text', text: 'separation_left_to_right and 2*3*4' },
  ]);
  expect(readInline('see [the signs](../signs.md) now')).toEqual([
    { kind: 'text', text: 'see ' },
    { kind: 'link', href: '../signs.md', parts: [{ kind: 'text', text: 'the signs' }] },
    { kind: 'text', text: ' now' },
  ]);
});

test('markup of the web stays text', () => {
  expect(readMarkdown('<img src=x onerror=alert(1)>')).toEqual([
    { kind: 'paragraph', parts: [{ kind: 'text', text: '<img src=x onerror=alert(1)>' }] },
  ]);
});

test('every input ends', () => {
  for (const odd of [
    '',
    '- ',
    '|',
    '> ',
    '```',
    '    ',
    '1. a\n\n\n2. b',
    '- a\n\n  b\n\nc',
    '**',
    '[',
    '# ',
    '#',
    '---',
  ]) {
    expect(Array.isArray(readMarkdown(odd))).toBe(true);
  }
});
