// `node bench/liveBrowser.mjs`: what listening at 96 kHz costs a real browser, in percent of one core, and how far its page is behind
// the sound. Through a sound card that is not there; needs Chromium and Debian's pulseaudio and pulseaudio-utils. Prints; judges nothing.
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { chromium } from 'playwright-core';
import { buildAll } from '../scripts/build.mjs';
import { ensureChromium } from '../scripts/chromium.mjs';
import { busyByName } from './parts/busy.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const cli = join(root, 'dist', 'cli.mjs');
const RATE = 96_000;
const REST_S = 10;
const LISTEN_S = Number(process.env.LISTEN_S ?? 20);
const MUTES = 12;

const sleep = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

/** Percent of one core over some seconds, by thread, largest first. */
async function percentOver(pid, seconds) {
  const before = busyByName(pid);
  const began = performance.now();
  await sleep(seconds * 1000);
  const after = busyByName(pid);
  const tookS = (performance.now() - began) / 1000;
  const shares = [...after].map(([name, s]) => [name, (100 * (s - (before.get(name) ?? 0))) / tookS]);
  const total = shares.reduce((sum, [, share]) => sum + share, 0);
  return { total, shares: shares.filter(([, share]) => share >= 0.5).sort((a, b) => b[1] - a[1]) };
}

function serve(store) {
  const child = spawn(process.execPath, [cli, 'serve', '--port', '0', '--store', store]);
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

/** A side that plays one tone for two minutes. */
function longTone(folder) {
  const [deck, record, path] = ['tone.deck.json', 'tone.record.json', 'tone.wav'].map((name) => join(folder, name));
  writeFileSync(deck, JSON.stringify({ schema: 1, name: 'bench', cartridge: { tiltDeg: 0.9 } }));
  const band = { motion: 'left', signal: 'tone', frequencyHz: 1000, peakVelocityCmS: 5, startRadiusMm: 140 };
  const bands = [{ ...band, durationS: 120 }];
  writeFileSync(record, JSON.stringify({ schema: 1, name: 'bench', rpm: 33.333, bands }));
  const made = spawnSync(process.execPath, [
    ...[cli, 'simulate', '--deck', deck, '--record', record, '--rate', String(RATE), '--bits', '24', '-o', path],
  ]);
  if (made.status !== 0) throw new Error(made.stderr.toString());
  return path;
}

/** What the worker sends is noted: of figures what waited before them and their way to the page, of levels whether there is sound. */
function noting() {
  const noted = { figures: [], levels: [] };
  globalThis.noted = noted;
  const Plain = globalThis.Worker;
  globalThis.Worker = class extends Plain {
    constructor(...given) {
      super(...given);
      this.addEventListener('message', ({ data }) => {
        const at = performance.timeOrigin + performance.now();
        if (data?.kind === 'level') noted.levels.push({ at, loud: data.peak.leftDb > -60 });
        if (data?.kind === 'now') noted.figures.push(1000 * data.status.behindS + at - data.status.sentAt);
      });
    }
  };
}

/** Mutes the deck and lets it sound again: ms from before that was asked until the page had it. */
async function delays(card, deck, page) {
  const found = { silent: [], sounding: [] };
  for (let n = 0; n < MUTES; n++) {
    const mute = n % 2 === 0;
    // at any phase of the windows
    await sleep(900 + 50 * Math.random());
    const asked = performance.timeOrigin + performance.now();
    await card.control('set-sink-mute', deck, mute ? '1' : '0');
    await sleep(900);
    const at = await page.evaluate(
      ([from, loud]) => globalThis.noted.levels.find((one) => one.at > from && one.loud === loud)?.at ?? null,
      [asked, !mute],
    );
    if (at !== null) found[mute ? 'silent' : 'sounding'].push(at - asked);
  }
  return found;
}

const inMs = (values) =>
  values.length === 0
    ? 'none was seen'
    : `median ${median(values).toFixed(0)} ms, worst of ${values.length}: ${Math.max(...values).toFixed(0)} ms`;

await buildAll();
const folder = mkdtempSync(join(tmpdir(), 'platterside-live-'));
let [card, browser, server] = [];
try {
  const outfile = join(folder, 'soundCard.mjs');
  const entry = join(root, 'test', 'screens', 'soundCard.ts');
  await build({ entryPoints: [entry], outfile, bundle: true, platform: 'node', format: 'esm' });
  const { DECK, openSoundCard, SOURCE_LABEL } = await import(pathToFileURL(outfile).href);
  card = await openSoundCard(RATE);
  server = await serve(join(folder, 'bench.sqlite'));
  const side = longTone(folder);
  browser = await chromium.launchServer({
    executablePath: ensureChromium(),
    args: ['--headless', '--no-sandbox', '--disable-gpu', '--use-fake-ui-for-media-stream'],
    env: { ...process.env, ...card.env },
  });
  const { pid } = browser.process();
  const context = await (await chromium.connect(browser.wsEndpoint())).newContext({ permissions: ['microphone'] });
  await context.addInitScript(noting);
  const page = await context.newPage();
  await page.goto(server.address);
  await page.getByText('Listen live figures while the record plays').click();
  await sleep(3000);
  const atRest = await percentOver(pid, REST_S);
  await page.getByLabel('Sound input').selectOption({ label: SOURCE_LABEL });
  await page.getByLabel('Sample rate').selectOption(String(RATE));
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByText(`${RATE} Hz`).waitFor();
  card.play(side);
  await page.locator('[data-live-band="left only · 1 kHz"]').waitFor();
  await sleep(3000);
  const figures = async () => (await page.evaluate(() => globalThis.noted.figures.splice(0))).slice(-300);
  await figures();
  const listening = await percentOver(pid, LISTEN_S);
  const behind = await figures();
  const found = await delays(card, DECK, page);
  await page.getByText('Left against right').click();
  await page.locator('.scope canvas[data-drawn]').waitFor();
  await sleep(1000);
  const withScope = await percentOver(pid, LISTEN_S);
  const tell = (what, { total, shares }) => {
    console.log(`  ${what}: ${total.toFixed(1)} % of one core in all its processes`);
    console.log(`    by thread: ${shares.map(([name, share]) => `${name} ${share.toFixed(1)} %`).join(', ')}`);
  };
  const [load] = readFileSync('/proc/loadavg', 'latin1').split(' ');
  console.log(
    `Listening live at ${RATE / 1000} kHz stereo, a tone that plays, page open, in a headless Chromium that draws with the processor; load of the machine ${load}:`,
  );
  tell('the station, before listening', atRest);
  tell('listening (aim: under 25)', listening);
  tell('with the scope open, 60 pictures a second', withScope);
  console.log(`  figures, from the audio thread to the page (aim: at most 150): ${inMs(behind)}`);
  console.log(`  sound that begins, from the sound server's word to the page's bars: ${inMs(found.sounding)}`);
  console.log(`  sound that ends, which 25 ms of silence must show: ${inMs(found.silent)}`);
} finally {
  await browser?.close();
  server?.child.kill();
  await card?.close();
  rmSync(folder, { recursive: true, force: true });
}
