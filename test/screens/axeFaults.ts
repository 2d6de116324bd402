/** Serious and critical findings of axe on a page, as lines. The page's context must have been opened with `bypassCSP`. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

export async function axeFaults(page: Page): Promise<string[]> {
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
export const overflowOf = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
