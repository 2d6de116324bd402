// Packs the program as users get it and installs the pack into an empty folder; prints where the program lies.
// SQLite's compiled part is taken from here, so that nothing is compiled twice.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const npm = (args, cwd) => execFileSync('npm', args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });

/** @returns folder that holds the pack and `node_modules` with the program in it */
export function installPacked() {
  const folder = mkdtempSync(join(tmpdir(), 'platterside-packed-'));
  const [{ filename }] = JSON.parse(npm(['pack', '--ignore-scripts', '--json', '--pack-destination', folder], root));
  writeFileSync(join(folder, 'package.json'), '{"private": true}\n');
  npm(
    ['install', '--ignore-scripts', '--prefer-offline', '--no-audit', '--no-fund', '--loglevel=error', `./${filename}`],
    folder,
  );
  const sqlite = join('node_modules', 'better-sqlite3', 'build');
  cpSync(join(root, sqlite), join(folder, sqlite), { recursive: true });
  return folder;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) console.log(installPacked());
