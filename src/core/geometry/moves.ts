/** The moves as statements and figures: what to do, which way, how far, how sure, and what it brings. */
import { radToDeg } from '../units/units.ts';
import type { Code } from '../words/catalogue.ts';
import type { Found } from '../words/found.ts';
import { type Statement, sayAll, statement } from '../words/statement.ts';
import type { ArmFigures } from './distortion.ts';
import type { Estimated } from './estimate.ts';

/** One thing to do, in the shape that all advice has. */
export interface Move {
  readonly action: 'slide' | 'twist';
  /** never negative */
  readonly amount: number;
  readonly unit: 'mm' | 'deg';
  readonly direction: 'forward' | 'back' | 'clockwise-from-above' | 'anticlockwise-from-above';
  readonly predicts: readonly { readonly quantity: string; readonly value: number; readonly unit: string }[];
  readonly reasons: readonly Statement[];
  readonly cautions: readonly Statement[];
  /** `reasons` and `cautions` in words */
  readonly why: string;
  readonly caution: string;
  /** expanded, k = 2, in the amount's unit */
  readonly uncertainty: number;
  /** both what is wanted and what is possible are no more than the readings can tell: it may stay as it is */
  readonly withinReading: boolean;
}

/** Figures with what the readings leave open. */
export interface SpreadFigures {
  readonly figures: ArmFigures;
  /** expanded uncertainty of each null radius, mm; null where some draws have not the same number of nulls */
  readonly nullPointsUncertaintyMm: readonly number[] | null;
  /** 95 % of the draws lie between these, percent */
  readonly peakDistortionFromPercent: number;
  readonly peakDistortionToPercent: number;
}

function predictions({ figures }: SpreadFigures): Move['predicts'] {
  const { nullPointsMm: nulls } = figures;
  const names = nulls.length === 2 ? ['null-point-inner', 'null-point-outer'] : nulls.map(() => 'null-point');
  return [
    ...nulls.map((value, i) => ({ quantity: names[i], value, unit: 'mm' })),
    { quantity: 'peak-distortion', value: figures.peakDistortionPercent, unit: '%' },
    { quantity: 'rms-distortion', value: figures.rmsDistortionPercent, unit: '%' },
  ];
}

/**
 * @param slide mm, forward positive
 * @param twist rad, clockwise positive
 * @param heldBy what keeps the move from the target
 * @param wanted the move to the target itself: where slots or shell end before it, more than `slide` and `twist` can be
 */
export function movesTold(
  slide: Estimated,
  twist: Found<Estimated>,
  before: Found<SpreadFigures>,
  after: Found<SpreadFigures>,
  heldBy: readonly Statement[],
  wanted: { readonly slide: number; readonly twist: number },
): readonly Move[] {
  const predicts = after.found ? predictions(after.value) : [];
  const brings: Statement[] = [];
  if (before.found && after.found) {
    brings.push(
      statement('move-brings', {
        before: before.value.figures.peakDistortionPercent,
        after: after.value.figures.peakDistortionPercent,
        most: after.value.peakDistortionToPercent,
      }),
    );
  }
  if (heldBy.length > 0) {
    const held = heldBy.reduce((first, second) => statement('held-both', { first, second }));
    brings.push(statement('best-that-remains', { held }));
  }
  if (!twist.found) brings.push(statement('twist-read-after'));
  const cautions = [statement('caution-cartridge-loose')];
  const move = (
    { action, unit, direction }: Pick<Move, 'action' | 'unit' | 'direction'>,
    { value, uncertainty }: Estimated,
    target: number,
  ): Move => {
    const amount = Math.abs(value);
    const withinReading = Math.max(amount, Math.abs(target)) <= uncertainty;
    const does = statement(moveCodes[direction][withinReading ? 1 : 0], { amount, within: uncertainty });
    const reasons = [does, ...brings];
    return {
      action,
      amount,
      unit,
      direction,
      predicts,
      reasons,
      cautions,
      why: sayAll(reasons),
      caution: sayAll(cautions),
      uncertainty,
      withinReading,
    };
  };
  const way = slide.value >= 0 ? 'forward' : 'back';
  const list = [move({ action: 'slide', unit: 'mm', direction: way }, slide, wanted.slide)];
  if (twist.found) {
    const direction = twist.value.value >= 0 ? 'clockwise-from-above' : 'anticlockwise-from-above';
    const turn = { value: radToDeg(twist.value.value), uncertainty: radToDeg(twist.value.uncertainty) };
    list.push(move({ action: 'twist', unit: 'deg', direction }, turn, radToDeg(wanted.twist)));
  }
  return list;
}

/** The move, and the move that may as well be left. */
const moveCodes = {
  forward: ['slide-forward-by', 'slide-forward-or-stay'],
  back: ['slide-back-by', 'slide-back-or-stay'],
  'clockwise-from-above': ['twist-clockwise-by', 'twist-clockwise-or-stay'],
  'anticlockwise-from-above': ['twist-anticlockwise-by', 'twist-anticlockwise-or-stay'],
} as const satisfies Record<Move['direction'], readonly [Code, Code]>;
