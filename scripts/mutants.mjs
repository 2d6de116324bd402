// Plants small faults in the files of a folder (or in single files), one at a time, and tells which no test notices: all of them, or a share drawn by
// lot, another one for each NUMBER. By StrykerJS, in a copy of the tree outside it; the tests are those of the same folder unless others are named. Not
// part of the checks. `npm run mutants -- PLACE… [--share PERCENT [--draw NUMBER]] [--at-once N] [--tests GLOB…]`
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './install.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const args = process.argv.slice(2);
/** The number behind an option, taken out of what was given. */
const numberFor = (name, otherwise) => {
  const at = args.indexOf(name);
  return at < 0 ? otherwise : Number(args.splice(at, 2)[1]);
};
const share = numberFor('--share', 100);
const draw = numberFor('--draw', 1);
const atOnce = numberFor('--at-once', 1);
const split = args.indexOf('--tests');
const places = (split < 0 ? args : args.slice(0, split)).map((place) =>
  existsSync(join(root, place)) ? place : join('src/core', place),
);
const isKnown = (place) => !place.startsWith('--') && existsSync(join(root, place));
if (places.length === 0 || !places.every(isKnown) || !(share > 0 && share <= 100) || !(atOnce >= 1)) {
  console.error(
    'platterside: npm run mutants -- PLACE… [--share PERCENT [--draw NUMBER]] [--at-once N] [--tests GLOB…]: a folder such as advise or src/store, or a file, was expected',
  );
  process.exit(2);
}
const isFolder = (place) => statSync(join(root, place)).isDirectory();
const tests =
  split < 0
    ? places.map((place) => `${isFolder(place) ? place : dirname(place)}/**/*.test.{ts,tsx}`)
    : args.slice(split + 1);
// a copy of a tree has what it needs and no note of when it was installed
if (!existsSync(join(root, 'node_modules/.bin/stryker'))) ensureInstalled(root);

const folder = mkdtempSync(join(tmpdir(), 'platterside-mutants-'));
const config = join(folder, 'stryker.json');
const report = join(folder, 'report.json');
// goes into the copy with everything else, so it stands in the tree meanwhile
const vitestName = `vitest.mutants.${process.pid}.config.ts`;
const vitest = join(root, vitestName);
try {
  writeFileSync(
    vitest,
    // without the tree's projects, whose own lists of tests would be run as well
    [
      "import own from './vitest.config.ts';",
      'const { projects, ...shared } = own.test;',
      `const test = { ...shared, ...projects[0].test, maxWorkers: 1, include: ${JSON.stringify(tests)} };`,
      'export default { ...own, test };',
    ].join('\n'),
  );
  writeFileSync(
    config,
    JSON.stringify({
      mutate: places.flatMap((place) =>
        isFolder(place) ? [`${place}/**/*.{ts,tsx}`, '!**/*.test.ts', '!**/*.fixture.ts'] : [place],
      ),
      testRunner: 'vitest',
      plugins: ['@stryker-mutator/vitest-runner', join(root, 'scripts/mutantShare.mjs')],
      checkers: share < 100 ? ['share'] : [],
      vitest: { configFile: vitestName, related: false },
      concurrency: atOnce,
      tempDirName: join(folder, 'sandbox'),
      ignorePatterns: ['dist', 'docs/pictures', '.git', 'demo'],
      reporters: ['clear-text', 'json'],
      jsonReporter: { fileName: report },
      clearTextReporter: { allowColor: false, allowEmojis: false, logTests: false, reportTests: false },
      // sentences are tables of their own, with tests of their own
      mutator: { excludedMutations: ['StringLiteral'] },
      disableTypeChecks: true,
      // what is worked out once, when a file is loaded, would ask for the whole run again
      ignoreStatic: true,
      timeoutMS: 8_000,
      // of all tests at once, on a machine that does much else
      dryRunTimeoutMinutes: 60,
      allowConsoleColors: false,
    }),
  );
  const run = spawnSync(join(root, 'node_modules/.bin/stryker'), ['run', config, '--logLevel', 'warn'], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, PLATTERSIDE_MUTANT_SAMPLE: JSON.stringify({ share, draw }) },
  });
  if (run.status !== 0 || !existsSync(report)) process.exitCode = 1;
  else {
    const all = Object.values(JSON.parse(readFileSync(report, 'utf8')).files).flatMap(({ mutants }) => mutants);
    const count = (...of) => all.filter(({ status }) => of.includes(status)).length;
    const [caught, lived] = [count('Killed', 'Timeout'), count('Survived', 'NoCoverage')];
    console.log(
      `\n${places.join(' ')}: ${caught} of ${caught + lived} caught, ${((100 * caught) / (caught + lived)).toFixed(1)} %`,
    );
  }
} finally {
  rmSync(vitest, { force: true });
  rmSync(folder, { recursive: true, force: true });
}
