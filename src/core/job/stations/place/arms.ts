/** The arms of a place document as geometry sees them. */
import type { PivotedArm } from '../../../geometry/arm.ts';
import type { PlaceDocument } from '../../../geometry/document.ts';
import { type GrooveSpan, ownSpan } from '../../../geometry/span.ts';
import { degToRad } from '../../../units/units.ts';

/** The arm that is aimed at; null for a tangential one. */
export function aimedArm(place: PlaceDocument): PivotedArm | null {
  const { spindleToPivotMm, effectiveLengthMm, offsetDeg } = place;
  if (spindleToPivotMm === null || effectiveLengthMm === null) return null;
  return {
    kind: 'pivoted',
    spindleToPivot: spindleToPivotMm,
    effectiveLength: effectiveLengthMm,
    offset: degToRad(offsetDeg),
  };
}

/** The arm by what was read; null where the readings do not tell all of it. */
export function standingArm(place: PlaceDocument): PivotedArm | null {
  const stands = place.asItStands;
  if (stands === null || stands.offsetDeg === null) return null;
  return {
    kind: 'pivoted',
    spindleToPivot: stands.effectiveLengthMm.value - stands.overhangMm.value,
    effectiveLength: stands.effectiveLengthMm.value,
    offset: degToRad(stands.offsetDeg.value),
  };
}

export const spanIn = ({ groove }: PlaceDocument): GrooveSpan => ({
  ...ownSpan(groove.innerMm, groove.outerMm),
  name: groove.name,
  source: groove.source,
});
