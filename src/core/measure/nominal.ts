/** What frequency a tone was cut with. */
import type { SideReadings, ToneBand } from './sideReadings.ts';

export interface Nominal {
  readonly hz: number;
  readonly source: 'sheet' | 'stated' | 'assumed';
}

/** Tones that test records are cut with, Hz: speed tones first (common practice). */
const COMMON_HZ = [3150, 3000, 1000, 300, 315, 400, 10_000, 100];

/**
 * The sheet's frequency; else the stated speed tone where it lies within 15 %; else the nearest common one within 12 %.
 * Null where there is none: such a tone says nothing about speed.
 */
export function nominalOf(tone: ToneBand, side: SideReadings): Nominal | null {
  if (tone.cut?.frequencyHz !== undefined) return { hz: tone.cut.frequencyHz, source: 'sheet' };
  const stated = side.nominalSpeedToneHz;
  const off = (hz: number): number => Math.abs(Math.log(tone.meanHz / hz));
  if (stated !== null && off(stated) < Math.log(1.15)) return { hz: stated, source: 'stated' };
  const nearest = COMMON_HZ.reduce((a, b) => (off(b) < off(a) ? b : a));
  return off(nearest) < Math.log(1.12) ? { hz: nearest, source: 'assumed' } : null;
}

/**
 * Tones that speed, wow and flutter are read from, best kind only: the stated tone; lateral 3150 or 3000 Hz; the same on one
 * wall or vertical; lateral 1 kHz; any 1 kHz.
 */
export function speedTones(side: SideReadings, lateral: (tone: ToneBand) => boolean): ToneBand[] {
  const around = (t: ToneBand, hz: number, share: number): boolean => {
    const nominal = nominalOf(t, side);
    return nominal !== null && Math.abs(nominal.hz / hz - 1) < share;
  };
  const usable = side.tones.filter((t) => t.usedS >= 1);
  const kinds: ((t: ToneBand) => boolean)[] = [
    (t) => side.nominalSpeedToneHz !== null && around(t, side.nominalSpeedToneHz, 1e-6) && lateral(t),
    (t) => side.nominalSpeedToneHz !== null && around(t, side.nominalSpeedToneHz, 1e-6),
    (t) => (around(t, 3150, 0.01) || around(t, 3000, 0.01)) && lateral(t) && t.usedS >= 4,
    (t) => (around(t, 3150, 0.01) || around(t, 3000, 0.01)) && t.usedS >= 4,
    (t) => around(t, 1000, 0.01) && lateral(t) && t.usedS >= 4,
    (t) => around(t, 1000, 0.01),
    (t) => nominalOf(t, side) !== null && t.meanHz > 250,
  ];
  for (const kind of kinds) {
    const tones = usable.filter(kind);
    if (tones.length > 0) return tones;
  }
  return [];
}
