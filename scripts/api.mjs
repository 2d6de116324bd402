// `npm run api [FOLDER]`: pages of every public type and function of the core, made from the docstrings; `docs/api` where none is named.
// TypeDoc reads TypeScript 5 and would have its own beside the project's: both are fetched for this run, at these versions.
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const out = process.argv[2] ?? join('docs', 'api');
const packages = ['typedoc@0.28.20', 'typescript@5.9.3'].flatMap((one) => ['--package', one]);
const standardTags = ['@param', '@returns', '@throws', '@example', '@template'];
const ownTags = ['@source', '@checked'];
const run = spawnSync(
  'npm',
  [
    ...['exec', '--yes', ...packages, '--', 'typedoc', '--name', 'Platterside', '--readme', 'none', '--out', out],
    ...['--tsconfig', 'tsconfig.core.json', '--entryPointStrategy', 'expand', '--entryPoints', 'src/core'],
    ...[
      '--exclude',
      '**/*.test.ts',
      '--exclude',
      '**/*.fixture.ts',
      '--disableSources',
      '--validation.notExported',
      'false',
    ],
    ...[...standardTags, ...ownTags].flatMap((tag) => ['--blockTags', tag]),
    // a docstring that names what is not there ends the run
    '--treatWarningsAsErrors',
  ],
  { cwd: root, stdio: 'inherit' },
);
process.exit(run.status ?? 1);
