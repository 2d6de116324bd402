// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/** The guide at Tilt for hands that are busy: figures that fill the screen, a pitch that falls, and silence where it could be measured. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Bench, openBench } from './bench.ts';
import { fakeDevice, soundFile } from './liveSides.ts';
import { settled, soon } from './settled.ts';

let folder: string;
let bench: Bench;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'platterside-guide-'));
  const path = join(folder, 'tone.wav');
  soundFile(path, 60, (t, n) => [0.3 * Math.sin(2 * Math.PI * 1000 * t), 1e-3 * Math.sin(n * n * 0.7)]);
  bench = await openBench({ flags: fakeDevice(path) });
});
afterAll(async () => {
  await bench?.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Heard {
  pitches: number[];
  sinks: string[];
}

/** A page that notes what its oscillators are tuned to and where its sound goes. */
async function noted(): Promise<Page> {
  const context = await bench.context();
  await context.addInitScript(() => {
    const heard: Heard = { pitches: [], sinks: [] };
    (globalThis as { heard?: Heard }).heard = heard;
    const plainTone = AudioContext.prototype.createOscillator;
    AudioContext.prototype.createOscillator = function (this: AudioContext) {
      const tone = plainTone.call(this);
      const tune = tone.frequency.setTargetAtTime.bind(tone.frequency);
      tone.frequency.setTargetAtTime = (hz: number, at: number, per: number) => {
        heard.pitches.push(hz);
        return tune(hz, at, per);
      };
      return tone;
    };
    const proto = AudioContext.prototype as AudioContext & { setSinkId(id: string): Promise<void> };
    const plainSink = proto.setSinkId;
    proto.setSinkId = function (this: AudioContext, id: string) {
      heard.sinks.push(id);
      return plainSink.call(this, id);
    };
  });
  const page = await context.newPage();
  await page.goto(bench.address + bench.station('tilt'));
  await settled(page);
  return page;
}
const heardBy = (page: Page): Promise<Heard> =>
  page.evaluate(() => (globalThis as { heard?: Heard }).heard ?? { pitches: [], sinks: [] });
const choose = (page: Page, index: number) => page.getByLabel('Tone through').selectOption({ index });

test('the pitch falls as the tilt nears its aim, and the figures fill the screen', async () => {
  const page = await noted();
  await page.getByText('Practice deck, live').click();
  await page.getByRole('button', { name: 'Play it live' }).click();
  await page.getByLabel('Eight times as fast as a real deck').check();
  await page.getByText('Guide by ear').click();
  await soon(() => page.getByLabel('Tone through').locator('option').count()).toBeGreaterThan(1);
  expect((await heardBy(page)).pitches).toEqual([]);
  await choose(page, 1);
  await soon(async () => (await heardBy(page)).pitches.length).toBeGreaterThan(0);
  await soon(() => page.locator('.tilt-guide').getAttribute('data-guide')).toBe('turn');
  // 1.5° off, two octaves over 2°: 220 Hz · 2^1.5
  await soon(async () => Math.abs((await heardBy(page)).pitches.at(-1) ?? 0) - 622).toBeLessThan(20);
  const far = (await heardBy(page)).pitches.at(-1) ?? 0;
  await page.getByRole('slider', { name: 'Tilt' }).fill('0.5');
  await soon(async () => (await heardBy(page)).pitches.at(-1) ?? 999).toBeLessThan(330);
  await page.getByRole('slider', { name: 'Tilt' }).fill('0');
  await soon(async () => (await heardBy(page)).pitches.at(-1) ?? 999).toBeLessThan(240);
  expect(far).toBeGreaterThan(600);
  expect((await heardBy(page)).sinks).toHaveLength(1);

  await page.getByRole('button', { name: 'Fill the screen' }).click();
  await soon(() => page.evaluate(() => document.fullscreenElement?.className ?? '')).toBe('tilt-guide');
  const size = await page.evaluate(() => {
    const box = document.fullscreenElement as HTMLElement;
    const figure = box.querySelector('.figure.big') as HTMLElement;
    return {
      figurePx: Number.parseFloat(getComputedStyle(figure).fontSize),
      height: innerHeight,
      overflow: box.scrollWidth - box.clientWidth,
    };
  });
  // from 3 m a hand's height: at least a quarter of the screen
  expect(size.figurePx / size.height).toBeGreaterThan(0.25);
  expect(size.overflow).toBeLessThanOrEqual(0);
  await page.keyboard.press('Escape');
  await page.evaluate(() => document.exitFullscreen().catch(() => undefined));
  await page.getByRole('button', { name: 'Stop listening' }).click();
  await page.context().close();
});

test('the scope draws new sound at every frame of the screen, freezes, and tells the phase with its ±', async () => {
  const page = await bench.page(bench.station('tilt'));
  await page.getByText('Practice deck, live').click();
  await page.getByRole('button', { name: 'Play it live' }).click();
  await page.getByLabel('Eight times as fast as a real deck').check();
  await page.getByText('Left against right').click();
  /** frames of the screen in a row that had new sound, of so many */
  const fresh = (frames: number): Promise<number> =>
    page.evaluate(async (count) => {
      const canvas = document.querySelector('.scope canvas') as HTMLElement;
      let [inARow, most, last] = [0, 0, canvas.dataset.drawn];
      for (let i = 0; i < count; i++) {
        await new Promise((resolve) => requestAnimationFrame(resolve));
        inARow = canvas.dataset.drawn === last ? 0 : inARow + 1;
        last = canvas.dataset.drawn;
        most = Math.max(most, inARow);
      }
      return most;
    }, frames);
  await soon(() => fresh(30)).toBeGreaterThanOrEqual(15);
  const phase = page.locator('.scope-phase');
  await soon(() => phase.innerText()).toMatch(/^[+−]?\d+(\.\d+)? ± \d+(\.\d+)?°$/);
  // the peaks of left and right stand beside the figure; right is striped
  const bars = await page.evaluate(() => {
    const canvas = document.querySelector('.scope canvas') as HTMLCanvasElement;
    const context = canvas.getContext('2d') as CanvasRenderingContext2D;
    const column = (x: number) =>
      Array.from({ length: 120 }, (_, y) => [...context.getImageData(x, canvas.height - 10 - y, 1, 1).data].join());
    return [297, 323, 338].map((x) => new Set(column(x)).size);
  });
  expect(bars[0]).toBeLessThanOrEqual(2);
  expect(bars[1]).toBeGreaterThanOrEqual(2);
  await page.getByLabel('Freeze').check();
  // one that was under way is still drawn
  await fresh(2);
  expect(await fresh(20)).toBe(0);
  await page.getByLabel('Freeze').uncheck();
  await soon(() => fresh(20)).toBeGreaterThan(5);
  // folded it draws nothing: it would cost a frame of the page 60 times a second
  await page.getByText('Left against right').click();
  await fresh(2);
  expect(await fresh(20)).toBe(0);
  await page.getByRole('button', { name: 'Stop listening' }).click();
  await page.context().close();
});

test('beside a real input it sounds through no output of the same box, nor of one unknown', async () => {
  const page = await noted();
  await page.evaluate(() => {
    const media = navigator.mediaDevices;
    const plain = media.enumerateDevices.bind(media);
    media.enumerateDevices = async () => {
      const devices = await plain();
      const input = devices.find(({ kind }) => kind === 'audioinput');
      const output = (deviceId: string, groupId: string) => ({
        kind: 'audiooutput',
        deviceId,
        groupId,
        label: deviceId,
      });
      return [
        ...devices.filter(({ kind }) => kind !== 'audiooutput'),
        output('same box', input?.groupId ?? ''),
        output('no group', ''),
        output('default', 'other'),
      ] as MediaDeviceInfo[];
    };
  });
  await page.getByText('Listen live figures while the record plays').click();
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByText('44100 Hz').waitFor();
  await page.getByText('Guide by ear').click();
  await soon(() => page.getByLabel('Tone through').locator('option').count()).toBe(4);
  for (const [index, why] of [
    [1, 'The guide would play through the device'],
    [2, 'does not say which device'],
    [3, 'does not say which device'],
  ] as const) {
    await choose(page, index);
    await page.getByText(why).waitFor();
    expect(await page.getByLabel('Tone through').inputValue()).toBe('');
  }
  expect(await heardBy(page)).toEqual({ pitches: [], sinks: [] });
  await page.getByRole('button', { name: 'Stop listening' }).click();
  await page.context().close();
  expect(bench.errors).toEqual([]);
});
