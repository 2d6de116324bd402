// Finds a Chromium for the page's tests; installs the distribution's where that is possible.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const places = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
];

/** Path of a Chromium, or null. `PLATTERSIDE_CHROMIUM` names one that stands elsewhere. */
export function findChromium() {
  const named = process.env.PLATTERSIDE_CHROMIUM;
  if (named !== undefined && named !== '') return existsSync(named) ? named : null;
  return places.find((place) => existsSync(place)) ?? null;
}

const has = (command) => spawnSync('which', [command], { stdio: 'ignore' }).status === 0;

/** Finds or installs one; throws one sentence that says how where it cannot. */
export function ensureChromium() {
  const found = findChromium();
  if (found !== null) return found;
  if (process.platform === 'linux' && has('apt-get')) {
    const root = process.getuid?.() === 0;
    const prefix = root
      ? []
      : has('sudo') && spawnSync('sudo', ['-n', 'true'], { stdio: 'ignore' }).status === 0
        ? ['sudo', '-n']
        : null;
    if (prefix !== null) {
      console.log("No Chromium found: installing the distribution's (apt-get install chromium).");
      const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
      const run = (...args) => {
        const [command, ...rest] = [...prefix, ...args];
        return spawnSync(command, rest, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0;
      };
      run('apt-get', '-q', 'update');
      run('apt-get', '-q', 'install', '-y', '--no-install-recommends', 'chromium');
      const installed = findChromium();
      if (installed !== null) return installed;
    }
  }
  throw new Error(
    process.platform === 'darwin'
      ? "The page's tests need a Chromium: install one (for instance 'brew install --cask chromium'), or set PLATTERSIDE_CHROMIUM to its path."
      : "The page's tests need a Chromium: install it ('sudo apt-get install chromium'), or set PLATTERSIDE_CHROMIUM to its path.",
  );
}
