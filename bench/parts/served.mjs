// A bench of its own on an empty store, and a browser, for the parts that look at the page.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { ensureChromium } from '../../scripts/chromium.mjs';
import { childrenOf } from './busy.mjs';

/** @returns the running server and the address that lets its page in */
export function serve(cli, folder) {
  const child = spawn(process.execPath, [cli, 'serve', '--port', '0', '--store', join(folder, 'bench.sqlite')]);
  return new Promise((resolve, reject) => {
    let said = '';
    child.stdout.on('data', (text) => {
      said += text;
      const address = /http:\/\/\S+\?key=\S+/.exec(said)?.[0];
      if (address !== undefined) resolve({ child, address });
    });
    child.on('exit', () => reject(new Error(said)));
  });
}

/**
 * Started by this process itself: one that is reached over a connection is sent every file whole, before its page has any of it.
 * @returns a browser and the number of its process, where /proc tells
 */
export async function launch() {
  const before = new Set(childrenOf(process.pid));
  const browser = await chromium.launch({
    executablePath: ensureChromium(),
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  const pid = childrenOf(process.pid).find((one) => !before.has(one));
  return { browser, pid, close: () => browser.close() };
}
