// Finds a Chromium for the page's tests; installs the distribution's where that is possible.
import { existsSync } from 'node:fs';
import { installFromDebian } from './debian.mjs';

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

/** Finds or installs one; throws one sentence that says how where it cannot. */
export function ensureChromium() {
  const found = findChromium();
  if (found !== null) return found;
  if (installFromDebian('chromium')) {
    const installed = findChromium();
    if (installed !== null) return installed;
  }
  throw new Error(
    process.platform === 'darwin'
      ? "The page's tests need a Chromium: install one (for instance 'brew install --cask chromium'), or set PLATTERSIDE_CHROMIUM to its path."
      : "The page's tests need a Chromium: install it ('sudo apt-get install chromium'), or set PLATTERSIDE_CHROMIUM to its path.",
  );
}
