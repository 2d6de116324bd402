/** Short sides for live tests: what a stylus would send for some ten seconds, as files that a fake device plays. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { wavFrames, wavHeader } from '../../src/core/deck/wavBytes.ts';
import { platterside } from './bench.ts';

const tone = (motion: string, frequencyHz: number, durationS: number) => ({
  motion,
  signal: 'tone',
  frequencyHz,
  peakVelocityCmS: 5,
  startRadiusMm: 120,
  durationS,
});

/** Left-only, right-only, with a gap. @returns path of the WAV, float, and the tilt that its file gives */
export async function tiltPair(
  folder: string,
  rateHz: number,
  tiltDeg: number,
  bits = 'float',
  bandS = 5,
): Promise<{ path: string; tiltDeg: number }> {
  const deck = {
    schema: 1,
    name: 'live deck',
    record: { surfaceNoiseDb: -62 },
    preamp: { noiseDb: -85 },
    cartridge: {
      tiltDeg,
      leftIntoRight: { db: -31, phaseDeg: 18 },
      rightIntoLeft: { db: -32, phaseDeg: -12 },
    },
    side: { gapS: 1, leadInS: 1, leadOutS: 1 },
  };
  const [deckPath, sheetPath] = [join(folder, 'live.deck.json'), join(folder, 'live.record.json')];
  writeFileSync(deckPath, JSON.stringify(deck));
  const bands = [tone('left', 1000, bandS), tone('right', 1000, bandS)];
  writeFileSync(sheetPath, JSON.stringify({ schema: 1, name: 'Live pair', rpm: 33.333, bands }));
  const path = join(folder, `pair ${rateHz}.wav`);
  const flags = ['--rate', String(rateHz), '--bits', bits, '--seed', '4', '-o', path];
  await platterside('simulate', '--deck', deckPath, '--record', sheetPath, ...flags);
  const told = JSON.parse(await platterside('measure', path, '--json'));
  const tilt = told.findings.find(({ quantity }: { quantity: string }) => quantity === 'azimuth-error');
  return { path, tiltDeg: tilt.value };
}

/** A file of what is said for every frame, float. */
export function soundFile(
  path: string,
  seconds: number,
  at: (t: number, frame: number) => readonly [number, number],
  rate = 44_100,
) {
  const frames = Math.round(seconds * rate);
  const [left, right] = [new Float64Array(frames), new Float64Array(frames)];
  for (let n = 0; n < frames; n++) [left[n], right[n]] = at(n / rate, n);
  const header = wavHeader({ sampleRateHz: rate, bits: 'float', frames });
  writeFileSync(path, Buffer.concat([header, wavFrames(left, right, frames, 'float')]));
  return path;
}

/** Flags of a browser whose sound input plays a file: 44.1 kHz, float or 16 bits; 24 bits come as silence. */
export const fakeDevice = (path: string): string[] => [
  '--use-fake-ui-for-media-stream',
  '--use-fake-device-for-media-stream',
  `--use-file-for-fake-audio-capture=${path}%noloop`,
  '--autoplay-policy=no-user-gesture-required',
];
