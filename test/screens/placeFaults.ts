/** Serious and critical findings of axe on a page, as lines. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  readonly id: string;
  readonly impact: string | null;
  readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
}

/** The page must have been opened with `bypassCSP`. */
export async function seriousFaults(page: Page): Promise<string[]> {
  const violations = await page.evaluate(async (source) => {
    const module = { exports: {} as { run(context: Document, options: object): Promise<{ violations: unknown[] }> } };
    new Function('module', 'exports', source)(module, module.exports);
    const { violations: found } = await module.exports.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice'],
    });
    return found;
  }, axe);
  return (violations as Violation[])
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(' ')} ${node.failureSummary ?? ''}`));
}
