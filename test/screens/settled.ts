// biome-ignore-all lint/performance/useDomNodeTextContent: what counts is the text as it is seen
/**
 * Reading a page only when it can be read. A browser under load, a slow answer or a late paint must change no test's
 * outcome: a page is read after it has come to rest (`settled`), or again and again until it says so (`soon`).
 */
import type { BrowserContext, Page } from 'playwright-core';
import { expect } from 'vitest';

/** How long anything may take on a machine that has much else to do, ms. */
export const PATIENCE_MS = 40_000;

/** An expectation that is tried again until it holds: `await soon(() => page.title()).toBe('Tilt')`. */
export const soon = <T>(read: () => T | Promise<T>, about?: string) =>
  expect.poll(read, { timeout: PATIENCE_MS, interval: 50, ...(about === undefined ? {} : { message: about }) });

/** Holds back what the server answers to these addresses, as it was when it was asked; `release` lets it through. */
export async function holdBack(page: Page, addresses: RegExp): Promise<{ release(): Promise<void> }> {
  let release = (): void => undefined;
  const released = new Promise<void>((resolve) => {
    release = resolve;
  });
  await page.route(addresses, async (route) => {
    const response = await route.fetch();
    await released;
    await route.fulfill({ response });
  });
  return {
    async release() {
      release();
      await page.unrouteAll({ behavior: 'wait' });
    },
  };
}

declare global {
  // answers of the server that a page still waits for
  var asking: number | undefined;
}

/** From now on every page of this context counts what it has asked of its server and not read to the end. */
export async function countAsking(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const plain = globalThis.fetch;
    globalThis.asking = 0;
    const done = (): void => {
      globalThis.asking = (globalThis.asking ?? 1) - 1;
    };
    globalThis.fetch = async (...request) => {
      globalThis.asking = (globalThis.asking ?? 0) + 1;
      try {
        const answer = await plain(...request);
        answer.clone().text().then(done, done);
        return answer;
      } catch (error) {
        done();
        throw error;
      }
    };
  });
}

/**
 * Waits until the page is drawn and at rest: its heading stands, nothing is being opened or looked for, no answer is
 * waited for, nothing typed is unsaved, no font or transition is under way, and all of it still holds two frames later.
 */
export async function settled(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 2 }).first().waitFor();
  await page.evaluate(async (patience) => {
    const frame = (): Promise<unknown> => new Promise((resolve) => requestAnimationFrame(resolve));
    const busy = (): string | null => {
      if (document.fonts.status !== 'loaded') return 'a font is loading';
      if (globalThis.asking !== 0) return `${globalThis.asking} answers of the server are waited for`;
      const moving = document.getAnimations().filter((one) => one.playState === 'running').length;
      if (moving > 0) return `${moving} transitions are under way`;
      const text = document.body.innerText;
      return /^(Opening\b.*…|Looking…|.*Not saved yet…)$/m.exec(text)?.[0] ?? null;
    };
    const from = performance.now();
    let still = 0;
    while (still < 3) {
      const why = busy();
      still = why === null ? still + 1 : 0;
      if (why !== null && performance.now() - from > patience) throw new Error(`the page does not settle: ${why}`);
      await frame();
      await new Promise((resolve) => setTimeout(resolve));
    }
  }, PATIENCE_MS);
}
