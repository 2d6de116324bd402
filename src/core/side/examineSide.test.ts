import { expect, it } from 'vitest';
import { wave } from '../../../test/faults/buildWave.ts';
import { bytesOf } from '../capture/bytesOf.ts';
import type { Band } from '../record/band.ts';
import { examineSide } from './examineSide.ts';
import { whatMayBeMeasured } from './whatMayBeMeasured.ts';

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

it('the speed of the record and the channel order of its sheet reach the figures', async () => {
  // a tone on the left wall first, then on the right, leads exchanged; the sheet has them the other way round
  const samples: number[] = [];
  for (const heard of ['right', 'left', 'both']) {
    for (let n = 0; n < 4 * 48_000; n++) {
      const fade = Math.min(1, n / 480, (4 * 48_000 - n) / 480);
      const t = n / 48_000;
      // the speed swings by 0.1 % once per turn of 45 rpm
      const phase = 2 * Math.PI * 1000 * (t + (0.001 / (2 * Math.PI * 0.75)) * Math.sin(2 * Math.PI * 0.75 * t));
      const value = 8000 * fade * Math.sin(phase);
      const small = 0.03 * value;
      samples.push(Math.round(heard === 'right' ? small : value), Math.round(heard === 'left' ? small : value));
    }
    for (let n = 0; n < 24_000; n++) samples.push(((n * 7919) % 5) - 2, ((n * 6101) % 5) - 2);
  }
  const cut = (motion: 'left' | 'right' | 'lateral') =>
    ({ signal: 'tone', motion, frequencyHz: 1000, durationS: 4, radiusMm: 100 }) as const;
  const sheet = { schema: 1, name: 'two walls', rpm: 45, bands: [cut('left'), cut('right'), cut('lateral')] } as const;
  const { document } = await examineSide(bytesOf(wave(samples, 16), 'order.wav'), { sheet });
  const value = (quantity: string) => document.findings.find((f) => f.quantity === quantity)?.value;
  expect(value('channel-order')).toBe('swapped');
  expect(value('once-per-turn')).toBeCloseTo(0.1, 2);
});

it('a band is measured where nothing spoils it, and not at all where too little is left', () => {
  const band: Band = {
    index: 0,
    startS: 2,
    endS: 10,
    signal: 'tone',
    motion: 'lateral',
    frequencyHz: 1000,
    radiusMm: null,
    sheetBand: null,
  };
  const measurable = (startS: number, endS: number) => whatMayBeMeasured([band], [{ startS, endS }], undefined, 12);
  expect(measurable(3, 5).trusted).toMatchObject([{ startS: 5.1, endS: 10 }]);
  expect(measurable(3, 9).trusted).toEqual([]);
  expect(measurable(3, 9).problems.map(({ code }) => code)).toEqual(['band-spoiled']);
  expect(measurable(3, 5).bands).toEqual([band]);
});
