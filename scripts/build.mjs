// Builds everything that is run: the command line (esbuild) and the page (Vite), into dist/.
import { readdirSync, statSync, utimesSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildCli, buildCliIfStale } from './build-cli.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const page = join(root, 'dist', 'web', 'index.html');

/** Newest modification time of a file or of everything below a folder, in milliseconds. */
function newest(path) {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return 0;
  if (!found.isDirectory()) return found.mtimeMs;
  return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

export async function buildWeb() {
  const { build } = await import('vite');
  // what is saved while it builds is newer than what was built
  const began = new Date();
  const configFile = join(root, 'vite.config.ts');
  await build({ configFile, logLevel: 'warn' });
  // the second screen has a page of its own, so that nothing of the bench's is served to it
  await build({
    configFile,
    logLevel: 'warn',
    root: join(root, 'src', 'web', 'secondScreen'),
    build: { outDir: join(root, 'dist', 'second-screen'), sourcemap: false },
  });
  utimesSync(page, began, began);
}

/** The page bundles the core and the pages of docs, so both count. */
export async function buildWebIfStale() {
  const built = statSync(page, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  const sources = ['src/web', 'src/core', 'docs', 'vite.config.ts', 'package-lock.json'].map((path) =>
    join(root, path),
  );
  if (Math.max(...sources.map(newest)) > built) await buildWeb();
}

/** Both, where a source is newer than what was built from it. */
export async function buildAll() {
  await buildCliIfStale();
  await buildWebIfStale();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildCli();
  await buildWeb();
}
