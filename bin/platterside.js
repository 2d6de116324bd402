#!/usr/bin/env node
// Runs the built command line; in a fresh checkout it builds the bundle first.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const bundle = join(root, 'dist', 'cli.mjs');
if (existsSync(join(root, 'src', 'cli'))) {
  const { buildCliIfStale } = await import(join(root, 'scripts', 'build-cli.mjs'));
  await buildCliIfStale();
}
await import(bundle);
