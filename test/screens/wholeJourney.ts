// biome-ignore-all lint/performance/useDomNodeTextContent: what is tested is the text as it is seen
/**
 * A whole job by keyboard alone: a new deck, its old cartridge inspected and measured, another one fitted, its force set, turned
 * as advised, handed over; then the customer's report as it comes out of a printer. Every browser that it is told for is driven through the same steps.
 */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FileChooser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fitSteps } from '../../src/core/advise/orderOfWork.ts';
import { apiPaths } from '../../src/core/job/api.ts';
import { type Bench, openBench } from './bench.ts';
import { type BrowserName, printA4 } from './browsers.ts';
import { PATIENCE_MS, settled, soon } from './settled.ts';
import { noLeaks, shortSide } from './shortSide.ts';

const MOST_TABS = 200;

/** Registers the journey's tests in the file that calls this. */
export function wholeJourney(browser: BrowserName): void {
  let bench: Bench;
  let page: Page;
  let job = '';
  const passes: string[] = [];
  // heard of from the start: one that opens before anyone listens is the browser's own, and no other opens while it is there
  const opened: FileChooser[] = [];
  beforeAll(async () => {
    bench = await openBench({ browser });
    for (const [seed, tiltDeg] of [2, -0.9, 0.02].entries()) {
      passes.push((await shortSide(bench.folder, tiltDeg, seed + 1, noLeaks)).path);
    }
    page = await bench.page('/jobs');
    page.on('filechooser', (chooser) => opened.push(chooser));
  });
  afterAll(() => bench?.close());

  const spaced = (text: string): string => text.normalize('NFKC').replace(/\s+/g, ' ').trim();
  const main = async (): Promise<string> => spaced(await page.locator('main').innerText());
  const stored = () => bench.ask('GET', apiPaths.job(job));

  /** What has the focus, as a screen reader would begin to say it. */
  const focused = (): Promise<string> =>
    page.evaluate(() => {
      const here = document.activeElement as HTMLInputElement | null;
      if (here === null) return '';
      const label = here.getAttribute('aria-label') ?? here.labels?.[0]?.innerText ?? here.innerText ?? '';
      return label.replace(/\s+/g, ' ').trim();
    });

  /** Whether nothing that takes the focus comes after what has it. */
  const isLast = (): Promise<boolean> =>
    page.evaluate(() => {
      const all = [
        ...document.querySelectorAll<HTMLElement>('a[href],button,input,select,textarea,summary,[tabindex]'),
      ];
      const open = all.filter((one) => one.tabIndex >= 0 && one.checkVisibility() && !one.matches(':disabled'));
      return open.at(-1) === document.activeElement;
    });

  /** Tab until the control has the focus; back again from the end, where the keyboard would leave the page for the browser's own bars. */
  async function reach(name: RegExp): Promise<void> {
    await settled(page);
    const passed: string[] = [];
    let key = 'Tab';
    for (let i = 0; i < MOST_TABS; i++) {
      const here = await focused();
      if (name.test(here)) return;
      passed.push(here);
      if (here !== '' && (await isLast())) key = 'Shift+Tab';
      await page.keyboard.press(key);
    }
    throw new Error(
      `Tab never came to ${name}: ${passed
        .map((one) => one.slice(0, 30))
        .slice(0, 60)
        .join(' | ')}`,
    );
  }
  async function press(name: RegExp): Promise<void> {
    await reach(name);
    await page.keyboard.press('Enter');
    await settled(page);
  }
  async function type(name: RegExp, text: string): Promise<void> {
    await reach(name);
    await page.keyboard.press('Control+A');
    await page.keyboard.type(text);
  }
  /** A busy machine may draw the page anew between the focus and the key: the key is pressed again where nothing opened. */
  async function openChooser(): Promise<FileChooser> {
    for (let tries = 1; ; tries++) {
      await reach(/^Pick a recording$/);
      opened.length = 0;
      await page.keyboard.press('Enter');
      for (const until = Date.now() + PATIENCE_MS / 4; opened.length === 0 && Date.now() < until; )
        await new Promise((resolve) => setTimeout(resolve, 50));
      if (opened.length > 0) return opened[0];
      if (tries === 3) throw new Error(`no file chooser opened; the focus is on ${await focused()}`);
    }
  }
  async function pickRecording(place: number): Promise<void> {
    const before = (await stored()).captures.length;
    await (await openChooser()).setFiles(passes[place]);
    await soon(async () => (await stored()).captures.length).toBe(before + 1);
    await settled(page);
  }
  /**
   * Presses what leads to a station, again where a key got lost, until the page stands there. What the page itself says against it is
   * no lost key: it fails the test, in the page's words.
   */
  async function lead(name: RegExp, station: string): Promise<void> {
    const isThere = (): boolean => new URL(page.url()).pathname.endsWith(`/${station}`);
    for (let tries = 1; !isThere(); tries++) {
      const said = (await page.getByRole('alert').allInnerTexts()).join(' ');
      if (said !== '' || tries > 3) throw new Error(`${name} led to no ${station}. ${said} ${await main()}`);
      await press(name).catch((lost) => {
        if (!isThere()) throw lost;
      });
      const until = Date.now() + PATIENCE_MS / 4;
      while (!isThere() && Date.now() < until) await new Promise((resolve) => setTimeout(resolve, 50));
    }
    await settled(page);
  }

  test('a new deck comes in, is inspected item by item and measured as it came', {
    timeout: 2 * PATIENCE_MS,
  }, async () => {
    await type(/^Deck$/, 'a deck that came in');
    await lead(/^Begin$/, 'intake');
    job = page.url().split('/').at(-2) as string;
    await reach(/^Pass$/);
    await page.keyboard.press('Enter');
    await press(/^Fault$/);
    await soon(focused).toBe('What is wrong');
    await page.keyboard.type('bent a little');
    await press(/^Next item$/);
    for (let i = 3; i <= 7; i++) await press(/^Pass$/);
    await soon(main).toContain('6 of 7 pass, 1 fault');
    await type(/^Cartridge$/, 'the old one');
    await pickRecording(0);
    await soon(main).toContain('As it came: pass 1.wav');
    await lead(/^Go on to Match$/, 'match');
  });

  test('another cartridge is picked and fitted; the page leads on', { timeout: 2 * PATIENCE_MS }, async () => {
    await press(/^Pick an arm$/);
    await soon(focused).toBe('Arm');
    await page.keyboard.type('bench arm, nine');
    // the arm was there when the deck was measured
    await press(/^On the deck all along$/);
    await reach(/^Cartridge$/);
    await page.keyboard.type('bench moving m');
    await page.getByRole('region', { name: /fitted, or only looked at\?$/ }).waitFor();
    await type(/^Hours on its stylus/, '0');
    await press(/^Fitted now$/);
    await soon(async () => (await stored()).fittings.length).toBe(1);
    await lead(/^Match is done → Fit$/, 'fit');
    for (const _ of fitSteps) await press(/^Done: next step$/);
    await soon(main).toContain(`All ${fitSteps.length} steps are done`);
    await press(/^Undo the last step$/);
    await soon(main).toContain(`Step ${fitSteps.length} of ${fitSteps.length}`);
    await press(/^Done: next step$/);
    await lead(/^Fit is done → Weigh$/, 'weigh');
  });

  test('the force is weighed and set, taken back, and set again', { timeout: 2 * PATIENCE_MS }, async () => {
    await press(/^Weigh it: type what the gauge shows$/);
    await soon(focused).toMatch(/^Gauge shows/);
    await page.keyboard.type('1.73');
    for (const again of [false, true]) {
      // taken back, the reading is there again
      await press(/^The force is set$/);
      await soon(async () => (await stored()).stations.weigh.data.sets?.length).toBe(1);
      if (again) break;
      await press(/^Undo setting the force$/);
      await soon(async () => (await stored()).stations.weigh.data.sets).toEqual([]);
    }
    await lead(/^On to Place$/, 'place');
    await lead(/^Place is done → Height$/, 'height');
    await lead(/^Height is done → Tilt$/, 'tilt');
  });

  test('it is turned as its own recording says, heard again, and handed over', {
    timeout: 3 * PATIENCE_MS,
  }, async () => {
    await soon(main).not.toMatch(/Turn the cartridge/);
    await pickRecording(1);
    await soon(main).toMatch(/0\.9\d?\s*±?.*°/);
    await press(/^I turned the headshell$/);
    await soon(main).toContain('Turned. Record the next pass and drop it here.');
    await pickRecording(2);
    await soon(main).toContain('Pass 1 said, pass 2 measured');
    await lead(/^Go on to Run$/, 'run');
    await lead(/^Run is done → Hand over$/, 'hand-over');
    await press(/^Hand over is done$/);
    await soon(async () => (await stored()).stations['hand-over'].status).toBe('done');
  });

  test('the printed report speaks of the cartridge on the arm, on one page', async () => {
    const sheet = await (await bench.context()).newPage();
    await sheet.goto(bench.address + apiPaths.report(job, 'customer'));
    const file = join(bench.folder, 'journey.pdf');
    writeFileSync(file, await printA4(sheet, browser));
    await sheet.context().close();
    const pages = execFileSync('pdftotext', ['-raw', file, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
    expect(pages).toHaveLength(1);
    const text = spaced(pages[0]);
    expect(text).toContain('a deck that came in');
    expect(text).toMatch(/Before: pass 1\.wav, [-0-9 :]+, as received/);
    expect(text).toMatch(/After: pass 3\.wav, [-0-9 :]+, since the cartridge bench moving magnet was fitted/);
    expect(text).toContain('Cartridge fitted: bench moving magnet (before: the old one)');
    expect(text).not.toContain('Not final');
  });

  test('the page met no error of its own', () => {
    expect(bench.errors).toEqual([]);
  });
}
