/** Compliance as quoted, taken to 10 Hz where the arm resonates. */
import { within } from '../units/bounds.ts';

/** How a compliance is quoted: at rest, or moving at 10 or 100 Hz. */
export type ComplianceBasis = 'static' | '10hz' | '100hz';

/** A figure with the span that its spread allows; low ≤ value ≤ high, all in one unit. */
export interface Span {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** 10 Hz figure over the quoted one: static ≈ 2 × (10 Hz) ≈ 4 × (100 Hz), "on average". */
const ratioTo10Hz: Readonly<Record<ComplianceBasis, number>> = { static: 1 / 2, '10hz': 1, '100hz': 2 };

/** Relative spread of the rule above. It spans the 1.5 to 2 that is also in use from 100 Hz to 10 Hz. */
export const CONVERSION_SPREAD = 0.3;

/**
 * Compliance at 10 Hz with the span that the conversion leaves open. A figure quoted at 10 Hz is used as it is.
 *
 * @param quoted any unit, above 0; the answer is in the same unit
 * @throws RangeError naming the argument, its value and its bounds
 * @source common practice; no standard and no measurements seen behind the rule
 * @checked test/standards/armResonance.test.ts
 */
export function complianceAt10Hz(quoted: number, basis: ComplianceBasis): Span {
  within('compliance', quoted, Number.MIN_VALUE, 1e6);
  const value = quoted * ratioTo10Hz[basis];
  const spread = basis === '10hz' ? 0 : CONVERSION_SPREAD;
  return { value, low: value * (1 - spread), high: value * (1 + spread) };
}
