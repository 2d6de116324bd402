import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { jsonPieces } from './jsonPieces.ts';

it('gives what one string would hold, to the last space', () => {
  const deck: unknown = JSON.parse(readFileSync('examples/bench-deck-3.deck.json', 'utf8'));
  const values = [
    deck,
    [deck, deck],
    { a: undefined, b: null, 'c\n"': [[], {}, [undefined, 1, -0, Number.NaN]], d: { e: { f: ['x\ny', '<', 'é'] } } },
    [],
    {},
    7,
    'one',
    null,
  ];
  for (const value of values) expect([...jsonPieces(value)].join('')).toBe(JSON.stringify(value, null, 2));
});

it('gives a long document in many pieces, none much larger than its largest part', () => {
  const curves = Array.from({ length: 300 }, (_, i) => ({ i, y: Array.from({ length: 400 }, (__, k) => k / 7) }));
  const pieces = [...jsonPieces({ curves })];
  expect(pieces.join('')).toBe(JSON.stringify({ curves }, null, 2));
  expect(pieces.length).toBeGreaterThan(20);
  expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(100_000);
});
