/** What was typed about a reading → the readings that core/geometry turns into a move. */

import type { PlaceDocument } from '../../../geometry/document.ts';
import type { PlaceRequest } from '../../../geometry/placeRequest.ts';
import { type PointReading, type Reading, squareAt } from '../../../geometry/readings.ts';
import { degToRad } from '../../../units/units.ts';
import { statement } from '../../../words/statement.ts';
import type { Field } from '../../fields/field.ts';
import { pointFields, pointRadius, readFields } from './fields.ts';
import { missingField, neededField, optionalField, Unusable } from './fieldValue.ts';
import type { DrawnSheet, PointTyped, ReadTyped, SheetTyped } from './typed.ts';

export type ReadRequest = NonNullable<PlaceRequest['readings']>;

type Which = 'inner' | 'outer';

/** Sheet that readings refer to: the one drawn here last, or the one that would be drawn now. */
export function sheetRead(read: ReadTyped, sheet: SheetTyped, solved: PlaceDocument): DrawnSheet | null {
  const { spindleToPivotMm, effectiveLengthMm, nullPointsMm } = solved;
  const now: DrawnSheet | null =
    spindleToPivotMm === null || effectiveLengthMm === null
      ? null
      : { spindleToPivotMm, effectiveLengthMm, nullPointsMm };
  const kind = read.kind ?? 'miss';
  const drawn = kind === 'miss' ? sheet.drawnArc : sheet.drawnTwoPoint;
  const wanted = read.sheetFor ?? (drawn === undefined ? 'solved' : 'printed');
  return wanted === 'printed' && drawn !== undefined ? drawn : now;
}

/** Radius of a drawn point as it stands in its field: typed, or the sheet's own null point. */
export function radiusText(read: ReadTyped, which: Which, sheet: DrawnSheet | null): string {
  const nulls = sheet?.nullPointsMm ?? [];
  const own = which === 'inner' ? nulls[0] : nulls.length > 1 ? nulls[1] : undefined;
  return read[which]?.radius ?? (own === undefined ? '' : own.toFixed(2));
}

/** The field of a point, named with its point. */
const fieldAt = (which: Which, name: keyof typeof pointFields): Field => ({
  ...pointFields[name],
  label: `${pointFields[name].label}, at the ${which} point`,
});

const begun = (point: PointTyped | undefined, keys: readonly (keyof PointTyped)[]): boolean =>
  keys.some((key) => (point?.[key] ?? '').trim() !== '');

/** Radius of the point at which a twist was read beside the ruler: typed, or the sheet's inner null point. */
export const rulerRadiusText = (read: ReadTyped, sheet: DrawnSheet | null): string =>
  read.rulerRadius ?? sheet?.nullPointsMm[0]?.toFixed(2) ?? '';

function rulerTwist(read: ReadTyped, sheet: DrawnSheet | null, angle?: number, mm?: number): readonly Reading[] {
  const twist = optionalField(readFields.rulerTwist, read.rulerTwist);
  if (twist === undefined) return [];
  const radius = neededField(readFields.rulerRadius, rulerRadiusText(read, sheet));
  return [{ kind: 'twist', radius, twist: degToRad(twist), uncertainty: { twist: angle, radius: mm } }];
}

/** @throws Unusable where a field is empty or out of its bounds */
function readingsOf(read: ReadTyped, sheet: DrawnSheet | null): readonly Reading[] {
  const mm = optionalField(readFields.withinMm, read.withinMm);
  const deg = optionalField(readFields.withinDeg, read.withinDeg);
  const angle = deg === undefined ? undefined : degToRad(deg);
  const radius = (which: Which) => neededField(pointRadius(which), radiusText(read, which, sheet));
  const twistReading = (which: Which): Reading => ({
    kind: 'twist',
    radius: radius(which),
    twist: degToRad(neededField(fieldAt(which, 'twist'), read[which]?.twist)),
    uncertainty: { twist: angle, radius: mm },
  });
  switch (read.kind ?? 'miss') {
    case 'miss': {
      let drawnFor: PointReading['drawnFor'];
      if (read.sheetFor === 'other') {
        drawnFor = {
          spindleToPivot: neededField(readFields.sheetPivot, read.sheetPivot),
          effectiveLength: neededField(readFields.sheetLength, read.sheetLength),
        };
      } else {
        if (sheet === null) throw new Unusable(statement('arc-swings'), false);
        drawnFor = { spindleToPivot: sheet.spindleToPivotMm, effectiveLength: sheet.effectiveLengthMm };
      }
      const points = (['inner', 'outer'] as const).filter((which) => begun(read[which], ['along', 'across', 'twist']));
      if (points.length === 0) throw missingField('What was read at one point: forward, outward, turned');
      return points.map((which) => ({
        kind: 'point',
        radius: radius(which),
        along: neededField(fieldAt(which, 'along'), read[which]?.along),
        across: neededField(fieldAt(which, 'across'), read[which]?.across),
        twist: degToRad(neededField(fieldAt(which, 'twist'), read[which]?.twist)),
        drawnFor,
        uncertainty: { along: mm, across: mm, twist: angle },
      }));
    }
    case 'twist':
      return [twistReading('inner'), twistReading('outer')];
    case 'square':
      return squareAt(
        neededField(readFields.squareFirst, read.squareFirst),
        neededField(readFields.squareSecond, read.squareSecond),
        { twist: angle, radius: mm },
      );
    case 'ruler':
      return [
        {
          kind: 'overhang',
          overhang: neededField(readFields.rulerOverhang, read.rulerOverhang),
          uncertainty: { overhang: mm },
        },
        ...rulerTwist(read, sheet, angle, mm),
      ];
    case 'stated':
      return [
        {
          kind: 'length',
          effectiveLength: neededField(readFields.statedLength, read.statedLength),
          uncertainty: { effectiveLength: mm },
        },
        {
          kind: 'offset',
          offset: degToRad(neededField(readFields.statedOffset, read.statedOffset)),
          uncertainty: { offset: angle },
        },
      ];
  }
}

/**
 * @param sheet the sheet that was read off
 * @throws Unusable where a field is empty or out of its bounds
 */
export function readRequest(read: ReadTyped, sheet: DrawnSheet | null): ReadRequest {
  const readings = readingsOf(read, sheet);
  const turn = optionalField(readFields.turnLeft, read.turnLeft);
  const slotAngle = optionalField(readFields.slotAngle, read.slotAngle);
  const forward = optionalField(readFields.slotsForward, read.slotsForward);
  const back = optionalField(readFields.slotsBack, read.slotsBack);
  return {
    readings,
    travel: {
      ...(forward === undefined ? {} : { forward }),
      ...(back === undefined ? {} : { back }),
      ...(turn === undefined ? {} : { turn: degToRad(turn) }),
    },
    tipAhead: optionalField(readFields.tipAhead, read.tipAhead),
    slotAngle: slotAngle === undefined ? undefined : degToRad(slotAngle),
    spindleToPivotUncertainty: optionalField(readFields.withinPivot, read.withinPivot),
  };
}

/** Something of the reading itself was typed; what is said of the shell and of how well one reads does not count. */
export function isBegun(read: ReadTyped): boolean {
  switch (read.kind ?? 'miss') {
    case 'miss':
      return begun(read.inner, ['along', 'across', 'twist']) || begun(read.outer, ['along', 'across', 'twist']);
    case 'twist':
      return begun(read.inner, ['twist']) || begun(read.outer, ['twist']);
    case 'square':
      return [read.squareFirst, read.squareSecond].some((text) => (text ?? '').trim() !== '');
    case 'ruler':
      return [read.rulerOverhang, read.rulerTwist].some((text) => (text ?? '').trim() !== '');
    case 'stated':
      return [read.statedLength, read.statedOffset].some((text) => (text ?? '').trim() !== '');
  }
}

/** The same form with nothing read: what is left once the cartridge was moved. What is said of reading well stays. */
export function emptied(read: ReadTyped): ReadTyped {
  const {
    inner,
    outer,
    squareFirst,
    squareSecond,
    rulerOverhang,
    rulerTwist: _twist,
    statedLength,
    statedOffset,
    ...rest
  } = read;
  const { slotsForward, slotsBack, turnLeft, ...stays } = rest;
  return {
    ...stays,
    ...(inner?.radius === undefined ? {} : { inner: { radius: inner.radius } }),
    ...(outer?.radius === undefined ? {} : { outer: { radius: outer.radius } }),
  };
}
