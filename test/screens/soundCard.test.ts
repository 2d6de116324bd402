// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** A real browser hears a true sound path at 48 and 96 kHz: a sound card that is not there, played into, read back, taken away. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { soundFile, tiltPair } from './liveSides.ts';
import { settled, soon } from './settled.ts';
import { openSoundCard, SOURCE, SOURCE_LABEL, type SoundCard } from './soundCard.ts';

const BAND_S = 4;
const LOST_FRAMES = 1000;

let folder: string;
let card: SoundCard;
let bench: Bench;
let page: Page;
let rate: number;
let side: { path: string; tiltDeg: number };

const sine = (t: number, hz = 1000): number => Math.sin(2 * Math.PI * hz * t);
/** groove noise that is the same in every run */
const hiss = (n: number): number => 1e-3 * Math.sin(n * n * 0.7);
const clip = (x: number): number => Math.max(-1, Math.min(1, x));

/** Too low; a left-only tone with a click of one sample in right every half second, frames cut out of it at 8 s; mono; clipped. */
function faultsAt(t: number, n: number): readonly [number, number] {
  if (t < 3.5) return [0.01 * sine(t) + hiss(n) / 10, 0.0003 * sine(t) + hiss(n + 5) / 10];
  if (t < 6.5) return [0.3 * sine(t), n % (rate / 2) === 0 ? 0.5 : 0];
  const cut = t + (t >= 9 ? LOST_FRAMES / rate : 0);
  if (t < 12) return [0.3 * sine(cut) + hiss(n), 0.01 * sine(cut) + hiss(n + 5)];
  if (t < 15) return [0.3 * sine(t, 400), 0.3 * sine(t, 400)];
  return [clip(1.4 * sine(t)), 0.2 * sine(t) + hiss(n)];
}

/** A card at this rate, and a browser and bench of its own that hear it. */
async function begin(at: number): Promise<void> {
  rate = at;
  folder = mkdtempSync(join(tmpdir(), 'platterside-card-sides-'));
  card = await openSoundCard(rate);
  bench = await openBench({
    flags: ['--use-fake-ui-for-media-stream', '--autoplay-policy=no-user-gesture-required'],
    env: card.env,
  });
  side = await tiltPair(folder, rate, 0.9, 'float', BAND_S);
  const context = await bench.context({ permissions: ['microphone'] });
  page = await context.newPage();
  await page.goto(bench.address + bench.station('tilt'));
  await settled(page);
}
async function end(): Promise<void> {
  await bench?.close();
  await card?.close();
  rmSync(folder, { recursive: true, force: true });
}
const longTone = (): string =>
  soundFile(join(folder, 'tone.wav'), 90, (t, n) => [0.3 * sine(t) + hiss(n), 0.01 * sine(t) + hiss(n + 5)], rate);

const listenButton = () => page.getByRole('button', { name: 'Listen', exact: true });
const stopButton = () => page.getByRole('button', { name: 'Stop listening' });
const verdicts = (): Promise<string> => page.locator('.live-verdicts').innerText();
const band = (): Promise<string | null> => page.locator('[data-live-band]').getAttribute('data-live-band');

/** By device and rate as a person chooses them. A browser may bring a card up at another rate once: that is refused, and tried again. */
async function listen(): Promise<void> {
  if (!(await listenButton().isVisible())) await page.getByText('Listen live figures while the record plays').click();
  await page.getByLabel('Sound input').selectOption({ label: SOURCE_LABEL });
  await page.getByLabel('Sample rate').selectOption(String(rate));
  for (let tries = 1; ; tries++) {
    await listenButton().click();
    const said = page.locator('.live .notice.bad');
    await soon(async () => (await stopButton().count()) + (await said.count())).toBeGreaterThan(0);
    if ((await stopButton().count()) > 0) break;
    if (tries === 10) throw new Error(await said.innerText());
  }
  await page.getByText(`${rate} Hz`).waitFor();
}
async function stop(): Promise<void> {
  await stopButton().click();
  await soon(() => stopButton().count()).toBe(0);
}

interface Kept {
  readonly id: string;
  readonly durationS: number;
  readonly findings: readonly { quantity: string; value: number }[];
}
const kept = async (): Promise<readonly Kept[]> => (await bench.stored()).captures;

/** Runs `act` and waits for the pass that it leaves in the job. */
async function passOf(act: () => Promise<void>, leastS = 0): Promise<Kept> {
  const known = new Set((await kept()).map(({ id }) => id));
  await act();
  const fresh = async () => (await kept()).filter(({ id, durationS }) => !known.has(id) && durationS > leastS);
  await soon(async () => (await fresh()).length, 'passes kept').toBeGreaterThan(0);
  return (await fresh())[0];
}

afterEach(async () => {
  // a test that failed leaves none of its listening to the next
  if ((await stopButton().count()) > 0) await stop();
});

/** Every verdict and every pair of levels that the page shows from now on. */
async function watch(): Promise<{ said(): Promise<string[]>; levels(): Promise<string[]> }> {
  await page.evaluate(() => {
    const seen = globalThis as { said?: Set<string>; levels?: Set<string> };
    const said = new Set<string>();
    const levels = new Set<string>();
    Object.assign(seen, { said, levels });
    new MutationObserver(() => {
      for (const one of document.querySelectorAll('.live-verdicts li')) said.add(one.textContent ?? '');
      const [left, right] = [...document.querySelectorAll('.level-figure')].map((one) => one.textContent ?? '');
      levels.add(`${left} ${right}`);
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  const read = (name: 'said' | 'levels') => (): Promise<string[]> =>
    page.evaluate((key) => [...((globalThis as { said?: Set<string>; levels?: Set<string> })[key] ?? [])], name);
  return { said: read('said'), levels: read('levels') };
}

const TOLD_MS = 15_000;

/** Plays the side once. @returns the tilts that it left in the job: one, unless the machine itself lost sound */
async function tiltsOfOnePlaying(during: () => Promise<void>): Promise<readonly number[]> {
  const known = new Set((await kept()).map(({ id }) => id));
  const { over } = card.play(side.path);
  await during();
  await over;
  for (const until = performance.now() + TOLD_MS; performance.now() < until; ) {
    const tilts = (await kept())
      .filter(({ id }) => !known.has(id))
      .flatMap(({ findings }) => findings.filter(({ quantity }) => quantity === 'azimuth-error'));
    if (tilts.length > 0) return tilts.map(({ value }) => value);
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  return [];
}

/** What the machine loses by itself may cut a pass up or spoil a band: then there is no tilt, and the side is played again. */
async function tiltIsThatOfTheFile(): Promise<void> {
  await listen();
  const stall = async (): Promise<void> => {
    await soon(band).toBe('left only · 1 kHz');
    await page.evaluate(() => {
      const until = performance.now() + 2000;
      while (performance.now() < until);
    });
  };
  let tilts: readonly number[] = [];
  for (let tries = 1; tries <= 5 && tilts.length === 0; tries++) {
    tilts = await tiltsOfOnePlaying(tries === 1 ? stall : async () => undefined);
  }
  expect(tilts).toHaveLength(1);
  expect(Math.abs(tilts[0] - side.tiltDeg)).toBeLessThan(0.1);
  expect(await verdicts()).not.toContain('lost on the way');
  await stop();
}

describe('at 48 kHz', () => {
  beforeAll(() => begin(48_000));
  afterAll(end);

  test('the tilt is that of the file; a page that stalls for two seconds loses no block', tiltIsThatOfTheFile);

  test('a source that goes silent is said within a second, and what was heard is kept', async () => {
    await listen();
    const playing = card.play(longTone());
    let seconds = Number.POSITIVE_INFINITY;
    // a machine with much else to do can make it late, never early
    for (let tries = 1; tries <= 3 && !(seconds < 1); tries++) {
      await soon(band).toBe('left only · 1 kHz');
      const seen = await watch();
      const silence = async (): Promise<string[]> =>
        (await seen.said()).filter((one) => /^(Nothing comes from this input|The sound input has stopped)/.test(one));
      await passOf(async () => {
        await card.control('suspend-source', SOURCE, '1');
        await soon(async () => (await silence()).length).toBeGreaterThan(0);
        seconds = Number(/for ([\d.]+) s/.exec((await silence())[0])?.[1]);
      });
      await card.control('suspend-source', SOURCE, '0');
    }
    expect(seconds).toBeLessThan(1);
    await soon(band).toBe('left only · 1 kHz');
    // unplugged, the browser gets exact zeros and no event
    await passOf(async () => {
      await card.unplug();
      await soon(() => verdicts()).toContain('Nothing comes from this input');
    });
    playing.stop();
    await stop();
    expect(bench.errors).toEqual([]);
  });
});

describe('at 96 kHz', () => {
  beforeAll(() => begin(96_000));
  afterAll(end);

  test('another rate than the one chosen is refused', async () => {
    await page.getByText('Listen live figures while the record plays').click();
    await page.getByLabel('Sample rate').selectOption('48000');
    await listenButton().click();
    await page.getByText('The browser gives this input at 96000 Hz, not at the 48000 Hz that was chosen.').waitFor();
  });

  test('the tilt is that of the file; a page that stalls for two seconds loses no block', tiltIsThatOfTheFile);

  test('what is wrong is said: too low, mono, clipped; left alone leaves right at its floor, one sample moves the peak', async () => {
    await listen();
    const seen = await watch();
    const pass = await passOf(() => card.play(soundFile(join(folder, 'faults.wav'), 18, faultsAt, rate)).over, 6);
    const said = (await seen.said()).join('\n');
    expect(said).toMatch(/Too low: the peak is −(39|40)\.\d dBFS\. Turn the gain up by (29|30) dB\./);
    expect(said).toMatch(/Good level: the peak is −(10|6)\.\d dBFS\./);
    expect(said).toContain('Stereo: left and right differ');
    expect(said).toContain('Right is a copy of left: the input is mono or summed.');
    expect(said).toContain('Clipping: turn the gain down by 6 dB');
    const levels = await seen.levels();
    // 16 bits are what this browser hands over: one step is −90.3 dBFS
    expect(levels.some((one) => /^−10\.[45] dB (–|−90\.3 dB)$/.test(one))).toBe(true);
    expect(levels.some((one) => /^−10\.[45] dB −6\.0 dB$/.test(one))).toBe(true);
    // frames that vanish with no gap, no zeros and no event: 1000 at 96 kHz turn 1 kHz by 10.42 cycles
    const { document } = await bench.ask('GET', `/api/jobs/${bench.demo}/captures/${pass.id}`);
    const jumps: { startS: number; values: { degrees: number; plusMinus: number } }[] = document.problems.filter(
      ({ code }: { code: string }) => code === 'phase-jump',
    );
    // the machine may lose more by itself, of any angle: each place is told once
    const isThat = ({ degrees, plusMinus }: (typeof jumps)[0]['values']): boolean =>
      plusMinus < 3 && Math.abs(degrees - 150) <= 2 * plusMinus;
    expect(jumps.some(({ values }) => isThat(values))).toBe(true);
    expect(jumps.slice(1).every(({ startS }, i) => startS > jumps[i].startS + 0.1)).toBe(true);
    await stop();
  });

  test('a sound server that dies ends the listening with a sentence, and what was heard is kept', async () => {
    await listen();
    card.play(longTone());
    await soon(band).toBe('left only · 1 kHz');
    await passOf(async () => {
      await card.kill();
      await page.getByText('What was heard is kept.').waitFor();
    });
    await soon(() => listenButton().isVisible()).toBe(true);
    await listenButton().click();
    await page.getByText('This sound input is not there: connect it, then choose it again.').waitFor();
    expect(bench.errors).toEqual([]);
  });
});
