/** An export that nothing names, not even its own file, is dead. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const sources = ['src', 'test', 'bench', 'scripts']
  .flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((p) => `${folder}/${p}`),
  )
  .filter((path) => /\.(tsx?|mjs)$/.test(path))
  .map((path) => ({
    path,
    code: readFileSync(join(root, path), 'utf8').replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/.*$/gm, ''),
  }));

test('every export is used somewhere', () => {
  const uses = new Map<string, number>();
  for (const { code } of sources) {
    for (const [word] of code.matchAll(/[\p{L}_$][\p{L}\p{N}_$]*/gu)) uses.set(word, (uses.get(word) ?? 0) + 1);
  }
  const exported = sources
    .filter(({ path }) => path.startsWith('src/'))
    .flatMap(({ path, code }) =>
      [...code.matchAll(/^export (?:async )?(?:const|function\*?|class|interface|type|enum) ([\w$]+)/gm)].map(
        ([, name]) => ({ path, name }),
      ),
    );
  expect(exported.length).toBeGreaterThan(500);
  expect(exported.filter(({ name }) => uses.get(name) === 1)).toEqual([]);
});
