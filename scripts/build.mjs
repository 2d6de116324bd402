// Builds the page (Vite) and the command line (esbuild) into dist/.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildCli, buildCliIfStale } from './build-cli.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

export async function buildAll() {
  const { build } = await import('vite');
  await build({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
  await buildCli();
}

/** Both, where a source is newer than what was built from it. */
export async function buildAll() {
  await buildCliIfStale();
  await buildWebIfStale();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildAll();
