/**
 * The browsers that drive the page in tests: the distribution's own, as a person would have them.
 *
 * Firefox is spoken to by WebDriver BiDi, the open protocol that its own builds understand.
 */
import { type Browser, chromium, firefox, type Page } from 'playwright-core';
// @ts-expect-error a script without types
import { findChromium } from '../../scripts/chromium.mjs';
// @ts-expect-error a script without types
import { findFirefox } from '../../scripts/firefox.mjs';
import { PATIENCE_MS } from './settled.ts';

export type BrowserName = 'chromium' | 'firefox';

const CHROMIUM_FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface LaunchOptions {
  readonly flags?: readonly string[];
  readonly env?: NodeJS.ProcessEnv;
}

const missing = (name: string, debian: string, variable: string): Error =>
  new Error(`no ${name} here: run 'sudo apt-get install ${debian}', or set ${variable} to one's path`);

async function launchChromium({ flags = [], env }: LaunchOptions): Promise<Browser> {
  const executablePath: string | null = findChromium();
  if (executablePath === null) throw missing('Chromium', 'chromium', 'PLATTERSIDE_CHROMIUM');
  return chromium.launch({
    executablePath,
    args: [...CHROMIUM_FLAGS, ...flags],
    env: { ...process.env, ...env } as Record<string, string>,
    timeout: 2 * PATIENCE_MS,
  });
}

interface Session {
  send(method: string, parameters: unknown): Promise<unknown>;
}

async function launchFirefox(): Promise<Browser> {
  const executablePath: string | null = findFirefox();
  if (executablePath === null) throw missing('Firefox', 'firefox-esr', 'PLATTERSIDE_FIREFOX');
  const browser = await firefox.launch({
    channel: 'moz-firefox',
    executablePath,
    headless: true,
    timeout: 2 * PATIENCE_MS,
  });
  // the driver always sets media features, a command that released builds do not know: leave it out
  const { _browserSession: session } = (
    browser as unknown as { _connection: { toImpl(of: Browser): { _browserSession: Session } } }
  )._connection.toImpl(browser);
  const kind = Object.getPrototypeOf(session) as Session;
  const send = kind.send;
  kind.send = function (method, parameters) {
    return method === 'emulation.setMediaFeaturesOverride' ? Promise.resolve({}) : send.call(this, method, parameters);
  };
  return browser;
}

/** @throws Error that says how to get the browser where there is none */
export const launch = (name: BrowserName, options: LaunchOptions): Promise<Browser> =>
  name === 'firefox' ? launchFirefox() : launchChromium(options);

/** One A4 print as PDF. */
export const printA4 = (page: Page, name: BrowserName): Promise<Buffer> => {
  // the driver hands Firefox inches as centimetres
  const unit = name === 'firefox' ? 2.54 : 1;
  return page.pdf({ width: `${21 * unit}cm`, height: `${29.7 * unit}cm` });
};
