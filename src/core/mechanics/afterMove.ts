/** What one setting of an arm does to another. N, kg, mm, rad. */
import { within } from '../units/bounds.ts';
import { STANDARD_GRAVITY } from '../units/units.ts';

/**
 * Change of the tracking force when the cartridge goes forward in its slots, by moments about the pivot.
 *
 *   F′ = (F L + m g x) / (L + x),   ΔF = (m g − F) x / (L + x)
 *
 * What slides hangs x further out, and the same tip with it. The arm's own balance stays.
 *
 * @param force at the tip before, N, 0–1
 * @param slidingMass cartridge and its screws, kg
 * @param effectiveLength pivot to tip before, mm
 * @param forward how far the tip comes away from the pivot, mm; back negative
 * @returns N, more force positive
 * @throws RangeError naming the argument, its value and its bounds
 * @source statics
 * @checked src/core/mechanics/afterMove.test.ts: against the balance of moments
 */
export function forceChangeOfSlide(
  force: number,
  slidingMass: number,
  effectiveLength: number,
  forward: number,
): number {
  within('force', force, 0, 1, 'N');
  within('slidingMass', slidingMass, 1e-4, 0.2, 'kg');
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  within('forward', forward, -effectiveLength / 4, effectiveLength / 4, 'mm');
  return ((slidingMass * STANDARD_GRAVITY - force) * forward) / (effectiveLength + forward);
}

/**
 * How much the arm's own pitch changes when its tip comes nearer to the pivot or further from it, the pivot staying at
 * its height: asin(h/L) − asin(h/(L + x)).
 *
 * @param pivotAboveTip mm
 * @returns rad, the arm lying flatter positive
 */
export function pitchChangeOfLength(pivotAboveTip: number, effectiveLength: number, forward: number): number {
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  within('forward', forward, -effectiveLength / 4, effectiveLength / 4, 'mm');
  within('pivotAboveTip', pivotAboveTip, -effectiveLength / 2, effectiveLength / 2, 'mm');
  return Math.asin(pivotAboveTip / effectiveLength) - Math.asin(pivotAboveTip / (effectiveLength + forward));
}

/**
 * Pivot to cantilever's tip, mm: length of a cantilever where none is known. From memory, not seen in a source; cantilevers
 * of 5 to 7 mm are usual, and a short one turns further under the same force.
 */
const SHORT_CANTILEVER = 5;

/**
 * How far a cantilever turns under another force, for small angles: ΔF C / ℓ.
 *
 * @param compliance at rest, m/N
 * @param cantilever mm
 * @returns rad, more force positive: the cantilever lies flatter
 */
export function cantileverTurn(forceChange: number, compliance: number, cantilever: number = SHORT_CANTILEVER): number {
  within('forceChange', forceChange, -1, 1, 'N');
  within('compliance', compliance, 1e-5, 1, 'm/N');
  within('cantilever', cantilever, 1, 30, 'mm');
  return (1e3 * forceChange * compliance) / cantilever;
}

/**
 * How far the tip swings sideways when the headshell is turned about the arm: h sin δ.
 *
 * @param tipBelowAxis mm
 * @param turn rad
 * @returns mm
 */
export function sideSwing(tipBelowAxis: number, turn: number): number {
  within('tipBelowAxis', tipBelowAxis, 0, 100, 'mm');
  within('turn', turn, -Math.PI / 4, Math.PI / 4, 'rad');
  return tipBelowAxis * Math.sin(turn);
}

/**
 * How far a raised pivot draws the tip along the arm, mm: √(L² − h²) − √(L² − (h + Δh)²) for a tip kept on the record.
 *
 * @param rise of the pivot, mm
 * @param pivotAboveTip h, mm, before
 */
export function drawOfRise(rise: number, effectiveLength: number, pivotAboveTip: number): number {
  within('effectiveLength', effectiveLength, 20, 2000, 'mm');
  within('pivotAboveTip', pivotAboveTip, -effectiveLength / 2, effectiveLength / 2, 'mm');
  within('rise', rise, -effectiveLength / 4, effectiveLength / 4, 'mm');
  return (
    Math.sqrt(effectiveLength ** 2 - pivotAboveTip ** 2) - Math.sqrt(effectiveLength ** 2 - (pivotAboveTip + rise) ** 2)
  );
}
