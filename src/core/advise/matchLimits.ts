/**
 * What Match aims at, and what is taken for the uncertainty of a figure that comes without one. All are common
 * practice where nothing else is said; docs/match.md lists them. The limits of its verdicts stand with all others (deckClasses.ts).
 */
import { DEFAULT_LIMITS, type Limits } from './limits.ts';

/** Hz that a resonance is wanted in by these limits, and what advice aims at from either side: 1 Hz inside, where there is room. */
export function wantedResonance(limits: Limits = DEFAULT_LIMITS) {
  const [from, to] = [limits['arm-resonance-from'].good, limits['arm-resonance-to'].good];
  const middle = (from + to) / 2;
  return { from, aimFromBelow: Math.min(from + 1, middle), middle, aimFromAbove: Math.max(to - 1, middle), to };
}

/** Contours of the map of mass against compliance, Hz. */
export const MAP_CONTOURS = [7, 8, 10, 12] as const;

/** Loudest that records reach over 5 cm/s, dB. */
export const LOUDEST_DB = 18;

/** Line level that a preamp should bring 5 cm/s to, V rms: −10 dBV. */
export const LINE_LEVEL_V = 0.316228;

/** Output that a moving-magnet input is made for, mV at 5 cm/s. */
export const INPUT_LEVEL_MV = { from: 2, to: 10 } as const;

/** Friction between stylus and record where none is given, and the span that is quoted for it. */
export const FRICTION = {
  usual: 0.3,
  standard: 0.05,
  source: 'common practice: 0.25 to 0.3 for most records; no standard seen',
} as const;

/** Mass of a set of screws and nuts where none is given: 0 with this much above it, g. */
export const USUAL_HARDWARE_G = 2;

/** Standard uncertainties (k = 1) where a part brings none; relative unless a unit is named. */
export const ASSUMED = {
  /** g, of arm, cartridge and hardware together */
  massG: 0.5,
  /** of a compliance quoted at 10 Hz */
  compliance: 0.1,
  coilResistance: 0.025,
  coilInductance: 0.05,
  loadResistance: 0.01,
  loadCapacitance: 0.05,
  output: 0.06,
  /** dB */
  gainDb: 0.1,
  maxOutput: 0.025,
  /** mm */
  lengthMm: 0.25,
  /** of the tracking force */
  force: 0.01,
  counterweightMass: 0.01,
} as const;
