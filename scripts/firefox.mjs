// Finds a Firefox for the page's tests; installs the distribution's where that is possible.
import { ensureBrowser, findBrowser } from './browser.mjs';

const firefox = {
  name: 'Firefox',
  variable: 'PLATTERSIDE_FIREFOX',
  debian: 'firefox-esr',
  brew: 'firefox',
  places: [
    '/usr/bin/firefox-esr',
    '/usr/bin/firefox',
    '/snap/bin/firefox',
    '/Applications/Firefox.app/Contents/MacOS/firefox',
  ],
};

/** Path of a Firefox, or null. `PLATTERSIDE_FIREFOX` names one that is elsewhere. */
export const findFirefox = () => findBrowser(firefox);

/** Finds or installs one; throws one sentence that says how where it cannot. */
export const ensureFirefox = () => ensureBrowser(firefox);
