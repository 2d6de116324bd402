/** Sides whose quiet stretches are written down, with a tone on either wall that tells the reference. */
import { statement } from '../words/statement.ts';
import { noiseFigures } from './noiseFigures.ts';
import type { QuietReading } from './quietEstimator.ts';
import type { Quiet } from './quietParts.fixture.ts';
import type { PassageReading, SideReadings } from './sideReadings.ts';
import { bandOf, riaaOf, sideOf, toneOf } from './toneBands.fixture.ts';

/** 5 cm/s makes 0.1 in the left, 0.2 in the right */
export const tones = (['left', 'right'] as const).map((driven, i) =>
  toneOf({
    hz: 1000,
    driven,
    logLevel: Math.log(0.1 * (i + 1)),
    cut: { signal: 'tone', motion: driven, peakVelocityCmS: 5 },
  }),
);
const AMPLITUDE = { left: 0.1, right: 0.2 };
export const passage = (quiet: QuietReading, index: number | null, sheetBand: number | null = null): PassageReading => {
  const band = index === null ? null : bandOf({ index, sheetBand, signal: 'silent-groove', motion: 'none' });
  return { passage: { signal: 'silent-groove', startS: 0, endS: 20, band }, readings: { quiet } };
};
export const noiseOf = (passages: PassageReading[], more: Partial<SideReadings> = {}, flat = true) =>
  noiseFigures(sideOf(tones, { passages, ...more }), flat);
export const under = (channel: 'left' | 'right', power: number): number =>
  10 * Math.log10(AMPLITUDE[channel] ** 2 / 2 / power);
export const figureIn = (told: ReturnType<typeof noiseOf>, quantity: string, channel: 'left' | 'right' = 'left') => {
  const finding = told.findings.find((f) => f.quantity === quantity && (f.channel ?? channel) === channel);
  if (finding === undefined) throw new Error(`${quantity} is not there`);
  return finding;
};
export const READ_ON = statement('under-reference', { hz: 1000 });
/** as captured flat: what playback would do */
export const riaa = (hz: number): number => 10 ** (riaaOf(hz) / 20);

export const groove: Quiet = {
  left: (hz) => 1e-10 / (1 + (hz / 30) ** 2) + 1e-13,
  right: (hz) => 3e-11 / (1 + hz / 100),
};
export const air: Quiet = { left: () => 2e-14 };
export const motor: Quiet = { ...air, lines: [[50, 1e-9, 1e-9]] };
