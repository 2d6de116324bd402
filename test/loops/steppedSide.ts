/** Sides with lateral tones in steps of level, on decks whose tips lose their walls in one of two ways at drawn limits. */
import { dice } from '../../src/cli/selfcheck/randomDeck.ts';
import type { Finding } from '../../src/core/measure/finding.ts';
import { examineRecording } from '../../src/core/side/examineSide.ts';
import { virtualCapture } from './virtualCapture.ts';

const LEVELS = [4, 6, 8, 11, 15, 20, 25] as const;
/** Hz of the steps, and samples a second */
const TONES = [300, 300, 100, 1000] as const;
const RATES = [44_100, 48_000, 96_000] as const;

const tone = (motion: string, frequencyHz: number, peakVelocityCmS: number, radiusMm: number) => ({
  signal: 'tone',
  motion,
  frequencyHz,
  peakVelocityCmS,
  radiusMm,
  durationS: 2.5,
});
const sheetAt = (radiusMm: number, hz: number) => ({
  schema: 1,
  name: 'Steps',
  rpm: 33.333,
  referenceVelocityCmS: 5,
  bands: [
    tone('left', 1000, 5, radiusMm),
    tone('right', 1000, 5, radiusMm),
    ...LEVELS.map((v) => tone('lateral', hz, v, radiusMm)),
  ],
});

/** Of one wall's velocity, cm/s; null tracks everything. */
interface Limits {
  readonly left: number | null;
  readonly right: number | null;
}
export type Way = 'falls back' | 'slips';

/** One deck's tip, either way. */
function lostBy(way: Way, limits: Limits, seed: number, hz: number) {
  const draw = dice(seed + 9000);
  if (way === 'falls back') return { tracksUpToCmS: limits };
  // the deck counts a wall's acceleration through a low pass of second order at 2 kHz
  const counted = 1 / Math.hypot(1, (hz / 2000) ** 2);
  const accelerates = (cmS: number | null) => (cmS === null ? null : (2 * Math.PI * hz * cmS * counted) / 100);
  return {
    slips: {
      leftUpToMS2: accelerates(limits.left),
      rightUpToMS2: accelerates(limits.right),
      lostPercent: 2 * 10 ** draw(0, 1),
      ringHz: draw(4000, 15_000),
      ringQ: draw(1.5, 8),
      otherWallPercent: draw(-30, 30),
    },
  };
}

/** @param seed of everything else; tone and rate go by it in turn */
export async function readSteps(way: Way, limits: Limits, seed: number) {
  const draw = dice(seed + 4000);
  const hz = TONES[seed % TONES.length];
  const sampleRateHz = RATES[Math.floor(seed / TONES.length) % RATES.length];
  const bend = () => ({ left: draw(-1, 1), right: draw(-1, 1) });
  const leak = () => ({ db: draw(-40, -26), phaseDeg: draw(-180, 180) });
  const deck = {
    platter: {
      speedErrorPercent: draw(-0.5, 0.5),
      wow: [{ harmonic: 1, percent: draw(0, 0.15), phaseDeg: 0 }],
      flutter: [{ hz: draw(4, 12), percent: draw(0, 0.05), phaseDeg: 0 }],
    },
    record: { surfaceNoiseDb: draw(-62, -48), clicksPerMinute: draw(0, 40), clickDb: draw(-6, 8) },
    bearing: { rumbleLateralDb: draw(-60, -45), rumbleVerticalDb: draw(-60, -45) },
    cartridge: {
      tipRadiusUm: draw(5, 18),
      ...lostBy(way, limits, seed, hz),
      leftIntoRight: leak(),
      rightIntoLeft: leak(),
      secondHarmonicPercent: bend(),
      displacementBendPercent: bend(),
      thirdHarmonicPercent: { left: draw(-0.5, 0.5), right: draw(-0.5, 0.5) },
    },
    leads: { swapped: seed % 3 === 0, leftInverted: seed % 5 === 0 },
    converter: { referenceDbfs: -32 },
    preamp: { noiseDb: draw(-85, -70) },
    side: { beforeDropS: 0.6, leadInS: 1, gapS: 1, leadOutS: 0.6, afterLiftS: 0.2 },
  };
  const sheet = sheetAt(draw(75, 140), hz);
  const { recording } = virtualCapture(deck, sheet, sampleRateHz, seed);
  const { document } = await examineRecording(recording, { sheet: sheet as never });
  const of = (channel: 'left' | 'right'): Finding | undefined =>
    document.findings.find((f) => f.quantity === 'tracking-limit' && f.channel === channel) as Finding | undefined;
  return { document, found: { left: of('left'), right: of('right') }, hz, sampleRateHz };
}

export const noteOf = (finding: Finding | undefined): string => (finding as unknown as { note: string })?.note ?? '';
