// Bundles the command line into dist/cli.mjs with esbuild, when any source is newer than the bundle.
import { readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const out = join(root, 'dist', 'cli.mjs');

/** Newest modification time below a folder, in milliseconds. */
function newest(folder) {
  let time = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    time = Math.max(time, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs);
  }
  return time;
}

export async function buildCli() {
  const { build } = await import('esbuild');
  await build({
    entryPoints: [join(root, 'src', 'cli', 'main.ts')],
    outfile: out,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    sourcemap: 'linked',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    logLevel: 'warning',
  });
}

export async function buildCliIfStale() {
  let built = 0;
  try {
    built = statSync(out).mtimeMs;
  } catch {
    built = 0;
  }
  if (newest(join(root, 'src')) > built) await buildCli();
}
