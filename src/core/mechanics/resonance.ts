/** The resonance of an arm's mass on the compliance of its stylus, and the same law turned about. */
import { within } from '../units/bounds.ts';

/** kg; the bounds of every mass below, wide enough for any arm ever built */
const MASS = [1e-4, 1] as const;
/** m/N; 0.1 to 500 µm/mN */
const COMPLIANCE = [1e-4, 0.5] as const;
/** Hz */
const FREQUENCY = [0.5, 200] as const;

/**
 * Resonance of arm and cartridge.
 *
 *   f₀ = 1 / (2π √(M C))
 *
 * One mass on one spring: the record's and the arm's own elasticity, and damping, are left out. Damping of Q = 1 moves
 * the maximum of the response by a few per cent, not f₀.
 *
 * @param mass everything that the stylus must move, as seen at the tip, kg
 * @param compliance dynamic compliance near 10 Hz, m/N (1 µm/mN = 10⁻³ m/N)
 * @returns Hz
 * @throws RangeError naming the argument, its value and its bounds
 * @source mass on a spring; 1000/(2π√(MC)) with g and µm/mN, common practice
 * @checked test/standards/armResonance.test.ts
 */
export function armResonance(mass: number, compliance: number): number {
  within('mass', mass, ...MASS, 'kg');
  within('compliance', compliance, ...COMPLIANCE, 'm/N');
  return 1 / (2 * Math.PI * Math.sqrt(mass * compliance));
}

/** Mass that puts the resonance at `frequency`, kg: M = 1 / ((2πf)² C). Hz, m/N. */
export function massForResonance(frequency: number, compliance: number): number {
  within('frequency', frequency, ...FREQUENCY, 'Hz');
  within('compliance', compliance, ...COMPLIANCE, 'm/N');
  return 1 / ((2 * Math.PI * frequency) ** 2 * compliance);
}

/** Compliance that puts the resonance at `frequency`, m/N: C = 1 / ((2πf)² M). Hz, kg. */
export function complianceForResonance(frequency: number, mass: number): number {
  within('frequency', frequency, ...FREQUENCY, 'Hz');
  within('mass', mass, ...MASS, 'kg');
  return 1 / ((2 * Math.PI * frequency) ** 2 * mass);
}
