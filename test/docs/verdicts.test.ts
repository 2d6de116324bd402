import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { DEFAULT_LIMITS } from '../../src/core/advise/limits.ts';

it('the page of verdicts and the limits in use say the same, both ways', () => {
  const page = readFileSync(resolve(import.meta.dirname, '../../docs/verdicts.md'), 'utf8');
  const rows = [
    ...page.matchAll(/^\| `([a-z0-9-]+)` \| (?:up to|from) ([\d.]+) \| (?:beyond|under) ([\d.]+) \| \S+ \| (.+) \|$/gm),
  ];
  const written = Object.fromEntries(
    rows.map(([, name, good, bad, source]) => [name, { good: +good, bad: +bad, source }]),
  );
  const used = Object.fromEntries(
    Object.entries(DEFAULT_LIMITS).map(([name, { good, bad, source }]) => [name, { good, bad, source }]),
  );
  expect(written).toEqual(used);
});
