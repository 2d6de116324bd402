/** Each flag of the command reaches what it is for: the same recording measured with it and without. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { heardStreams } from '../../src/cli/heard.fixture.ts';
import { command } from '../../src/cli/measure.ts';
import type { SideDocument } from '../../src/core/advise/document.ts';
import { scratchFolder } from '../../src/store/scratch.fixture.ts';
import { wave } from '../faults/buildWave.ts';

const RATE_HZ = 44_100;
const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());

/** 8 s of 3150 Hz in both channels whose speed swings by 0.1 % 0.75 times a second, 2 % of second harmonic in it. */
function swinging(): Uint8Array {
  const samples: number[] = [];
  const swing = 0.001 / (2 * Math.PI * 0.75);
  for (let n = 0; n < 8 * RATE_HZ; n++) {
    const t = n / RATE_HZ;
    const phase = 2 * Math.PI * 3150 * (t + swing * Math.sin(2 * Math.PI * 0.75 * t));
    const value = 6000 * (Math.sin(phase) + 0.02 * Math.sin(2 * phase));
    samples.push(Math.round(value), Math.round(0.97 * value + 3 * Math.sin(n * n)));
  }
  return wave(samples, 16, { rateHz: RATE_HZ });
}
writeFileSync(at('tone.wav'), swinging());

async function measured(...flags: string[]) {
  const heard = heardStreams();
  expect(await command.run([at('tone.wav'), '--json', ...flags], heard.io)).toBe(0);
  const { findings } = JSON.parse(heard.out) as SideDocument;
  return (quantity: string): number => findings.find((f) => f.quantity === quantity)?.value as number;
}

it('--rpm says how long a turn is: the swing is once per turn of a record at 45, and of no other', async () => {
  expect((await measured('--rpm', '45'))('once-per-turn')).toBeCloseTo(0.1, 2);
  expect((await measured())('once-per-turn')).toBeLessThan(0.03);
});

it('--nominal-speed-tone is what speed is judged by', async () => {
  expect((await measured())('speed-error')).toBeCloseTo(0, 1);
  expect((await measured('--nominal-speed-tone', '3000'))('speed-error')).toBeCloseTo(5, 1);
});

it('--flat leaves the harmonics as recorded; without it the playback equalisation is undone', async () => {
  // IEC 60098: playback falls by 5.9 dB from 3150 to 6300 Hz, so the groove held nearly twice as much
  const [flat, equalised] = [await measured('--flat'), await measured()];
  expect(flat('second-harmonic')).toBeCloseTo(2, 1);
  const [f, slope] = [
    3150,
    (hz: number) =>
      Math.hypot(1, 2 * Math.PI * hz * 318e-6) /
      Math.hypot(1, 2 * Math.PI * hz * 75e-6) /
      Math.hypot(1, 2 * Math.PI * hz * 3180e-6),
  ];
  expect(equalised('second-harmonic')).toBeCloseTo((2 * slope(f)) / slope(2 * f), 1);
});

it('--curves writes every curve as a table, and --spectra puts the bands’ spectra among them', async () => {
  const rows = async (...flags: string[]) => {
    await measured('--curves', at('curves.csv'), ...flags);
    const [, ...lines] = readFileSync(at('curves.csv'), 'utf8').trim().split('\r\n');
    return lines.map((line) => line.split(','));
  };
  const plain = await rows();
  const deviation = plain.filter(([quantity]) => quantity === 'speed-deviation').map(([, , , , , , y]) => Number(y));
  expect(Math.max(...deviation)).toBeCloseTo(0.1, 2);
  expect(plain.some(([quantity]) => quantity === 'spectrum')).toBe(false);
  const spectrum = (await rows('--spectra')).filter(
    ([quantity, channel]) => quantity === 'spectrum' && channel === 'left',
  );
  const [, , , , loudest] = spectrum.sort((a, b) => Number(b[6]) - Number(a[6]))[0];
  expect(Number(loudest)).toBeCloseTo(3150, -1);
  const two = command.run([at('tone.wav'), at('tone.wav'), '--curves', at('curves.csv')], heardStreams().io);
  await expect(two).rejects.toThrow('--curves takes one recording at a time');
});

it('--curves writes charts where its name ends in .svg, beside the table, and never over a recording', async () => {
  await measured('--curves', at('both.csv'), '--curves', at('both.svg'));
  expect(readFileSync(at('both.csv'), 'utf8')).toMatch(/^quantity,channel/);
  const svg = readFileSync(at('both.svg'), 'utf8');
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="760"/);
  expect(svg).toContain('>Speed over time, band 1</text>');
  expect(svg.match(/<path /g)!.length).toBeGreaterThan(1);
  const before = readFileSync(at('tone.wav'));
  writeFileSync(at('kept.svg'), before);
  await expect(measured('--curves', at('kept.svg'))).rejects.toThrow(/a recording is there and is kept/);
  await expect(measured('--curves', at('tone.wav'))).rejects.toThrow(/which this command reads/);
  await measured('--curves', at('kept.svg'), '--replace');
  expect(readFileSync(at('kept.svg'), 'utf8')).toMatch(/^<svg /);
  expect(readFileSync(at('tone.wav')).equals(before)).toBe(true);
});
