/** A record file with one entry wrong, against the side that was really cut: the entry is named, and no other; a true file names none. */
import { expect, it } from 'vitest';
import type { RecordSheet, SheetBand } from '../../src/core/record/sheet.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const tone = (motion: 'left' | 'right' | 'lateral', frequencyHz: number, radiusMm: number): SheetBand => ({
  signal: 'tone',
  motion,
  frequencyHz,
  peakVelocityCmS: 5,
  radiusMm,
  durationS: 3,
});
const sheet: RecordSheet = {
  schema: 1,
  name: 'As cut',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    tone('lateral', 1000, 142),
    tone('left', 1000, 138),
    tone('right', 1000, 134),
    tone('lateral', 3150, 128),
    tone('lateral', 315, 120),
    tone('lateral', 3150, 70),
  ],
};
const deck = {
  platter: { speedErrorPercent: 0.3, wow: [{ harmonic: 1, percent: 0.08, phaseDeg: 20 }] },
  cartridge: {
    tiltDeg: 1,
    gainDb: { left: 0.8, right: -0.4 },
    tipRadiusUm: 14,
    topResonance: { left: { hz: 15_000, q: 1.8 }, right: { hz: 15_500, q: 1.7 } },
  },
  record: { surfaceNoiseDb: -54, clicksPerMinute: 10, offCentreMm: 0.2 },
  side: { beforeDropS: 0.5, leadInS: 0.6, gapS: 0.5, leadOutS: 0.3, afterLiftS: 0.1 },
};

it('names the entry that contradicts the rest', { timeout: 300_000 }, async () => {
  const { recording } = virtualCapture(deck, sheet, 44_100, 3);
  const found = async (patch: Partial<SheetBand>, at: number) => {
    const bands = sheet.bands.map((band, i) => (i === at ? { ...band, ...patch } : band));
    const { document } = await examineRecording(recording, { sheet: { ...sheet, bands } });
    return document.problems
      .filter(({ code }) => code.startsWith('record-'))
      .map(({ code, values }) => `${code} ${values?.entry}`);
  };
  expect(await found({}, 0)).toEqual([]);
  expect(await found({ frequencyHz: 3120 }, 3)).toEqual(['record-frequency-doubt 4']);
  expect(await found({ peakVelocityCmS: 7 }, 4)).toEqual(['record-level-doubt 5']);
  expect(await found({ peakVelocityCmS: 3.54 }, 1)).toEqual(['record-level-doubt 2']);
  expect(await found({ radiusMm: 152 }, 3)).toEqual(['record-radius-doubt 4']);
});
