// Bundles the command line into dist/cli.mjs with esbuild, when any source is newer than the bundle. Every command is a file
// of its own that is loaded when it is asked for; dist/sideThread.mjs is the second thread of `measure`, dist/batchThread.mjs
// one of those of `batch work`.
import { readdirSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const dist = join(root, 'dist');
const out = join(dist, 'cli.mjs');
const PART = 'part-';
/** a program that is still running may yet ask for its own parts, in milliseconds */
const KEPT_MS = 3_600_000;

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
    entryPoints: {
      cli: join(root, 'src', 'cli', 'main.ts'),
      sideThread: join(root, 'src', 'cli', 'sideThread.ts'),
      batchThread: join(root, 'src', 'cli', 'batchThread.ts'),
    },
    outdir: dist,
    outExtension: { '.js': '.mjs' },
    splitting: true,
    chunkNames: `${PART}[name]-[hash]`,
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
  removeOldParts();
}

function removeOldParts() {
  for (const name of readdirSync(dist)) {
    const file = join(dist, name);
    const age = Date.now() - (statSync(file, { throwIfNoEntry: false })?.mtimeMs ?? 0);
    if (name.startsWith(PART) && age > KEPT_MS) rmSync(file, { force: true });
  }
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
