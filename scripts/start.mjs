// `npm start`: installs, builds, serves the page on loopback and opens it where there is a desktop.
import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from './install.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
try {
  ensureInstalled(root);
  const { buildAll } = await import('./build.mjs');
  await buildAll();
} catch (error) {
  console.error(`platterside: ${error instanceof Error ? error.message : error}`);
  process.exit(1);
}
const child = spawn(process.execPath, [join(root, 'dist', 'cli.mjs'), 'serve', '--open', ...process.argv.slice(2)], {
  stdio: 'inherit',
});
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
child.on('exit', (code) => process.exit(code ?? 0));
