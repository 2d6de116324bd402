// Prints the lines of production code by folder, beside those of the commit that scripts/houseLines.json names. `--write FILE`
// writes them instead. Tests and what only tests use are not counted.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const COUNTED = /\.(ts|tsx|css)$/;
const OF_TESTS = /\.(test|fixture)\.tsx?$/;

/** Folders below src, and those below src/core and src/web one by one. */
function folderOf(path) {
  const parts = path.split('/');
  return ['core', 'web'].includes(parts[0]) && parts.length > 2 ? `${parts[0]}/${parts[1]}` : parts[0];
}

function count() {
  const lines = {};
  for (const entry of readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !COUNTED.test(entry.name) || OF_TESTS.test(entry.name)) continue;
    const file = join(entry.parentPath ?? entry.path, entry.name);
    const folder = folderOf(file.slice(join(root, 'src').length + 1));
    lines[folder] = (lines[folder] ?? 0) + readFileSync(file, 'utf8').split('\n').length - 1;
  }
  return lines;
}

const now = count();
const at = process.argv.indexOf('--write');
if (at > 0) {
  const [file, commit] = process.argv.slice(at + 1);
  const sorted = Object.fromEntries(Object.entries(now).sort(([a], [b]) => a.localeCompare(b)));
  writeFileSync(file, `${JSON.stringify({ commit, lines: sorted }, null, 2)}\n`);
} else {
  const before = JSON.parse(readFileSync(join(root, 'scripts', 'houseLines.json'), 'utf8'));
  const sum = (lines) => Object.values(lines).reduce((a, b) => a + b, 0);
  const row = (name, was, is) => {
    const change = is - was;
    const sign = change > 0 ? '+' : change < 0 ? '−' : ' ';
    console.log(
      `${name.padEnd(22)}${String(was).padStart(8)}${String(is).padStart(8)}${`${sign}${Math.abs(change)}`.padStart(8)}`,
    );
  };
  console.log(`${'lines of code'.padEnd(22)}${before.commit.padStart(8)}${'now'.padStart(8)}`);
  for (const folder of [...new Set([...Object.keys(before.lines), ...Object.keys(now)])].sort()) {
    row(folder, before.lines[folder] ?? 0, now[folder] ?? 0);
  }
  row('all', sum(before.lines), sum(now));
}
