// Takes the pictures of the docs from the real page with the demo side: `node scripts/pictures.mjs`, after `npm run demo`.
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { buildAll } from './build.mjs';
import { ensureChromium } from './chromium.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const pictures = join(root, 'docs', 'pictures');
const folder = mkdtempSync(join(tmpdir(), 'platterside-pictures-'));
await buildAll();
mkdirSync(pictures, { recursive: true });

const server = spawn(
  process.execPath,
  [join(root, 'dist', 'cli.mjs'), 'serve', '--port', '0', '--store', join(folder, 'store.sqlite')],
  { stdio: ['ignore', 'pipe', 'inherit'] },
);
const address = await new Promise((resolve) => {
  server.stdout.on('data', (data) => {
    const found = /http:\/\/\S+/.exec(String(data));
    if (found !== null) resolve(found[0]);
  });
});
const browser = await chromium.launch({
  executablePath: ensureChromium(),
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 1320 }, colorScheme: 'light' });
  await page.goto(address);
  await page
    .getByLabel('Pick a recording')
    .setInputFiles([join(root, 'demo', 'side.wav'), join(root, 'demo', 'side.record.json')]);
  await page.locator('.turn-card').waitFor({ timeout: 120_000 });
  await page.getByRole('button', { name: 'I turned the headshell' }).waitFor();
  await page.evaluate(async () => {
    document.activeElement?.blur();
    await document.fonts.ready;
  });
  await page.screenshot({ path: join(pictures, 'tilt.png') });
} finally {
  await browser.close();
  server.kill('SIGTERM');
  rmSync(folder, { recursive: true, force: true });
}
