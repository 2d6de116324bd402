// Programs that the tests need, from the distribution.
import { spawnSync } from 'node:child_process';

const has = (command) => spawnSync('which', [command], { stdio: 'ignore' }).status === 0;

/** How to become root without being asked, or null. */
function rootPrefix() {
  if (process.getuid?.() === 0) return [];
  return has('sudo') && spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0 ? ['sudo', '-n'] : null;
}

/** @returns whether the package is installed now */
export function installFromDebian(name) {
  if (process.platform !== 'linux' || !has('apt-get')) return false;
  const prefix = rootPrefix();
  if (prefix === null) return false;
  console.log(`Installing the distribution's ${name} (apt-get install ${name}).`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const run = (...args) => {
    const [command, ...rest] = [...prefix, ...args];
    return spawnSync(command, rest, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0;
  };
  run('apt-get', '-q', 'update');
  return run('apt-get', '-q', 'install', '-y', '--no-install-recommends', name);
}

/** Commands and the packages that bring them: the reports' printed pages are read back with pdftotext. */
const TOOLS = { pdftotext: 'poppler-utils' };

/** @throws Error naming what is missing and how to get it */
export function ensureTools() {
  for (const [command, name] of Object.entries(TOOLS)) {
    if (has(command) || (installFromDebian(name) && has(command))) continue;
    throw new Error(
      `The tests need ${command}: install it ('sudo apt-get install ${name}', on macOS 'brew install poppler').`,
    );
  }
}
