// Part `page`: how soon the page stands, how large it is, and how long it reads a side that the command line reads too.
import { readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { watchBusy } from './busy.mjs';
import { writeLongSide } from './longSide.mjs';
import { launch, serve } from './served.mjs';
import { median, timed } from './timed.mjs';

/** for a short try of this part: `PAGE_MINUTES=5 npm run bench -- page` */
const MINUTES = Number(process.env.PAGE_MINUTES ?? 25);
const RATE = 96_000;
const OPENINGS = 5;
const READING_MS = 600_000;

/** What a first opening asks for, by the server's own answers. */
async function opening(browser, address) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  const page = await context.newPage();
  const asked = [];
  page.on('response', (response) => asked.push(response));
  await page.goto(address);
  await page.getByRole('heading', { level: 2 }).first().waitFor();
  const paint = await page.evaluate(
    () => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? performance.now(),
  );
  const drawn = await page.evaluate(() => performance.now());
  let bytes = 0;
  for (const response of asked) {
    // what is fetched ahead, when there is nothing else to do, hinders nobody
    const ahead = (await response.request().allHeaders())['sec-purpose'] === 'prefetch';
    if (!ahead && /\.(js|css|woff2|html|svg)$|\/$|\?key=/.test(response.url()))
      bytes += (await response.body().catch(() => Buffer.alloc(0))).length;
  }
  await context.close();
  return { paint, drawn, bytes };
}

function bundle(root) {
  const folder = join(root, 'dist', 'web');
  const files = readdirSync(folder, { recursive: true }).map((name) => join(folder, name));
  const scripts = files.filter((name) => /\.(js|css)$/.test(name) && statSync(name).isFile());
  const whole = scripts.reduce((sum, name) => sum + statSync(name).size, 0);
  const packed = scripts.reduce((sum, name) => sum + gzipSync(readFileSync(name)).length, 0);
  return `${(whole / 1000).toFixed(0)} kB of scripts and styles in all, ${(packed / 1000).toFixed(0)} kB packed`;
}

export async function* page({ root, folder, cli }) {
  yield { what: 'the page’s bundle', value: bundle(root) };
  const server = await serve(cli, folder);
  const { browser, pid, close } = await launch();
  try {
    const seen = [];
    for (let n = 0; n < OPENINGS; n++) seen.push(await opening(browser, server.address));
    const of = (key) => median(seen.map((one) => one[key]));
    yield {
      what: 'opening the page at 1440 × 900',
      value: `first paint ${of('paint').toFixed(0)} ms, station drawn ${of('drawn').toFixed(0)} ms, ${(of('bytes') / 1000).toFixed(0)} kB asked for`,
    };
    const file = join(folder, 'side.wav');
    writeLongSide(cli, folder, file, { minutes: MINUTES, rateHz: RATE });
    const before = await timed(process.execPath, [cli, 'measure', file, '--json']);
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const tab = await context.newPage();
    await tab.goto(server.address);
    await tab.getByRole('heading', { level: 2 }).first().waitFor();
    const tilt = new URL(tab.url());
    tilt.pathname = tilt.pathname.replace(/[^/]*$/, 'tilt');
    await tab.goto(tilt.href);
    const chooser = tab.waitForEvent('filechooser');
    await tab.getByRole('button', { name: 'Pick a recording' }).first().click();
    const busy = watchBusy(pid);
    const from = performance.now();
    await (await chooser).setFiles(file);
    await tab.locator('.turn-card .figure.big').waitFor({ timeout: READING_MS });
    const seconds = (performance.now() - from) / 1000;
    const { total, byName } = busy.stop();
    const after = await timed(process.execPath, [cli, 'measure', file, '--json']);
    const line = (before.seconds + after.seconds) / 2;
    const lineBusy = (before.busy + after.busy) / 2;
    yield {
      what: `the page reads ${MINUTES} min, ${(statSync(file).size / 1e6).toFixed(0)} MB`,
      value: `${seconds.toFixed(1)} s; the command line ${before.seconds.toFixed(1)} s before and ${after.seconds.toFixed(1)} s after it; ${(seconds / line).toFixed(2)} times as long`,
      aim: 'at most 1.3 times as long',
    };
    const threads = byName.filter(([, s]) => s >= 0.02 * total).map(([name, s]) => `${name} ${s.toFixed(1)}`);
    yield {
      what: 'the same, of the processor',
      value: `${total.toFixed(1)} s in all of the browser (${threads.join(', ')}); the command line ${before.busy.toFixed(1)} and ${after.busy.toFixed(1)} s; ${(total / lineBusy).toFixed(2)} times as much`,
    };
    rmSync(file);
  } finally {
    await close();
    server.child.kill();
  }
}
