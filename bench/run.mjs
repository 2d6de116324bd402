// `npm run bench [-- PART …] [-o FILE.md]`: speed and size as ratios within this one run, each beside its aim. Prints, and writes the table
// to a file where one is named; judges nothing. Parts: answers, side, memory, page, live, store; all of them where none is named.
// `npm run bench -- faults`: bias and spread over every fault.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { buildAll } from '../scripts/build.mjs';
import { ensureInstalled } from '../scripts/install.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const cli = join(root, 'bin', 'platterside.js');
const parts = ['answers', 'side', 'memory', 'page', 'live', 'store'];

/** s of the processor for a GB of memory that no program has used yet: 0.2 to 0.4 on most machines, ten times that on some virtual ones, where all that a browser does shows it. */
function newMemory() {
  const before = process.cpuUsage();
  const memory = Buffer.allocUnsafeSlow(2 ** 28);
  for (let at = 0; at < memory.length; at += 4096) memory[at] = 1;
  const { user, system } = process.cpuUsage(before);
  return ((user + system) / 1e6) * (1e9 / memory.length);
}

/** The table for docs: what it was made of, on what, and what the machine did besides. */
function tableOf(rows, { command, load, memory }) {
  const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root }).stdout.toString().trim();
  const cell = (text) => (text ?? '').replaceAll('|', '\\|');
  return [
    '# Speed and size, measured',
    '',
    `Made by \`${command}\` on ${new Date().toISOString().slice(0, 10)} from ${commit}: Node ${process.versions.node}, ${cpus().length} cores,`,
    `${load} programs waiting for them when it began, ${memory} s of the processor for a GB of new memory. Ratios are within this one run; figures move`,
    'with the machine and with what else it does.',
    '',
    '| what | measured | aim |',
    '| --- | --- | --- |',
    ...rows.map(({ what, value, aim }) => `| ${cell(what)} | ${cell(value)} | ${cell(aim)} |`),
    '',
  ].join('\n');
}

async function measureParts(names, output) {
  const load = loadavg()[0].toFixed(1);
  const memory = newMemory().toFixed(1);
  await buildAll();
  const folder = mkdtempSync(join(tmpdir(), 'platterside-bench-'));
  const rows = [];
  let failed = 0;
  try {
    console.log(
      `Node ${process.versions.node}, ${cpus().length} cores, load ${load}, ${memory} s for a GB of new memory`,
    );
    for (const name of names) {
      const { [name]: part } = await import(`./parts/${name}.mjs`);
      try {
        for await (const row of part({ root, folder, cli })) {
          rows.push(row);
          console.log(`${row.what}: ${row.value}${row.aim === undefined ? '' : ` (aim: ${row.aim})`}`);
        }
      } catch (error) {
        failed++;
        rows.push({ what: name, value: 'broke off: see what was printed' });
        console.error(`${name}: ${error instanceof Error ? error.message : error}`);
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const command = ['npm run bench', ...(names.length === parts.length ? [] : ['--', ...names])].join(' ');
  if (output !== undefined) writeFileSync(output, tableOf(rows, { command, load, memory }));
  return failed;
}

ensureInstalled(root);
if (process.argv[2] === 'faults') {
  sweep(process.argv.slice(3));
} else {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { output: { type: 'string', short: 'o' } },
  });
  const unknown = positionals.filter((name) => !parts.includes(name));
  if (unknown.length > 0) {
    console.error(`bench: no part ${unknown.join(', ')}; the parts are ${parts.join(', ')}, and faults`);
    process.exit(2);
  }
  process.exitCode = (await measureParts(positionals.length === 0 ? parts : positionals, values.output)) === 0 ? 0 : 1;
}

async function sweep(args) {
  const { sweepFaults } = await import('./faults.mjs');
  sweepFaults(args);
}
