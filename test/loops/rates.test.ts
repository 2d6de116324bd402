/**
 * Accuracy over sample rates and bit depths, from the samples alone: bands are found as in any capture, nothing is told of
 * the record.
 */
import { expect, it } from 'vitest';
import { randomDeck, shortSheet } from '../../src/cli/selfcheck/randomDeck.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const captures = [
  { rate: 44_100, bits: 16 },
  { rate: 48_000, bits: 24 },
  { rate: 88_200, bits: 24 },
  { rate: 96_000, bits: 'float' },
  { rate: 176_400, bits: 32 },
  { rate: 192_000, bits: 24 },
  { rate: 192_000, bits: 16 },
] as const;

it.each(captures)(
  '$rate Hz, $bits bits: every figure within what is asked',
  { timeout: 600_000 },
  async ({ rate, bits }) => {
    const seed = 7000 + rate / 100 + (bits === 16 ? 1 : 0);
    const random = randomDeck(seed, { bits, record: 'faultless' });
    // the truth is the deck's setting: a platter that drifts meanwhile is uncertainty.test.ts's matter
    const deck = { ...random, platter: { ...random.platter, driftPercent: 0 } };
    const { recording, truth } = virtualCapture(deck, shortSheet, rate, seed);
    const { document } = await examineRecording(recording);
    const speedBand = document.bands.find(
      (b) => b.signal === 'tone' && Math.abs((b.frequencyHz ?? 0) / 3150 - 1) < 0.02,
    );
    expect(speedBand).toBeDefined();
    const trueOf = (name: string): number =>
      truth.figures.find(
        (f) => f.quantity === name && (f.bands.length !== 1 || name === 'channel-balance' || f.bands[0] === 3),
      )?.value as number;
    const lines: string[] = [];
    const check = (name: string, unit: string, allowed: number): void => {
      const figure = document.findings.find((f) => f.quantity === name);
      const t = trueOf(name);
      lines.push(
        `${name} ${Number(figure?.value).toFixed(4)} ± ${figure?.uncertainty?.toFixed(4)}, true ${t.toFixed(4)} ${unit}`,
      );
      expect(Math.abs((figure?.value as number) - t), `${name}, ${unit}`).toBeLessThan(allowed);
    };
    check('azimuth-error', '°', 0.05);
    for (const way of ['left-to-right', 'right-to-left']) {
      const t = trueOf(`separation-${way}`);
      check(`separation-${way}`, 'dB', 0.3 * 10 ** (Math.max(0, t - 30) / 20));
    }
    check('channel-balance', 'dB', 0.03);
    check('speed-error', '%', 0.005);
    check('wow-flutter-weighted', '%', Math.max(0.05 * trueOf('wow-flutter-weighted'), 0.003));
    check('wow-flutter-unweighted', '%', Math.max(0.05 * trueOf('wow-flutter-unweighted'), 0.003));
    check('once-per-turn', '%', 0.01);
    console.log(`${rate} Hz, ${bits} bits, seed ${seed}\n  ${lines.join('\n  ')}`);
  },
);
