// A browser for the page's tests: where it is found, and how the distribution's comes here.
import { existsSync } from 'node:fs';
import { installFromDebian } from './debian.mjs';

/** Path of the browser, or null; the one that its variable names comes first. */
export function findBrowser({ variable, places }) {
  const named = process.env[variable];
  if (named !== undefined && named !== '') return existsSync(named) ? named : null;
  return places.find((place) => existsSync(place)) ?? null;
}

/** Finds or installs one; throws one sentence that says how where it cannot. */
export function ensureBrowser(browser) {
  const found = findBrowser(browser) ?? (installFromDebian(browser.debian) ? findBrowser(browser) : null);
  if (found !== null) return found;
  const { name, variable, debian, brew } = browser;
  const how =
    process.platform === 'darwin'
      ? `install one (for instance 'brew install --cask ${brew}')`
      : `install it ('sudo apt-get install ${debian}')`;
  throw new Error(`The page's tests need a ${name}: ${how}, or set ${variable} to its path.`);
}
