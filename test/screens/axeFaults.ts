/** Serious and critical findings of axe on a page, as lines. The page's context must have been opened with `bypassCSP`. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { BrowserContext, Page } from 'playwright-core';
import { settled } from './settled.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

export async function axeFaults(page: Page): Promise<string[]> {
  await settled(page);
  return axeFaultsNow(page);
}

/** The same of a page as it is, where no bench page counts what it waits for. */
export async function axeFaultsNow(page: Page): Promise<string[]> {
  const violations = await page.evaluate(async (source) => {
    const module = { exports: {} as { run(context: Document, options: object): Promise<{ violations: unknown[] }> } };
    new Function('module', 'exports', source)(module, module.exports);
    const { violations: found } = await module.exports.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'],
    });
    return found;
  }, axe);
  return (violations as Violation[])
    .filter((violation) => violation.impact === 'serious' || violation.impact === 'critical')
    .flatMap((violation) =>
      violation.nodes.map((node) => `${violation.id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`),
    );
}

/** How far the page runs out of its window to the right, px. */
export async function overflowOf(page: Page): Promise<number> {
  await settled(page);
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
}

/** Opens everything that can be folded away. */
export async function unfold(page: Page): Promise<void> {
  await settled(page);
  await page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
  await settled(page);
}

/** Every page of this context opens its folds as they come, once: what is shut by hand stays shut. */
export async function openFolds(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const opened = new WeakSet<Element>();
    new MutationObserver(() => {
      for (const fold of document.querySelectorAll<HTMLDetailsElement>('details.fold')) {
        if (opened.has(fold)) continue;
        opened.add(fold);
        fold.open = true;
      }
    }).observe(document, { childList: true, subtree: true });
  });
}
