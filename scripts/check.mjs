// One command that says whether you may push: lint, types, every test. Lines of code by folder stand above them.
import { spawnSync } from 'node:child_process';

await import('./houseLines.mjs');
for (const script of ['lint', 'types', 'test']) {
  const run = spawnSync('npm', ['run', '--silent', script], { stdio: 'inherit' });
  if (run.status !== 0) process.exit(run.status ?? 1);
}
