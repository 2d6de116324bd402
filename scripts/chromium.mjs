// Finds a Chromium for the page's tests; installs the distribution's where that is possible.
import { ensureBrowser, findBrowser } from './browser.mjs';

const chromium = {
  name: 'Chromium',
  variable: 'PLATTERSIDE_CHROMIUM',
  debian: 'chromium',
  brew: 'chromium',
  places: [
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome-stable',
    '/usr/bin/google-chrome',
    '/snap/bin/chromium',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
};

/** Path of a Chromium, or null. `PLATTERSIDE_CHROMIUM` names one that is elsewhere. */
export const findChromium = () => findBrowser(chromium);

/** Finds or installs one; throws one sentence that says how where it cannot. */
export const ensureChromium = () => ensureBrowser(chromium);
