/** Predict, move, verify at Place: the figures before a move, what it should bring, and its record (`moveRecord.ts`). */
import { pivotedArm } from '../../../geometry/arm.ts';
import { armFigures, usualLoudness } from '../../../geometry/distortion.ts';
import type { PlaceDocument } from '../../../geometry/document.ts';
import type { SpreadFigures } from '../../../geometry/moves.ts';
import type { PlaceRequest } from '../../../geometry/placeRequest.ts';
import { armAfterMove, straightMount, USUAL_TIP_AHEAD } from '../../../geometry/slide.ts';
import { degToRad, radToDeg } from '../../../units/units.ts';
import { shownFigure } from '../../../words/figure.ts';
import type { MoveFigure, MoveStep } from '../../moveRecord.ts';
import { aimedArm } from './arms.ts';
import type { Known, MadeMove } from './typed.ts';

const mm = { unit: 'mm' } as const;

/** Null points under their names: inner and outer, or the one there is. */
const nullPoints = (points: readonly Pick<MoveFigure, 'value' | 'uncertainty'>[]): MoveFigure[] => {
  const names = points.length === 2 ? ['null-point-inner', 'null-point-outer'] : ['null-point'];
  return points.map((one, i) => ({ quantity: names[i], ...mm, value: one.value, uncertainty: one.uncertainty }));
};

function spreadOf(spread: SpreadFigures): MoveFigure[] {
  const { figures, nullPointsUncertaintyMm, peakDistortionFromPercent: low, peakDistortionToPercent: high } = spread;
  return [
    ...nullPoints(
      figures.nullPointsMm.map((value, i) => ({ value, uncertainty: nullPointsUncertaintyMm?.[i] ?? null })),
    ),
    {
      quantity: 'peak-distortion',
      unit: '%',
      value: figures.peakDistortionPercent,
      uncertainty: (high - low) / 2,
      low,
      high,
    },
  ];
}

const overhangIs = (value: number, uncertainty: number | null): MoveFigure => ({
  quantity: 'overhang',
  ...mm,
  value,
  uncertainty,
});
const offsetIs = (value: number, uncertainty: number | null): MoveFigure => ({
  quantity: 'offset',
  unit: 'deg',
  value,
  uncertainty,
});

/** How it stands by what was read, in the order of the page; null where nothing that was read tells. */
export function standsAs(place: PlaceDocument): readonly MoveFigure[] | null {
  const stands = place.asItStands;
  if (stands === null) return null;
  const { overhangMm, offsetDeg, figures } = stands;
  return [
    overhangIs(overhangMm.value, overhangMm.uncertainty),
    ...(offsetDeg === null ? [] : [offsetIs(offsetDeg.value, offsetDeg.uncertainty)]),
    ...(figures === null ? [] : spreadOf(figures)),
  ];
}

export interface Did {
  readonly slide: boolean;
  readonly twist: boolean;
}

/**
 * What the move, or the part of it that was made, should bring. Null where nothing was read.
 *
 * Overhang and offset carry the reading's own uncertainty. Null points and harmonic have theirs from the core's draws
 * where the whole move was made; of a part of it they are given without.
 */
export function predictedAfter(place: PlaceDocument, request: PlaceRequest, did: Did): readonly MoveFigure[] | null {
  const stands = place.asItStands;
  if (stands === null) return null;
  const { effectiveLengthMm, overhangMm, offsetDeg, slideMm, twistDeg } = stands;
  const pivot = effectiveLengthMm.value - overhangMm.value;
  // with the twist not read the cartridge is taken to stand as it is aimed at: only the overhang is told then
  const arm = pivotedArm(pivot, effectiveLengthMm.value, degToRad(offsetDeg?.value ?? place.offsetDeg));
  const { slotAngle, tipAhead = USUAL_TIP_AHEAD } = request.readings ?? {};
  const mount = slotAngle === undefined ? straightMount(arm, tipAhead) : { slotAngle, tipAhead };
  const after = armAfterMove(arm, mount, {
    slide: did.slide ? slideMm.value : 0,
    twist: did.twist ? degToRad(twistDeg?.value ?? 0) : 0,
  });
  const overhang = overhangIs(after.effectiveLength - after.spindleToPivot, overhangMm.uncertainty);
  if (offsetDeg === null) return [overhang];
  const told = [overhang, offsetIs(radToDeg(after.offset), offsetDeg.uncertainty)];
  if (did.slide && did.twist && stands.after !== null) return [...told, ...spreadOf(stands.after)];
  const figures = armFigures(after, request.span, { ...usualLoudness, rpm: place.rpm });
  if (!figures.found) return told;
  const { nullPointsMm, peakDistortionPercent: value } = figures.value;
  return [
    ...told,
    ...nullPoints(nullPointsMm.map((radius) => ({ value: radius, uncertainty: null }))),
    { quantity: 'peak-distortion', unit: '%', value, uncertainty: null },
  ];
}

/** Names of the figures of one reading within a sentence, in the order of the page. */
const names: Readonly<Record<string, string>> = {
  overhang: 'overhang',
  offset: 'offset',
  'null-point-inner': 'inner null point',
  'null-point-outer': 'outer null point',
  'null-point': 'null point',
  'peak-distortion': 'highest second harmonic',
};
export const figureWords = (quantity: string): string => names[quantity] ?? quantity.replaceAll('-', ' ');

/**
 * "16.3 ± 0.3 mm", "0.72 % (0.62 to 0.88)", "0.62 %, up to 1.03 %" where the figure is the least that can be; a figure without uncertainty to the digit of the one that it stands beside.
 */
export function shownKept(
  { value, unit, uncertainty, low, high }: MoveFigure,
  beside?: Pick<MoveFigure, 'uncertainty'>,
): string {
  if (low !== undefined && high !== undefined) {
    return value < low
      ? `${value.toFixed(2)} ${unit}, up to ${high.toFixed(2)} ${unit}`
      : `${value.toFixed(2)} ${unit} (${low.toFixed(2)} to ${high.toFixed(2)})`;
  }
  if (uncertainty !== null || beside === undefined || beside.uncertainty === null) {
    return shownFigure(value, unit, uncertainty);
  }
  const digits = (shownFigure(value, unit, beside.uncertainty).split(' ')[0].split('.')[1] ?? '').length;
  return unit === '%' ? `${value.toFixed(2)} %` : `${value.toFixed(digits)}${unit === 'deg' ? '°' : ` ${unit}`}`;
}

/** "1.2 mm forward", "0.8° clockwise, seen from above" */
export const slideWords = (mm: number): string => `${Math.abs(mm).toFixed(1)} mm ${mm >= 0 ? 'forward' : 'back'}`;
/** "0.8° clockwise", where the view says from where */
export const turnWords = (deg: number): string =>
  `${Math.abs(deg).toFixed(1)}° ${deg >= 0 ? 'clockwise' : 'anticlockwise'}`;
export const twistWords = (deg: number): string => `${turnWords(deg)}, seen from above`;

/**
 * The record of a move at Place.
 *
 * @param moved the slide, forward positive, null where the cartridge was not slid; the twist, clockwise seen from above positive, null
 * where it was not twisted; one of the two is not null
 */
export function placeMove(
  moved: { readonly slideMm: number | null; readonly twistDeg: number | null },
  record: Pick<MadeMove, 'at' | 'before' | 'foretold' | 'reading'>,
): MadeMove {
  const { slideMm, twistDeg } = moved;
  const steps: MoveStep[] = [
    ...(slideMm === null
      ? []
      : [
          {
            move: 'slide',
            amount: Math.abs(slideMm),
            unit: 'mm',
            direction: slideMm >= 0 ? 'forward' : 'back',
          } as const,
        ]),
    ...(twistDeg === null
      ? []
      : [
          {
            move: 'twist',
            amount: Math.abs(twistDeg),
            unit: 'deg',
            direction: twistDeg >= 0 ? 'clockwise, seen from above' : 'anticlockwise, seen from above',
          } as const,
        ]),
  ];
  const [first, ...also] = steps;
  return { ...first, ...(also.length === 0 ? {} : { also }), ...record, station: 'place', came: null };
}

/**
 * The record of an arm base that was moved: to where it belongs where the pivot is what was solved for, else to the distance
 * that is typed. With the distance typed nothing is foretold of it: the cartridge's own move is told for it anew.
 *
 * @param known what was known of the arm
 * @returns null for an arm without a pivot
 */
export function baseMove(
  place: PlaceDocument,
  known: Known,
  record: Pick<MadeMove, 'at' | 'reading'>,
): MadeMove | null {
  const arm = aimedArm(place);
  if (arm === null) return null;
  const { spindleToPivot } = arm;
  const length = place.asItStands?.effectiveLengthMm.value ?? arm.effectiveLength;
  return {
    move: 'set-pivot-distance',
    amount: spindleToPivot,
    unit: 'mm',
    direction: null,
    ...record,
    station: 'place',
    before: standsAs(place) ?? [],
    foretold: known === 'spindle-to-pivot' ? [] : [overhangIs(length - spindleToPivot, null)],
    came: null,
  };
}
