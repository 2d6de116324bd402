// biome-ignore-all lint/performance/useDomNodeTextContent: what is counted is the text as it is seen
// Takes the pictures of the docs from the real page with a practice side: `node scripts/pictures.mjs [folder] [--all]`.
// Without --all: every station at 1440 px light and at 390 px dark; with it both widths in both themes.
// Prints how many words each station shows before anything is opened, and how many screens it is long.
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { buildAll } from './build.mjs';
import { ensureChromium } from './chromium.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const [to] = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const pictures = to ?? join(root, 'docs', 'pictures');
const all = process.argv.includes('--all');
const folder = mkdtempSync(join(tmpdir(), 'platterside-pictures-'));
const stations = ['intake', 'match', 'fit', 'weigh', 'place', 'height', 'tilt', 'run', 'hand-over'];
const looks = [
  { name: 'wide', width: 1440, height: 900, colorScheme: 'light' },
  { name: 'narrow-dark', width: 390, height: 844, colorScheme: 'dark' },
  { name: 'wide-dark', width: 1440, height: 900, colorScheme: 'dark', more: true },
  { name: 'narrow', width: 390, height: 844, colorScheme: 'light', more: true },
].filter(({ more }) => all || more !== true);
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
const { origin } = new URL(address);
const browser = await chromium.launch({
  executablePath: ensureChromium(),
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking'],
});
const still = async (page) => {
  await page.getByRole('heading', { level: 2 }).first().waitFor();
  await page.waitForFunction(() => !/^(Opening\b.*…|Looking…|.*Not saved yet…)$/m.test(document.body.innerText));
  await page.waitForTimeout(250);
  await page.evaluate(() => document.fonts.ready.then(() => document.activeElement?.blur()));
};
try {
  const first = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await first.goto(address);
  await first.getByRole('button', { name: 'Play a practice side' }).click();
  await first.locator('.turn-card').waitFor({ timeout: 240_000 });
  await first.getByRole('button', { name: 'I turned the headshell' }).waitFor();
  await still(first);
  const [, job] = /\/jobs\/([^/]+)\//.exec(first.url());
  await first.close();
  for (const { name, width, height, colorScheme } of looks) {
    const page = await browser.newPage({ viewport: { width, height }, colorScheme });
    await page.goto(address);
    for (const station of stations) {
      await page.goto(`${origin}/jobs/${job}/${station}`);
      await still(page);
      await page.screenshot({ path: join(pictures, `${station}-${name}.png`), fullPage: true });
      // the page is left after this: neither choices inside a closed list nor what is for a screen reader alone are counted
      const { words, screens } = await page.evaluate(() => {
        const main = document.querySelector('main');
        for (const unread of main.querySelectorAll('option, .unseen')) unread.textContent = '';
        return {
          words: main.innerText.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length,
          screens: document.documentElement.scrollHeight / innerHeight,
        };
      });
      console.log(`${station} ${name}: ${words} words, ${screens.toFixed(1)} screens`);
    }
    await page.close();
  }
} finally {
  await browser.close();
  server.kill('SIGTERM');
  rmSync(folder, { recursive: true, force: true });
}
