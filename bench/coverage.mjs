// `node bench/coverage.mjs [--draws 300] [-o FILE.md] [LOOP[:DRAWS] …]`: how often the stated ± held the truth of the deck, every figure, over many draws.
//
// Runs the loops of test/loops with as many draws as asked for and prints one table, with the date and the commit: what it took, what failed and
// all; what a loop prints is seen as it goes, and the file is written anew after each loop. Hours for everything at 300; single loops by their names. Each loop judges by its own bounds; a loop that failed is named under the table.
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** by file: what its draws are called in the environment, how many figures' sides a draw gives, what it asks */
const LOOPS = {
  deckCoverage: ['CAPTURES', 'tilt, separations, balance, speed: records uncertified, certified and learned'],
  uncertainty: ['CAPTURES', 'the signal alone: channels, speed, wow, once per turn'],
  hole: ['CAPTURES', 'eccentricity, the platter, the deck’s wow: exact kinematics'],
  holeElsewhere: ['CAPTURES', 'the same by a second generator, other arms'],
  soundGeometry: ['SOUND_SEEDS', 'tracking error, vertical angle, overhang, tip radius'],
  resonance: ['RESONANCE_SEEDS', 'arm resonance and Q by sweeps'],
  ringDown: ['RING_DOWN_SEEDS', 'arm resonance by ring-down'],
  noiseSpread: ['STRETCHES', 'chance in rumble and noise'],
  noise: ['NOISE_SEEDS', 'hum, rumble, noise, clicks'],
  response: ['RESPONSE_SEEDS', 'response'],
  shortSpeed: ['DRAWS', 'mean speed of short stretches, over noises and wanders'],
  speedStrip: ['SPEED_SEEDS', 'lines of flutter, rms, drift, drag'],
  skew: ['SKEW_SEEDS', 'skew of the tip'],
  tracking: ['TRACKING_SEEDS', 'tracking limit'],
};

const NAMED = /^(\S.*?)\s+n (\d+)(?:, withheld (\d+))?; (.*)$/;
const number = (text, pattern) => pattern.exec(text)?.[1] ?? '';

/** A loop's lines as rows: figure, draws, inside, error over u, middle ±; a line that is none of them starts a group. */
function rowsOf(output) {
  const rows = [];
  let group = '';
  // biome-ignore lint/suspicious/noControlCharactersInRegex: colours of the runner
  for (const line of output.replace(/\u001b\[[0-9;]*m/g, '').split('\n')) {
    const named = NAMED.exec(line.trim());
    if (named === null) {
      if (/^\d+ captures|^.* (records|sides|s)$|, \d+(\.\d+)? s$/.test(line.trim()))
        group = line.trim().replace(/^\d+ captures, /, '');
      continue;
    }
    const [, figure, n, withheld = '0', rest] = named;
    rows.push({
      figure: group === '' ? figure : `${figure} (${group})`,
      n,
      withheld,
      inside: number(rest, /inside(?: k = 2:)? ([\d.]+) %/),
      overU: number(rest, /error\/u rms ([\d.]+|NaN)/),
      middle: number(rest, /± ([\d.e+-]+) \(middle\)/),
    });
  }
  return rows;
}

const { values, positionals } = parseArgs({
  options: { draws: { type: 'string', default: '300' }, output: { type: 'string', short: 'o' } },
  allowPositionals: true,
});
const draws = Number(values.draws);
/** A loop may have its own number: `hole:60`. A draw of one costs a hundred of another. */
const asked = (positionals.length > 0 ? positionals : Object.keys(LOOPS)).map((word) => {
  const [name, own] = word.split(':');
  return { name, count: own === undefined ? draws : Number(own) };
});
const sound = asked.every(({ name, count }) => Object.hasOwn(LOOPS, name) && Number.isInteger(count) && count > 0);
if (!sound) {
  console.error(
    `coverage: --draws N and loops among ${Object.keys(LOOPS).join(', ')} were expected, with their own number as hole:60`,
  );
  process.exit(2);
}
const lines = [];
const failed = [];
const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { cwd: root, encoding: 'utf8' }).stdout.trim();

/** The table as far as it goes: a run that is broken off has told what it found. */
const tableSoFar = () =>
  [
    '# How often the stated ± held the truth',
    '',
    `Made by \`node bench/coverage.mjs ${asked.map(({ name, count }) => `${name}:${count}`).join(' ')}\` on ${new Date().toISOString().slice(0, 10)} at ${commit}. Wanted: the truth inside k = 2 in 90 to 99 %, error over standard uncertainty 0.75 to 1.2.`,
    ...lines,
    '',
    failed.length === 0
      ? 'Every loop kept its own bounds.'
      : `These loops did not keep their own bounds: ${failed.join(', ')}.`,
    '',
  ].join('\n');

for (const { name, count } of asked) {
  const [variable, asks] = LOOPS[name];
  console.error(`coverage: ${name}, ${count} draws`);
  const run = spawn(
    join(root, 'node_modules', '.bin', 'vitest'),
    ['run', `test/loops/${name}.test.ts`, '--testTimeout', '0', '--disable-console-intercept'],
    { cwd: root, env: { ...process.env, [variable]: String(count) }, stdio: ['ignore', 'pipe', 'inherit'] },
  );
  let printed = '';
  run.stdout.setEncoding('utf8').on('data', (some) => {
    printed += some;
    process.stderr.write(some);
  });
  const [status] = await once(run, 'close');
  const rows = rowsOf(printed);
  if (status !== 0) failed.push(name);
  lines.push(`\n**${name}**, ${asks}: ${count} draws\n`);
  lines.push(
    '| figure | n | withheld | inside k = 2, % | error/u | ± (middle) |',
    '| --- | --- | --- | --- | --- | --- |',
  );
  for (const { figure, n, withheld, inside, overU, middle } of rows)
    lines.push(`| ${figure} | ${n} | ${withheld} | ${inside} | ${overU} | ${middle} |`);
  if (values.output !== undefined) writeFileSync(values.output, tableSoFar());
}
console.log(tableSoFar());
