// Runs a program of the sources, bundled for the time of its run; packages are found beside the repository's own.
import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** How sources become a program of this repository's own packages. */
export const asProgram = {
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  logLevel: 'silent',
};

/** @returns path of the bundle; whoever asks removes it */
export async function bundled(entry) {
  const outfile = join(root, '.tmp', `${basename(entry, '.ts')}-${process.pid}.mjs`);
  await build({ ...asProgram, entryPoints: [join(root, entry)], outfile });
  return outfile;
}

/** @returns what it printed @throws Error where it ended badly */
export async function runBundledText(entry, args) {
  const program = await bundled(entry);
  try {
    return await new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
      let said = '';
      child.stdout.on('data', (text) => {
        said += text;
      });
      child.on('error', reject);
      child.on('close', (code) => (code === 0 ? resolve(said) : reject(new Error(`${entry} ended with ${code}`))));
    });
  } finally {
    rmSync(program, { force: true });
  }
}

/** @returns its exit status */
export async function runBundled(entry, args) {
  const program = await bundled(entry);
  try {
    return await new Promise((resolve, reject) => {
      const child = spawn(process.execPath, [program, ...args], { stdio: 'inherit' });
      child.on('error', reject);
      child.on('close', (code) => resolve(code ?? 1));
    });
  } finally {
    rmSync(program, { force: true });
  }
}
