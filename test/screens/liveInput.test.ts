// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** What is wrong with an input is said while it is heard: mono, clipped, dead, samples that vanish; both ways of the samples. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { fakeDevice, soundFile } from './liveSides.ts';
import { settled, soon } from './settled.ts';

let folder: string;
let path: string;
let bench: Bench;
let page: Page;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-input-'));
  path = join(folder, 'input.wav');
  bench = await openBench({ flags: fakeDevice(path) });
  page = await bench.page(bench.station('tilt'));
});
afterAll(async () => {
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

const sine = (t: number, hz = 1000): number => Math.sin(2 * Math.PI * hz * t);
/** groove noise that is the same in every run */
const hiss = (n: number): number => 1e-3 * Math.sin(n * n * 0.7);

async function listen(on: Page = page): Promise<void> {
  if (!(await on.getByRole('button', { name: 'Listen', exact: true }).isVisible())) {
    await on.getByText('Listen live figures while the record plays').click();
  }
  await on.getByRole('button', { name: 'Listen', exact: true }).click();
  await on.getByText('44100 Hz').waitFor();
}
/** Until what was heard is stored: none of it may come in the middle of the next test. */
async function stop(on: Page = page): Promise<void> {
  await on.getByRole('button', { name: 'Stop listening' }).click();
  await soon(() => on.getByRole('button', { name: 'Stop listening' }).count()).toBe(0);
  await settled(on);
}
const verdicts = (on: Page = page): Promise<string> => on.locator('.live-verdicts').innerText();

test('a mono source is called mono though it has two channels', async () => {
  soundFile(path, 60, (t) => [0.3 * sine(t), 0.3 * sine(t)]);
  await listen();
  await soon(() => verdicts()).toContain('Right is a copy of left');
  await stop();
});

test('clipping is said, with what to do', async () => {
  const clip = (x: number): number => Math.max(-1, Math.min(1, x));
  soundFile(path, 60, (t, n) => [clip(1.4 * sine(t)), 0.2 * sine(t) + hiss(n)]);
  await listen();
  await soon(() => verdicts()).toContain('Clipping: turn the gain down by 6 dB');
  await stop();
});

test('a source that dies in silence is said within a second', async () => {
  soundFile(path, 60, (t, n) => (t < 8 ? [0.3 * sine(t), 0.01 * sine(t) + hiss(n)] : [0, 0]));
  await page.evaluate(() => {
    const first = globalThis as { deadAt?: string };
    new MutationObserver(() => {
      const said = document.querySelector('[data-code="input-dead"]')?.textContent;
      if (said && first.deadAt === undefined) first.deadAt = said;
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  const told = (): Promise<string> => page.evaluate(() => (globalThis as { deadAt?: string }).deadAt ?? '');
  let seconds = Number.POSITIVE_INFINITY;
  // a machine with much else to do can make it late, never early
  for (let tries = 1; tries <= 4 && !(seconds < 1); tries++) {
    await page.evaluate(() => {
      (globalThis as { deadAt?: string }).deadAt = undefined;
    });
    await listen();
    await soon(told).toContain('Nothing comes from this input');
    seconds = Number(/for ([\d.]+) s/.exec(await told())?.[1]);
    await stop();
  }
  expect(seconds).toBeLessThan(1);
});

test('samples that vanish with no gap, no zeros and no event are found by the phase of the tone', async () => {
  const lost = 1000;
  soundFile(path, 60, (t, n) => {
    // the browser plays from when it opens the file: a slow start may cost the first seconds
    if (t > 17) return [0, 0];
    const at = t + (t >= 12 ? lost / 44_100 : 0);
    return [0.3 * sine(at) + hiss(n), 0.01 * sine(at) + hiss(n + 5)];
  });
  const known = new Set((await bench.stored()).captures.map(({ id: one }: { id: string }) => one));
  await listen();
  await soon(() => page.locator('[data-live-band]').getAttribute('data-live-band')).toBe('left only · 1 kHz');
  // a short pass of an earlier input may be stored meanwhile
  const pass = async () =>
    (await bench.stored()).captures.find(
      (one: { id: string; durationS: number }) => !known.has(one.id) && one.durationS > 8,
    );
  await soon(async () => (await pass()) !== undefined).toBe(true);
  await stop();
  const { id, document } = await bench.ask('GET', `/api/jobs/${bench.demo}/captures/${(await pass()).id}`);
  expect(id).not.toBe('');
  expect(document.capture.live).toBe(true);
  const jumps = document.problems.filter(({ code }: { code: string }) => code === 'phase-jump');
  // 1000 samples at 44.1 kHz turn 1 kHz by 22.6757 cycles: 116.7° short of a whole one. The tone plays on for 5 s after them; a
  // machine with much else to do may lose more by itself, elsewhere
  const endS = Math.max(
    ...document.bands
      .filter(({ signal }: { signal: string }) => signal === 'tone')
      .map((band: { endS: number }) => band.endS),
  );
  const there = jumps.filter(({ startS }: { startS: number }) => Math.abs(startS - (endS - 5)) < 0.2);
  expect(there).toHaveLength(1);
  const { degrees, plusMinus } = there[0].values;
  // what the machine loses near by widens it; twice what holds 95 in a hundred, so that one of twenty runs does not fail
  expect(plusMinus).toBeLessThan(3);
  expect(Math.abs(degrees - 360 * ((1000 * lost) / 44_100 - 23))).toBeLessThanOrEqual(2 * plusMinus);
});

test('without shared memory blocks go round: one channel leaves the other at the floor, one sample moves the peak', async () => {
  const context = await bench.context();
  await context.addInitScript(() => {
    Object.defineProperty(globalThis, 'crossOriginIsolated', { get: () => false });
  });
  const other = await context.newPage();
  await other.goto(bench.address + bench.station('tilt'));
  await settled(other);
  soundFile(path, 30, (t, n) => [0.3 * sine(t), n > 0 && n % 22_050 === 0 ? 0.5 : 0]);
  await listen(other);
  await other.evaluate(() => {
    const seen = globalThis as { right?: string[] };
    seen.right = [];
    new MutationObserver(() => {
      const [left, right] = [...document.querySelectorAll('.level-figure')].map((one) => one.textContent ?? '');
      if (left?.startsWith('−10.5')) seen.right?.push(right);
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
  const seen = (): Promise<string[]> =>
    other.evaluate(() => [...new Set((globalThis as { right?: string[] }).right ?? [])].sort());
  await soon(async () => (await seen()).length).toBe(2);
  expect(await seen()).toEqual(['–', '−6.0 dB'].sort());
  expect(await verdicts(other)).not.toContain('lost on the way');
  await stop(other);
  await context.close();
});

test('an input that is taken away is survived, and what was heard of the pass is kept', async () => {
  const context = await bench.context();
  await context.addInitScript(() => {
    // an empty page has none
    const media = navigator.mediaDevices as MediaDevices | undefined;
    if (media === undefined) return;
    const plain = media.getUserMedia.bind(media);
    media.getUserMedia = async (asked) => {
      const stream = await plain(asked);
      (globalThis as { track?: MediaStreamTrack }).track = stream.getAudioTracks()[0];
      return stream;
    };
  });
  const other = await context.newPage();
  await other.goto(bench.address + bench.station('tilt'));
  await settled(other);
  soundFile(path, 60, (t, n) => [0.3 * sine(t) + hiss(n), 0.01 * sine(t) + hiss(n + 5)]);
  const before = (await bench.stored()).captures.length;
  await listen(other);
  await soon(() => other.locator('.tilt-guide').isVisible()).toBe(true);
  await soon(() => other.locator('[data-live-band]').getAttribute('data-live-band')).toBe('left only · 1 kHz');
  await other.evaluate(() => (globalThis as { track?: MediaStreamTrack }).track?.dispatchEvent(new Event('ended')));
  await other.getByText('The sound input was unplugged or switched off. What was heard is kept.').waitFor();
  await soon(async () => (await bench.stored()).captures.length).toBe(before + 1);
  await other.getByRole('button', { name: 'Listen', exact: true }).waitFor();
  await context.close();
  expect(bench.errors).toEqual([]);
});
