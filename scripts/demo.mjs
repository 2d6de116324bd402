// Writes the demo material into demo/: the house test side as "bench deck 3" plays it, its truth, and its record sheet.
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const demo = join(root, 'demo');
mkdirSync(demo, { recursive: true });
const sheet = join(demo, 'side.record.json');
copyFileSync(join(root, 'examples', 'house-test-side.record.json'), sheet);
const run = spawnSync(
  process.execPath,
  [
    join(root, 'bin', 'platterside.js'),
    'simulate',
    ...['--deck', join(root, 'examples', 'bench-deck-3.deck.json')],
    ...['--record', sheet],
    ...['--seed', '3', '--rate', '48000', '--bits', '24'],
    ...['--truth', join(demo, 'side.truth.json')],
    ...['-o', join(demo, 'side.wav'), '--replace'],
  ],
  { stdio: 'inherit' },
);
process.exit(run.status ?? 1);
