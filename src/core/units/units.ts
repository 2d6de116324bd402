/**
 * Every unit by its definition; the only conversions in the house.
 *
 * Inside: geometry lengths are mm, angles rad, everything else SI. Outside (JSON, CLI, screen) the unit is in the name.
 */

/** 1 standard gravity, m/s² (exact by definition, CGPM 1901). */
export const STANDARD_GRAVITY = 9.80665;
/** Boltzmann constant, J/K (exact by definition, SI 2019). */
export const BOLTZMANN = 1.380649e-23;

export const degToRad = (deg: number): number => (deg * Math.PI) / 180;
export const radToDeg = (rad: number): number => (rad * 180) / Math.PI;

/** The same angle within half a turn of 0, rad. */
export const wrapped = (angle: number): number => angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));

/** dB of an amplitude ratio; ratio > 0. */
export const ratioToDb = (ratio: number): number => 20 * Math.log10(ratio);
/** amplitude ratio of dB */
export const dbToRatio = (db: number): number => 10 ** (db / 20);
/** dB of a power ratio; ratio > 0. */
export const powerRatioToDb = (ratio: number): number => 10 * Math.log10(ratio);

/** Force of a mass in standard gravity: 1 gf = 9.80665 mN. */
export const gramForceToMn = (grams: number): number => grams * STANDARD_GRAVITY;
export const mnToGramForce = (mn: number): number => mn / STANDARD_GRAVITY;

/** 1·10⁻⁶ cm/dyn = 1 µm/mN = 10⁻³ m/N. */
export const umPerMnToMPerN = (umPerMn: number): number => umPerMn * 1e-3;

/** Groove velocity V = 2π (rpm/60) r, m/s; r in mm. */
export const grooveVelocity = (rpm: number, radiusMm: number): number => 2 * Math.PI * (rpm / 60) * radiusMm * 1e-3;
