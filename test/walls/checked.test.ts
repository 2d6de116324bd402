/** What a file says it is checked by is there. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

test('every test that a file names stands beside it, or where the path says', () => {
  const named = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.tsx?$/.test(path))
    .flatMap((path) =>
      [...readFileSync(join(root, 'src', path), 'utf8').matchAll(/@checked (.*)/g)].flatMap(([, line]) =>
        [...line.matchAll(/[\w./-]+\.test\.tsx?/g)].map(([test]) => ({ path, test })),
      ),
    );
  expect(named.length).toBeGreaterThan(100);
  expect(
    named.filter(
      ({ path, test }) => !existsSync(join(root, 'src', dirname(path), test)) && !existsSync(join(root, test)),
    ),
  ).toEqual([]);
});
