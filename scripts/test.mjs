// `npm test`: installs what it needs, then lint, types and every test; ends with the count.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureChromium } from './chromium.mjs';
import { ensureTools } from './debian.mjs';
import { ensureFirefox } from './firefox.mjs';
import { ensureInstalled } from './install.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const bin = (name) => join(root, 'node_modules', '.bin', name);
const failures = [];

function step(name, command, args) {
  console.log(`\n— ${name}`);
  if (spawnSync(command, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] }).status !== 0)
    failures.push(name);
}

let counts = { passed: 0, failed: 0 };
try {
  ensureInstalled(root);
  process.env.PLATTERSIDE_CHROMIUM = ensureChromium();
  process.env.PLATTERSIDE_FIREFOX = ensureFirefox();
  ensureTools();
  const { buildAll } = await import('./build.mjs');
  await buildAll();
  step('lint', bin('biome'), ['check', '.']);
  for (const ring of ['core', 'node', 'web']) step(`types: ${ring}`, bin('tsc'), ['-p', `tsconfig.${ring}.json`]);
  const folder = mkdtempSync(join(tmpdir(), 'platterside-test-'));
  const report = join(folder, 'report.json');
  step('tests', bin('vitest'), [
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...process.argv.slice(2),
  ]);
  const result = JSON.parse(readFileSync(report, 'utf8'));
  rmSync(folder, { recursive: true, force: true });
  counts = { passed: result.numPassedTests, failed: result.numFailedTests };
  const skipped = result.numPendingTests + (result.numTodoTests ?? 0);
  if (skipped > 0) failures.push(`${skipped} tests did not run`);
  if (counts.passed === 0) failures.push('no test ran');
} catch (error) {
  console.error(`platterside: ${error instanceof Error ? error.message : error}`);
  failures.push('setting up');
}
for (const name of failures) console.error(`failed: ${name}`);
const failed = Math.max(counts.failed, failures.length);
console.log(`\n${counts.passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
