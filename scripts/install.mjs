// Installs the packages when node_modules does not fit the lock file, and says what it does.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';

const stampOf = (root) => {
  const hash = createHash('sha256');
  for (const file of ['package.json', 'package-lock.json']) hash.update(readFileSync(join(root, file)));
  return `${hash.digest('hex')} ${process.version}`;
};

/** True when SQLite's compiled part loads. */
function storeLoads(root) {
  const probe = "new (require('better-sqlite3'))(':memory:').close()";
  return spawnSync(process.execPath, ['-e', probe], { cwd: root, stdio: 'ignore' }).status === 0;
}

export function ensureInstalled(root) {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 10)) {
    throw new Error(`Node ${process.versions.node} found; Platterside needs Node 20.10 or later.`);
  }
  const stampFile = join(root, 'node_modules', '.platterside');
  const stamp = stampOf(root);
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return;
  console.log('Installing what Platterside needs (once; SQLite may be compiled, which takes a minute or two) …');
  const run = (...args) =>
    spawnSync('npm', args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'], shell: process.platform === 'win32' });
  if (run('ci', '--no-audit', '--no-fund', '--loglevel=error').status !== 0)
    throw new Error('npm ci failed: see above.');
  if (!storeLoads(root)) {
    run('rebuild', 'better-sqlite3', '--foreground-scripts=false');
    if (!storeLoads(root)) {
      throw new Error(
        'SQLite (better-sqlite3) could not be installed: no ready-made build was reachable and compiling it failed. ' +
          "It needs a C++ compiler, make and python3 ('sudo apt-get install g++ make python3', on macOS 'xcode-select --install').",
      );
    }
  }
  createRequire(join(root, 'package.json')).resolve('preact');
  writeFileSync(stampFile, stamp);
}
