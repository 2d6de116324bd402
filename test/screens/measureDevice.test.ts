/**
 * `measure --input DEVICE`: every recorder that is named in the help is run on a sound card that is not there, all on the same
 * playing; each gives the figures of the file.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
// @ts-expect-error a script without types
import { buildCliIfStale } from '../../scripts/build-cli.mjs';
import { root } from './bench.ts';
import { tiltPair } from './liveSides.ts';
import { soon } from './settled.ts';
import { openSoundCard, SOURCE, type SoundCard } from './soundCard.ts';

const RATE = 96_000;
const BAND_S = 4;

let folder: string;
let card: SoundCard;
let side: { path: string; tiltDeg: number };
const running: ChildProcess[] = [];

beforeAll(async () => {
  await buildCliIfStale();
  folder = mkdtempSync(join(tmpdir(), 'platterside-device-'));
  card = await openSoundCard(RATE);
  side = await tiltPair(folder, RATE, 0.9, '24', BAND_S);
});
afterAll(async () => {
  for (const child of running) child.kill('SIGKILL');
  await card?.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Listening {
  out: string;
  err: string;
  readonly ended: Promise<number | null>;
  /** Ctrl-C */
  stop(): void;
}

function measure(...args: string[]): Listening {
  const child = spawn(process.execPath, [join(root, 'dist', 'cli.mjs'), 'measure', '--rate', String(RATE), ...args], {
    cwd: folder,
    env: { ...process.env, ...card.env, PULSE_SOURCE: SOURCE },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.push(child);
  const listening: Listening = {
    out: '',
    err: '',
    ended: new Promise((resolve) => child.once('close', resolve)),
    stop: () => void child.kill('SIGINT'),
  };
  child.stdout.on('data', (text) => {
    listening.out += text;
  });
  child.stderr.on('data', (text) => {
    listening.err += text;
  });
  return listening;
}

/** Programs that hear the source now; the remap itself hears the deck. */
async function recordersThere(): Promise<number> {
  const lines = (await card.control('list', 'short', 'source-outputs')).split('\n');
  return lines.filter((line) => line !== '' && !line.includes('module-remap-source')).length;
}

const pulse = `pulse:${SOURCE}`;
/** a device of ALSA that leads to the sound server */
const alsa = 'pulse';

interface PassLine {
  readonly kind: 'pass';
  readonly capture: { readonly file: string };
  readonly problems: readonly { readonly code: string }[];
  readonly findings: readonly { readonly quantity: string; readonly value: number }[];
}
type Line = PassLine | { readonly kind: 'band'; readonly band: { readonly motion: string } };

const GAPS = new Set(['phase-jump', 'dropped-samples']);

/** Among lines of JSON, the pass that was told as left, right and the pass itself, and in which nothing was lost. */
function wholePass(out: string): PassLine | undefined {
  const lines = out
    .split('\n')
    .slice(0, -1)
    .map((line): Line => JSON.parse(line));
  const what = lines.map((line) => (line.kind === 'band' ? line.band.motion : line.kind));
  return lines.find(
    (line, i): line is PassLine =>
      line.kind === 'pass' &&
      what
        .slice(0, i + 1)
        .slice(-4)
        .join(' ')
        .replace(/^pass /, '') === 'left right pass' &&
      !line.problems.some(({ code }) => GAPS.has(code)),
  );
}

/** The same in words. */
const wholeInWords =
  /^band 1 · left only tone 1000\.\d Hz · [34]\.\d s\nband 2 · right only tone \d+\.\d Hz · [34]\.\d s · tilt \+0\.\d.*\n+pass \d+$/m;

test('arecord, SoX and FFmpeg hear one playing; each gives the figures of the file, by lines of JSON or of words', async () => {
  const asJson = {
    arecord: measure('--input', alsa, '--recorder', 'arecord', '--json'),
    sox: measure('--input', alsa, '--recorder', 'sox', '--json'),
    'ffmpeg by ALSA': measure('--input', alsa, '--recorder', 'ffmpeg', '--json'),
    'ffmpeg by PulseAudio': measure('--input', pulse, '--json', '--keep', folder),
  };
  const inWords = measure('--input', alsa);
  const all = [...Object.values(asJson), inWords];
  await soon(
    () => all.map(({ err }) => /listening to \S+ at 96000 Hz by (arecord|sox|ffmpeg);/.test(err)),
    'started',
  ).toEqual(all.map(() => true));
  await soon(recordersThere, 'recorders at the source').toBe(all.length);
  // a machine with much else to do may lose sound on its way to one of them: that one hears the side again
  const hasWhole = (one: Listening): boolean =>
    one === inWords ? wholeInWords.test(one.out) : wholePass(one.out) !== undefined;
  for (let tries = 1; tries <= 3 && !all.every(hasWhole); tries++) {
    await card.play(side.path).over;
    const passes = ({ out }: Listening): number => out.match(/"kind":"pass"|^pass \d+$/gm)?.length ?? 0;
    await soon(() => all.map((one) => passes(one) >= tries), 'passes').toEqual(all.map(() => true));
  }
  for (const one of all) one.stop();
  expect(await Promise.all(all.map(({ ended }) => ended))).toEqual(all.map(() => 0));
  for (const [recorder, { out }] of Object.entries(asJson)) {
    const pass = wholePass(out);
    expect(pass?.capture, recorder).toMatchObject({ live: true, sampleRateHz: RATE, channels: 2, bitDepth: 32 });
    const tilt = pass?.findings.find(({ quantity }) => quantity === 'azimuth-error');
    expect(Math.abs((tilt?.value ?? Number.NaN) - side.tiltDeg), recorder).toBeLessThan(0.02);
  }
  expect(inWords.err).toMatch(/by arecord; Ctrl-C ends it/);
  expect(inWords.out).toMatch(wholeInWords);
  const kept = wholePass(asJson['ffmpeg by PulseAudio'].out)?.capture.file ?? '';
  const again = measureFile(kept);
  expect(Math.abs((await again) - side.tiltDeg)).toBeLessThan(0.02);
});

/** Tilt of a recording as a file. */
async function measureFile(path: string): Promise<number> {
  const { platterside } = await import('./bench.ts');
  const told = JSON.parse(await platterside('measure', path, '--json'));
  return told.findings.find(({ quantity }: { quantity: string }) => quantity === 'azimuth-error').value;
}

test('a device that is not there, and one that is taken away, are told in one sentence', async () => {
  const missing = measure('--input', 'pulse:nothing-of-this-name', '--recorder', 'ffmpeg');
  expect(await missing.ended).toBe(2);
  expect(missing.err).toMatch(/--input pulse:nothing-of-this-name: ffmpeg broke off: \S/);
  const taken = measure('--input', pulse, '--keep', mkdtempSync(join(folder, 'taken-')));
  await soon(recordersThere, 'recorders at the source').toBe(1);
  card.play(side.path);
  await soon(() => taken.out, 'the first band').toMatch(/^band 1 ·/m);
  await card.kill();
  expect(await taken.ended).toBe(2);
  expect(taken.err).toMatch(/ffmpeg broke off: \S/);
  // what was heard until then is told all the same
  expect(taken.out).toMatch(/^pass 1$/m);
});
