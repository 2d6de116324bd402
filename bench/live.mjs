// `node bench/live.mjs`: what one push and one question cost while a side plays, on the clock and of the processor. Prints; judges nothing.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const RATE = 96_000;
const BLOCK = 1024;
const TONE_HZ = 3150;
/** s of each tone, a second of groove before each */
const TONES_S = [12, 12, 110, 250];

const folder = mkdtempSync(join(tmpdir(), 'platterside-live-'));
try {
  const outfile = join(folder, 'listener.mjs');
  await build({
    entryPoints: [join(root, 'src/core/side/SideListener.ts')],
    bundle: true,
    format: 'esm',
    platform: 'node',
    outfile,
  });
  const { SideListener } = await import(pathToFileURL(outfile).href);
  play(new SideListener({ file: 'live', sampleRateHz: RATE, channels: 2, bitDepth: 24, encoding: 'integer' }));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** A tone of 3150 Hz with wow, in groove noise. */
function play(listener) {
  const edges = [];
  let at = 2;
  for (const s of TONES_S) {
    edges.push([at, at + s]);
    at += s + 2;
  }
  const frames = Math.round(at * RATE);
  const asked = [];
  const clock = [];
  const busy = [];
  const slow = [];
  const busyMs = () => {
    const { user, system } = process.cpuUsage();
    return (user + system) / 1000;
  };
  let seed = 9;
  const hiss = () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed / 2 ** 32 - 0.5) * 4e-3;
  };
  const left = new Float64Array(BLOCK);
  const right = new Float64Array(BLOCK);
  for (let from = 0; from < frames; from += BLOCK) {
    for (let n = 0; n < BLOCK; n++) {
      const t = (from + n) / RATE;
      const on = edges.some(([a, b]) => t >= a && t < b);
      const wave = on ? 0.3 * Math.sin(2 * Math.PI * TONE_HZ * t + 4 * Math.sin(2 * Math.PI * 0.555 * t)) : 0;
      left[n] = wave + hiss();
      right[n] = wave + hiss();
    }
    const [began, worked] = [performance.now(), busyMs()];
    listener.push({ left, right, frames: BLOCK, startFrame: from });
    const took = busyMs() - worked;
    clock.push(performance.now() - began);
    busy.push(took);
    slow.push([took, from / RATE]);
    if (from % (RATE / 10) < BLOCK) {
      const before = performance.now();
      listener.current();
      asked.push(performance.now() - before);
    }
  }
  const show = (values) => {
    const sorted = values.toSorted((a, b) => a - b);
    const of = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(3);
    return `median ${of(0.5)}, one in a hundred ${of(0.99)}, worst ${of(1)} ms`;
  };
  console.log(`${asked.length} questions: ${show(asked)}`);
  console.log(`${clock.length} pushes of ${((1000 * BLOCK) / RATE).toFixed(1)} ms, on the clock: ${show(clock)}`);
  console.log(`the same, of the processor (with what other threads of the engine did meanwhile): ${show(busy)}`);
  const worst = slow.toSorted(([a], [b]) => b - a).slice(0, 10);
  console.log(
    `the ten longest, ms of the processor at s: ${worst.map(([ms, s]) => `${ms.toFixed(0)} at ${s.toFixed(1)}`).join(', ')}`,
  );
}
