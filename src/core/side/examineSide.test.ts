import { expect, it } from 'vitest';
import { wave } from '../../../test/faults/buildWave.ts';
import { bytesOf } from '../capture/bytesOf.ts';
import { examineSide } from './examineSide.ts';

/** `seconds` of 1 kHz in both channels at 48 kHz, 16 bits. */
function tone(seconds: number): Uint8Array {
  const samples: number[] = [];
  for (let n = 0; n < seconds * 48_000; n++) {
    const value = Math.round(8000 * Math.sin((2 * Math.PI * 1000 * n) / 48_000));
    samples.push(value, value + ((n * 7919) % 13) - 6);
  }
  return wave(samples, 16);
}

it('nothing is measured in less than a second, and the sentence does not round up to one', async () => {
  const { document } = await examineSide(bytesOf(tone(0.9995), 'short.wav'));
  expect(document.findings).toEqual([]);
  expect(document.problems.find(({ code }) => code === 'too-short')?.message).toBe(
    'The recording lasts 0.99 s; at least 1 s is needed to measure anything.',
  );
  const longer = await examineSide(bytesOf(tone(1.5), 'longer.wav'));
  expect(longer.document.findings.map(({ quantity }) => quantity)).toContain('channel-balance');
});
