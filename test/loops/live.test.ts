/**
 * A side that is listened to while it plays, and the recording of the same sound read as a file: the same figures to the
 * second digit of the uncertainty, however the blocks are cut.
 */

import { describe, expect, it } from 'vitest';
import { dice, randomDeck, shortSheet } from '../../src/cli/selfcheck/randomDeck.ts';
import type { JudgedFinding } from '../../src/core/advise/document.ts';
import type { Recording } from '../../src/core/capture/recording.ts';
import { parseSheet } from '../../src/core/record/sheet.ts';
import { examineRecording, type SideOptions } from '../../src/core/side/examineSide.ts';
import { SideListener } from '../../src/core/side/SideListener.ts';
import { say } from '../../src/core/words/statement.ts';
import { virtualCapture } from './virtualCapture.ts';

/** Cuts as a live input may deliver them; the arrays are overwritten after each. */
async function heardLive(
  recording: Recording,
  options: SideOptions,
  cut: () => number,
  whilePlaying?: (listener: SideListener, atS: number) => void,
): Promise<SideListener> {
  const { file, sampleRateHz, channels, bitDepth, encoding } = recording.format;
  const listener = new SideListener({ file, sampleRateHz, channels, bitDepth, encoding }, options);
  const left = new Float64Array(8192);
  const right = new Float64Array(8192);
  for await (const block of recording.blocks()) {
    for (let at = 0; at < block.frames; ) {
      const frames = Math.min(cut(), block.frames - at);
      left.set(block.left.subarray(at, at + frames));
      right.set(block.right.subarray(at, at + frames));
      listener.push({ startFrame: block.startFrame + at, frames, left, right });
      at += frames;
      whilePlaying?.(listener, (block.startFrame + at) / sampleRateHz);
    }
  }
  return listener;
}

const nameOf = ({ quantity, channel, bands }: JudgedFinding): string =>
  [quantity, channel ?? '', bands.join('+')].join(' ');

/**
 * A twentieth of the repeatability: the same to the second digit. A harmonic smaller than its own repeatability is the root of a square that
 * noise was taken out of, down to nothing: half of it. What has none, as the channels' order, is the same.
 */
const sameWithin = ({ value, repeatability }: JudgedFinding): number =>
  repeatability === null || repeatability === undefined
    ? 0
    : repeatability / (typeof value === 'number' && Math.abs(value) < repeatability ? 2 : 20);

function expectSame(live: readonly JudgedFinding[], file: readonly JudgedFinding[]): void {
  expect(live.map(nameOf)).toEqual(file.map(nameOf));
  const off: string[] = [];
  live.forEach((one, i) => {
    const other = file[i];
    if (typeof one.value === 'string' || typeof other.value === 'string') expect(one.value).toBe(other.value);
    else {
      const allowed = sameWithin(other);
      if (!(Math.abs(one.value - other.value) <= allowed)) {
        off.push(`${nameOf(one)}: live ${one.value}, file ${other.value} ± ${other.repeatability}`);
      }
    }
  });
  expect(off).toEqual([]);
}

const sheetOf = (sheet: unknown) => {
  const parsed = parseSheet(JSON.stringify(sheet), 'sheet');
  if (!parsed.ok) throw new Error(say(parsed.why));
  return parsed.sheet;
};

describe('a side heard live', { timeout: 300_000 }, () => {
  it.each([
    [48_000, 3],
    [44_100, 4],
    [96_000, 5],
  ])('gives the figures of its recording, %i Hz, in blocks of 128 to 4096 frames', async (rate, seed) => {
    const { recording } = virtualCapture(randomDeck(seed), shortSheet, rate, seed);
    const options = { sheet: sheetOf(shortSheet) };
    const { document } = await examineRecording(recording, options);
    const roll = dice(seed);
    const cuts = [() => 128, () => 4096, () => Math.floor(roll(1, 4097))];
    const documents = await Promise.all(
      cuts.map(async (cut) => (await heardLive(recording, options, cut)).finish().document),
    );
    for (const live of documents) {
      expect(live.bands).toEqual(document.bands);
      expectSame(live.findings, document.findings);
      expect(live.problems.map((p) => p.code)).toEqual(document.problems.map((p) => p.code));
    }
    expect(document.findings.length).toBeGreaterThan(12);
  });

  it('tells the arm’s resonance from the drop and from sweeps that ears cannot tell, as its recording does', async () => {
    const tone = (motion: string, frequencyHz: number, durationS: number, radiusMm: number) => ({
      signal: 'tone',
      motion,
      frequencyHz,
      peakVelocityCmS: 5,
      radiusMm,
      durationS,
    });
    const sweep = (motion: string, radiusMm: number) => ({
      ...{ signal: 'sweep', motion, fromHz: 4, toHz: 25, law: 'log', cut: 'constant-velocity' },
      ...{ peakVelocityCmS: 1.5, radiusMm, durationS: 16 },
    });
    const sheet = {
      schema: 1,
      name: 'Low sweeps',
      rpm: 33.333,
      referenceVelocityCmS: 5,
      bands: [
        tone('lateral', 1000, 2.5, 138),
        sweep('lateral', 130),
        tone('lateral', 3150, 5, 120),
        sweep('vertical', 110),
        tone('lateral', 1000, 2.5, 100),
      ],
    };
    const deck = {
      platter: { speedErrorPercent: 0.2, wow: [{ harmonic: 1, percent: 0.05, phaseDeg: 10 }] },
      record: { surfaceNoiseDb: -58, warp: [{ harmonic: 1, mm: 0.1, phaseDeg: 40 }] },
      bearing: { rumbleLateralDb: -52, rumbleVerticalDb: -52 },
      arm: {
        lateralResonance: { hz: 9.2, q: 3 },
        verticalResonance: { hz: 11.3, q: 2.4 },
        dropUm: { lateral: 60, vertical: 50 },
      },
      preamp: { noiseDb: -80 },
      side: { beforeDropS: 1.2, leadInS: 2, gapS: 1 },
    };
    const { recording } = virtualCapture(deck, sheet, 44_100, 9);
    const options = { sheet: sheetOf(sheet) };
    const { document } = await examineRecording(recording, options);
    const live = (await heardLive(recording, options, () => 1777)).finish().document;
    const resonances = ({ findings }: typeof document) =>
      findings.filter(({ quantity }) => quantity.startsWith('arm-resonance'));
    expect(resonances(document).map(({ quantity }) => quantity)).toHaveLength(4);
    expect(live.bands.map(({ signal, sheetBand }) => [signal, sheetBand])).toEqual(
      document.bands.map(({ signal, sheetBand }) => [signal, sheetBand]),
    );
    expectSame(resonances(live), resonances(document));
    // from both ways
    expect(resonances(live)[0].notes?.map(({ code }) => code)).toContain('resonance-by-ring-down');
    expect(resonances(live)[0].notes?.map(({ code }) => code)).toContain('resonance-by-sweep');
  });
});
