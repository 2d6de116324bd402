// Type-checks each ring with its own tsconfig, so that core cannot see the DOM or Node.
import { spawnSync } from 'node:child_process';

let failed = false;
for (const ring of ['core', 'node', 'web']) {
  const run = spawnSync('npx', ['tsc', '-p', `tsconfig.${ring}.json`], { stdio: 'inherit' });
  if (run.status !== 0) {
    console.error(`types: the ${ring} ring does not compile`);
    failed = true;
  }
}
process.exit(failed ? 1 : 0);
