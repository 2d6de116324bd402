// A bench of its own on an empty store, and a browser, for the parts that look at the page.
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { ensureChromium } from '../../scripts/chromium.mjs';

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

/** @returns a browser and the number of its process */
export async function launch() {
  const server = await chromium.launchServer({
    executablePath: ensureChromium(),
    args: ['--headless', '--no-sandbox', '--disable-gpu'],
  });
  const browser = await chromium.connect(server.wsEndpoint());
  return { browser, pid: server.process().pid, close: () => server.close() };
}
