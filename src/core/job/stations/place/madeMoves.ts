/**
 * Predict, move, verify at Place: every move that was made, with the figures before it and what it should bring, beside
 * what was read afterwards.
 */
import type { JudgedFinding } from '../../../advise/document.ts';
import { pivotedArm } from '../../../geometry/arm.ts';
import { armFigures, usualLoudness } from '../../../geometry/distortion.ts';
import type { PlaceDocument, PlaceRequest } from '../../../geometry/document.ts';
import type { SpreadFigures } from '../../../geometry/moves.ts';
import { armAfterMove, straightMount, USUAL_TIP_AHEAD } from '../../../geometry/slide.ts';
import { degToRad, radToDeg } from '../../../units/units.ts';
import { shownFigure } from '../../../words/figure.ts';
import type { PredictionCheck } from '../../api.ts';
import { checkAdvice } from '../../checkAdvice.ts';
import type { Kept, KeptFigures, MadeMove } from './typed.ts';

function spreadKept(spread: SpreadFigures): Pick<KeptFigures, 'nullPointsMm' | 'peakPercent'> {
  const { figures, nullPointsUncertaintyMm, peakDistortionFromPercent: low, peakDistortionToPercent: high } = spread;
  return {
    nullPointsMm: figures.nullPointsMm.map((value, i) => ({
      value,
      uncertainty: nullPointsUncertaintyMm?.[i] ?? null,
    })),
    peakPercent: { value: figures.peakDistortionPercent, uncertainty: (high - low) / 2, low, high },
  };
}

/** How it stands by what was read; null where nothing that was read tells. */
export function standsAs(place: PlaceDocument): KeptFigures | null {
  const stands = place.asItStands;
  if (stands === null) return null;
  const { overhangMm, offsetDeg, figures } = stands;
  return {
    overhangMm,
    offsetDeg,
    ...(figures === null ? { nullPointsMm: [], peakPercent: null } : spreadKept(figures)),
  };
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
export function predictedAfter(place: PlaceDocument, request: PlaceRequest, did: Did): KeptFigures | null {
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
  const overhang = { value: after.effectiveLength - after.spindleToPivot, uncertainty: overhangMm.uncertainty };
  if (offsetDeg === null) return { overhangMm: overhang, offsetDeg: null, nullPointsMm: [], peakPercent: null };
  const figures = armFigures(after, request.span, { ...usualLoudness, rpm: place.rpm });
  const bare = (value: number): Kept => ({ value, uncertainty: null });
  return {
    overhangMm: overhang,
    offsetDeg: { value: radToDeg(after.offset), uncertainty: offsetDeg.uncertainty },
    ...(did.slide && did.twist && stands.after !== null
      ? spreadKept(stands.after)
      : figures.found
        ? { nullPointsMm: figures.value.nullPointsMm.map(bare), peakPercent: bare(figures.value.peakDistortionPercent) }
        : { nullPointsMm: [], peakPercent: null }),
  };
}

/** Names of the figures of one reading, in the order of the page. */
export const figureWords: Readonly<Record<string, string>> = {
  overhang: 'overhang',
  offset: 'offset',
  'null-point-inner': 'inner null point',
  'null-point-outer': 'outer null point',
  'null-point': 'null point',
  'peak-distortion': 'highest second harmonic',
};

export interface NamedFigure extends Kept {
  readonly quantity: string;
  readonly unit: string;
}

/**
 * "16.3 ± 0.3 mm", "0.72 % (0.62 to 0.88)", "0.62 %, up to 1.03 %" where the figure is the least that can be; a figure without uncertainty to the digit of the one that it stands beside.
 */
export function shownKept({ value, unit, uncertainty, low, high }: NamedFigure, beside?: Kept): string {
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

/** The figures of one reading under their names. */
export function named(figures: KeptFigures): readonly NamedFigure[] {
  const { overhangMm, offsetDeg, nullPointsMm, peakPercent } = figures;
  const names = nullPointsMm.length === 2 ? ['null-point-inner', 'null-point-outer'] : ['null-point'];
  return [
    { quantity: 'overhang', unit: 'mm', ...overhangMm },
    ...(offsetDeg === null ? [] : [{ quantity: 'offset', unit: 'deg', ...offsetDeg }]),
    ...nullPointsMm.map((one, i) => ({ quantity: names[i], unit: 'mm', ...one })),
    ...(peakPercent === null ? [] : [{ quantity: 'peak-distortion', unit: '%', ...peakPercent }]),
  ];
}

const findings = (figures: KeptFigures): JudgedFinding[] =>
  named(figures).map(({ quantity, value, unit, uncertainty }) => ({
    quantity,
    value,
    unit,
    uncertainty,
    bands: [],
    note: '',
    verdict: 'info',
  }));

/** Every prediction of a move beside what was read after it, by the rule that all advice is checked by. */
export function checkMove(move: Pick<MadeMove, 'before' | 'predicted'>, read: KeptFigures): readonly PredictionCheck[] {
  const predicts = named(move.predicted).map(({ quantity, value, unit }) => ({ quantity, value, unit }));
  return checkAdvice(
    { action: 'slide', amount: null, unit: 'mm', direction: null, predicts, why: '' },
    { findings: findings(read) },
    { findings: findings(move.before) },
  );
}

/** The moves once another one is made: the reading that it rests on is the check of the one before. */
export function withMove(moves: readonly MadeMove[], move: Omit<MadeMove, 'read'>): readonly MadeMove[] {
  const last = moves.at(-1);
  const earlier = last === undefined ? [] : [...moves.slice(0, -1), { ...last, read: last.read ?? move.before }];
  return [...earlier, { ...move, read: null }];
}

/** "1.2 mm forward", "0.8° clockwise, seen from above" */
export const slideWords = (mm: number): string => `${Math.abs(mm).toFixed(1)} mm ${mm >= 0 ? 'forward' : 'back'}`;
export const twistWords = (deg: number): string =>
  `${Math.abs(deg).toFixed(1)}° ${deg >= 0 ? 'clockwise' : 'anticlockwise'}, seen from above`;

/** What was done, as one phrase. */
export const doneWords = ({ slideMm, twistDeg }: Pick<MadeMove, 'slideMm' | 'twistDeg'>): string =>
  [slideMm === null ? '' : `slid ${slideWords(slideMm)}`, twistDeg === null ? '' : `twisted ${twistWords(twistDeg)}`]
    .filter((part) => part !== '')
    .join('; ');
