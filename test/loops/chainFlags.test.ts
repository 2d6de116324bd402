/** The flags that tell the chain's own share: a second recording with the leads exchanged, a generator's tone of known voltage. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { UsageError } from '../../src/cli/command.ts';
import { heardStreams } from '../../src/cli/heard.fixture.ts';
import { command } from '../../src/cli/measure.ts';
import { scratchFolder } from '../../src/store/scratch.fixture.ts';
import { recordFile, waveFile } from '../independent/asRecording.ts';
import { capture, type Take } from '../independent/capture.ts';
import { type CutBand, noFaults } from '../independent/fault.ts';

const folder = scratchFolder();
const at = (name: string) => join(folder.path, name);
afterAll(() => folder.remove());

const bands: readonly CutBand[] = [
  { motion: 'lateral', hz: [1000], cmS: [5], radiusMm: 138, durationS: 2.2 },
  { motion: 'left', hz: [1000], cmS: [5], radiusMm: 134, durationS: 2.2 },
  { motion: 'right', hz: [1000], cmS: [5], radiusMm: 130, durationS: 2.2 },
];
const RATE = 32_000;
/** of the cartridge and of the preamp, left over right */
const [CARTRIDGE, CHAIN] = [1.1, 0.8];
const louder = (samples: Float64Array, by: number): Float64Array => samples.map((v) => v * by);

beforeAll(() => {
  const take = capture(bands, { ...noFaults, sampleRateHz: RATE, noiseDb: -60 });
  const through = (left: Float64Array, right: Float64Array): Take => ({ ...take, left: louder(left, CHAIN), right });
  const loud = louder(take.left, CARTRIDGE);
  writeFileSync(at('side.wav'), waveFile(through(loud, take.right)));
  writeFileSync(at('exchanged.wav'), waveFile(through(take.right, loud)));
  writeFileSync(at('side.record.json'), JSON.stringify(recordFile(bands, noFaults)));
  const tone = Float64Array.from({ length: 2 * RATE }, (_, n) => 0.5 * Math.sin((2 * Math.PI * 1000 * n) / RATE));
  writeFileSync(at('generator.wav'), waveFile({ sampleRateHz: RATE, left: tone, right: tone, bands: [] }));
});

async function measured(...flags: string[]) {
  const heard = heardStreams();
  await command.run([at('side.wav'), '--record', at('side.record.json'), '--json', ...flags], heard.io);
  return JSON.parse(heard.out) as {
    findings: { quantity: string; channel?: string; value: number }[];
  };
}
const refused = (...flags: string[]) =>
  command.run([at('side.wav'), '--record', at('side.record.json'), '--json', ...flags], heardStreams().io);

it('parts cartridge and chain by exchanged leads', { timeout: 60_000 }, async () => {
  const { findings } = await measured('--leads-swapped', at('exchanged.wav'));
  const of = (quantity: string) => findings.find((f) => f.quantity === quantity)?.value;
  expect(of('channel-balance-cartridge')).toBeCloseTo(20 * Math.log10(CARTRIDGE), 1);
  expect(of('channel-balance-chain')).toBeCloseTo(20 * Math.log10(CHAIN), 2);
  await expect(refused('--leads-swapped', at('exchanged.wav'), '--half-turn', at('side.wav'))).rejects.toThrow(
    UsageError,
  );
});

it('levels in volts by a generator, and over 0 VU', { timeout: 60_000 }, async () => {
  const flags = ['--calibration', at('generator.wav'), '--calibration-volts', '0.005', '--zero-vu', '-20'];
  const { findings } = await measured(...flags);
  const of = (quantity: string) => findings.find((f) => f.quantity === quantity && f.channel === 'right')!.value;
  // 5 mV makes half of full scale, so a sine at full scale is 10 mV
  expect(of('reference-output')).toBeCloseTo(10 * 10 ** (of('reference-level') / 20), 3);
  expect(of('reference-over-vu')).toBeCloseTo(of('reference-level') + 20, 6);
  await expect(refused('--calibration', at('generator.wav'))).rejects.toThrow('go together');
  await expect(refused('--calibration', at('generator.wav'), '--calibration-volts', '0')).rejects.toThrow('above 0');
  await expect(refused('--calibration', at('side.wav'), '--calibration-volts', '1')).rejects.toThrow('no steady sine');
});
