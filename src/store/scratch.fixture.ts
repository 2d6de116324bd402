/** For tests: a folder that goes away, a store with times and ids that can be foretold, and a second process. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Found } from './answers.ts';
import type { Origin } from './transaction.ts';

export function scratchFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'platterside-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

/** A minute passes with every question; ids count up. */
export function countingOrigin(): Origin {
  let minutes = 0;
  let ids = 0;
  return {
    now: () => new Date(Date.UTC(2026, 2, 4, 9, minutes++)).toISOString(),
    newId: () => `id-${++ids}`,
  };
}

export function given<T>(found: Found<T>): T {
  if (found.outcome !== 'found') throw new Error(found.why);
  return found.value;
}

/** Bundles a TypeScript program so that a child process can run it; it finds packages beside the repository's own. */
export async function bundled(source: string, name: string): Promise<string> {
  const root = fileURLToPath(new URL('../../', import.meta.url));
  const outfile = join(root, '.tmp', `${name}-${process.pid}.mjs`);
  await build({
    entryPoints: [join(root, source)],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    logLevel: 'silent',
  });
  return outfile;
}
