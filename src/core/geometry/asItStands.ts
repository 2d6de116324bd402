/** The arm as its readings tell that it stands. */
import { radToDeg } from '../units/units.ts';
import { type Found, none, valueOrNull } from '../words/found.ts';
import { type Statement, say, statement } from '../words/statement.ts';
import type { Arm } from './arm.ts';
import type { Range } from './constrain.ts';
import type { Loudness } from './distortion.ts';
import { findMove, type Inversion } from './invert.ts';
import type { SpreadFigures } from './moves.ts';
import type { PlaceRequest } from './placeRequest.ts';

/** A figure with its expanded uncertainty, k = 2. */
export interface Uncertain {
  readonly value: number;
  readonly uncertainty: number;
}

export interface AsItStands {
  readonly effectiveLengthMm: Uncertain;
  readonly overhangMm: Uncertain;
  readonly offsetDeg: Uncertain | null;
  readonly figures: SpreadFigures | null;
  readonly slideMm: Uncertain;
  readonly twistDeg: Uncertain | null;
  readonly after: SpreadFigures | null;
  /** `held` and `disagrees` in words */
  readonly heldBy: readonly string[];
  readonly disagreement: string | null;
  readonly held: readonly Statement[];
  readonly disagrees: Statement | null;
}

const inDegrees = ({ value, uncertainty }: Uncertain): Uncertain => ({
  value: radToDeg(value),
  uncertainty: radToDeg(uncertainty),
});

/** What a solved reading says, in the units of the document. */
export function standing(inversion: Inversion): AsItStands {
  const { estimate, before, after, slide, twist } = inversion;
  const { arm, effectiveLength, factor } = estimate;
  // overhang = L − d: its variance from the factor's rows
  const difference = factor[0].map((x, k) => x - factor[2][k]);
  return {
    effectiveLengthMm: effectiveLength,
    overhangMm: {
      value: arm.effectiveLength - arm.spindleToPivot,
      uncertainty: 2 * Math.hypot(...difference),
    },
    offsetDeg: estimate.offset.found ? inDegrees(estimate.offset.value) : null,
    figures: valueOrNull(before),
    slideMm: slide,
    twistDeg: twist.found ? inDegrees(twist.value) : null,
    after: valueOrNull(after),
    heldBy: inversion.heldBy.map(say),
    held: inversion.heldBy,
    disagreement: estimate.disagreement === null ? null : say(estimate.disagreement),
    disagrees: estimate.disagreement,
  };
}

const isFixed = (range: Range | undefined): boolean => range !== undefined && range.least === range.most;

/** What the readings tell; null where nothing was read. A length or offset that is fixed cannot be moved. */
export function invert(request: PlaceRequest, arm: Arm, loudness: Loudness, seed: number): Found<Inversion> | null {
  const { readings: read, length, span, criterion, music, limits } = request;
  if (read === undefined) return null;
  if (arm.kind === 'tangential') {
    return none(statement('tangential-not-read'));
  }
  if (length.known !== 'spindle-to-pivot') {
    return none(statement('pivot-not-measured'));
  }
  const { spindleToPivotUncertainty: uncertainty, travel = {}, ...rest } = read;
  const slots = isFixed(limits?.effectiveLength) ? { forward: 0, back: 0 } : {};
  const shell = isFixed(limits?.offset) ? { turn: 0 } : {};
  return findMove({
    ...rest,
    travel: { ...slots, ...shell, ...travel },
    spindleToPivot: { value: length.mm, uncertainty },
    span,
    criterion,
    music,
    loudness,
    limits,
    seed,
  });
}
