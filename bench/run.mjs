// `npm run bench`: speed and size, as ratios within this one run; `npm run bench -- faults`: bias and spread over every fault. Prints; judges nothing.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensureInstalled } from '../scripts/install.mjs';
import { sweepFaults } from './faults.mjs';
import { writeLongSide } from './longSide.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const cli = join(root, 'bin', 'platterside.js');

const TICKS_PER_S = 100;

/** Largest resident memory, MB, and processor time of all its threads, s, so far; the second only where /proc is. */
function used(pid) {
  const proc = `/proc/${pid}`;
  try {
    if (existsSync('/proc/self/stat')) {
      const megabytes = Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`${proc}/status`, 'latin1'))?.[1] ?? 0) / 1024;
      const fields = readFileSync(`${proc}/stat`, 'latin1').split(') ')[1].split(' ');
      return { megabytes, busy: (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S };
    }
    const rss = spawnSync('ps', ['-o', 'rss=', '-p', String(pid)]).stdout.toString();
    return { megabytes: Number(rss.trim()) / 1024, busy: 0 };
  } catch {
    return { megabytes: 0, busy: 0 };
  }
}

/** Runs a command; resolves with seconds, memory and processor time (looked at every 50 ms). */
function timed(command, args) {
  return new Promise((resolve, reject) => {
    const began = process.hrtime.bigint();
    const child = spawn(command, args, { stdio: ['ignore', 'ignore', 'pipe'] });
    let megabytes = 0;
    let busy = 0;
    let errors = '';
    child.stderr.on('data', (text) => {
      errors = (errors + text).slice(-2000);
    });
    const poll = setInterval(() => {
      const now = used(child.pid);
      megabytes = Math.max(megabytes, now.megabytes);
      busy = Math.max(busy, now.busy);
    }, 50);
    child.on('error', reject);
    child.on('close', (code) => {
      clearInterval(poll);
      const seconds = Number(process.hrtime.bigint() - began) / 1e9;
      if (code === 0) resolve({ seconds, megabytes, busy });
      else reject(new Error(`${command} ended with ${code}: ${errors}`));
    });
  });
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

async function longSides(folder) {
  const hasFfmpeg = spawnSync('ffmpeg', ['-version'], { stdio: 'ignore' }).status === 0;
  const results = [];
  for (const minutes of [6, 12.5, 25]) {
    const file = join(folder, `side-${minutes}.wav`);
    writeLongSide(root, folder, file, minutes);
    const megabytes = statSync(file).size / 1e6;
    const ours = await timed(process.execPath, [cli, 'measure', file, '--json']);
    results.push({ minutes, ours });
    console.log(
      `measure, ${minutes} min at 96 kHz/24 bit (${megabytes.toFixed(0)} MB): ${ours.seconds.toFixed(2)} s (${ours.busy.toFixed(1)} s of processor time), ${ours.megabytes.toFixed(0)} MB of memory, ${(ours.seconds / minutes).toFixed(3)} s a minute`,
    );
    if (minutes === 25) {
      if (hasFfmpeg) {
        const astats = ['-hide_banner', '-nostats', '-i', file, '-af', 'astats', '-f', 'null', '-'];
        const theirs = await timed('ffmpeg', astats);
        console.log(
          `FFmpeg with astats, the same file: ${theirs.seconds.toFixed(2)} s (${theirs.busy.toFixed(1)} s of processor time)`,
        );
        console.log(`ratio measure / FFmpeg astats: ${(ours.seconds / theirs.seconds).toFixed(2)} (aim: at most 0.50)`);
        const alone = await timed('ffmpeg', ['-filter_threads', '1', ...astats]);
        console.log(
          `FFmpeg kept to one filter thread, which spares it the waking of others: ${alone.seconds.toFixed(2)} s (${alone.busy.toFixed(1)} s of processor time), ratio ${(ours.seconds / alone.seconds).toFixed(2)}`,
        );
      } else {
        console.log('FFmpeg is not installed here, so its ratio is not printed.');
      }
    }
    rmSync(file);
  }
  const [short, , long] = results;
  console.log(
    `cost a minute, 25 min against ${short.minutes} min: ${(long.ours.seconds / long.minutes / (short.ours.seconds / short.minutes)).toFixed(2)} (1 is linear)`,
  );
  console.log(
    `memory, 25 min against ${short.minutes} min: ${(long.ours.megabytes / short.ours.megabytes).toFixed(2)} (1 is what does not grow)`,
  );
}

async function answers() {
  const cases = {
    'tilt, two readings': ['tilt', '--left-to-right', '28', '--right-to-left', '24', '--json'],
    'place, free solution': ['place', '--spindle-to-pivot', '226.5', '--json'],
    match: [
      'match',
      '--effective-mass',
      '12',
      '--cartridge-mass',
      '6',
      '--compliance',
      '15',
      '--compliance-at',
      '10hz',
      '--json',
    ],
  };
  const starts = [];
  for (let i = 0; i < 5; i++) starts.push((await timed(process.execPath, ['-e', '0'])).seconds);
  const bare = median(starts);
  for (const [name, args] of Object.entries(cases)) {
    const seconds = [];
    for (let i = 0; i < 5; i++) seconds.push((await timed(process.execPath, [cli, ...args])).seconds);
    const whole = median(seconds);
    console.log(
      `${name}: ${(whole * 1000).toFixed(0)} ms from the shell, ${((whole - bare) * 1000).toFixed(0)} ms beyond starting Node`,
    );
  }
}

ensureInstalled(root);
if (process.argv[2] === 'faults') {
  sweepFaults(process.argv.slice(3));
  process.exit();
}
const folder = mkdtempSync(join(tmpdir(), 'platterside-bench-'));
try {
  console.log(`Node ${process.versions.node}, ${cpus().length} cores`);
  await answers();
  await longSides(folder);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
