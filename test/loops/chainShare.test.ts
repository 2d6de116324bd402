/** Cartridge and chain told apart by exchanged leads, and levels in volts and over 0 VU, against a deck whose gains are known. */
import { expect, it } from 'vitest';
import type { RecordSheet } from '../../src/core/record/sheet.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { withSwappedLeads } from '../../src/core/side/withSwappedLeads.ts';
import { virtualCapture } from './virtualCapture.ts';

const tone = (motion: 'left' | 'right' | 'lateral', radiusMm: number) =>
  ({ signal: 'tone', motion, frequencyHz: 1000, peakVelocityCmS: 5, radiusMm, durationS: 3 }) as const;
const sheet: RecordSheet = {
  schema: 1,
  name: 'Three tones',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [tone('lateral', 140), tone('left', 136), tone('right', 132)],
};
const deck = (swapped: boolean) => ({
  cartridge: { gainDb: { left: 0.9, right: -0.3 }, tipRadiusUm: 12 },
  preamp: { gainDb: { left: -0.4, right: 0.2 } },
  leads: { swapped },
  record: { surfaceNoiseDb: -56 },
  converter: { referenceDbfs: -16 },
  side: { beforeDropS: 0.5, leadInS: 0.6, gapS: 0.5, leadOutS: 0.3, afterLiftS: 0.1 },
});

it.each([true, false])(
  'cartridge 1.2 dB, chain −0.6 dB; with a record file: %s',
  { timeout: 120_000 },
  async (filed) => {
    const heard = async (swapped: boolean) =>
      (
        await examineRecording(virtualCapture(deck(swapped), sheet, 44_100, swapped ? 5 : 4).recording, {
          ...(filed ? { sheet } : {}),
          bench: { fullScaleV: { left: 2, right: 2 }, zeroVuDbfs: -18 },
        })
      ).document;
    const first = await heard(false);
    const of = withSwappedLeads(first, await heard(true));
    const find = (quantity: string, channel?: string) =>
      of.findings.find((f) => f.quantity === quantity && (channel === undefined || f.channel === channel));
    expect(find('channel-balance-cartridge')?.value).toBeCloseTo(1.2, 1);
    expect(find('channel-balance-chain')?.value).toBeCloseTo(-0.6, 2);
    if (!filed) return;
    // −16 dBFS + 0.9 − 0.4; the peak of full scale is √2 times 2 V
    expect(find('reference-level', 'left')?.value).toBeCloseTo(-15.5, 1);
    expect(find('reference-output', 'left')?.value).toBeCloseTo(2000 * 10 ** (-15.5 / 20), -1);
    expect(find('reference-over-vu', 'left')?.value).toBeCloseTo(2.5, 1);
    expect(find('reference-level', 'right')?.value).toBeCloseTo(-16.1, 1);
  },
);
