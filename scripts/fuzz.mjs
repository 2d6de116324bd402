// `npm run fuzz [CASES] [SEED]`: damaged files by the hundred thousand through every reader; what fails is laid down in a folder.
import { spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const [cases = '100000', seed = String(Date.now() % 2 ** 31)] = process.argv.slice(2);
const found = mkdtempSync(join(tmpdir(), 'platterside-fuzz-'));
console.log(`${cases} cases from seed ${seed}; files that fail are laid down in ${found}`);
const run = spawnSync(join(root, 'node_modules', '.bin', 'vitest'), ['run', 'test/fuzz', '--testTimeout=0'], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, PLATTERSIDE_FUZZ_CASES: cases, PLATTERSIDE_FUZZ_SEED: seed, PLATTERSIDE_FUZZ_FOUND: found },
});
process.exit(run.status ?? 1);
