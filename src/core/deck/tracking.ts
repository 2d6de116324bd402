/** The deck's angles against the groove at a radius. */
import type { Deck } from './deck.ts';
import { axisOf, grooveSpeedCmS, type ReadingAngles, readingShift } from './groove.ts';
import type { Sheet, SheetBand } from './sheet.ts';
import { exactRpm } from './side.ts';

/** Where the record's certificate says nothing: 20° (IEC 60098:2020, 20° +5/−0). */
export const CUT_VERTICAL_ANGLE_DEG = 20;

/**
 * Tracking error θ − φ, degrees: sin θ = (r² + L² − d²)/(2rL), plus the deck's constant error.
 * @throws RangeError when the arm cannot reach the radius
 */
export function trackingErrorDeg(deck: Deck, radiusMm: number): number {
  const { geometry, trackingErrorDeg: constant } = deck.arm;
  if (geometry === null) return constant;
  const { spindleToPivotMm: d, effectiveLengthMm: l, offsetDeg } = geometry;
  const sine = (radiusMm ** 2 + l ** 2 - d ** 2) / (2 * radiusMm * l);
  if (!(Math.abs(sine) < 1)) {
    throw new RangeError(
      `arm.geometry: an arm of ${l} mm with its pivot ${d} mm from the spindle cannot reach the radius of ${radiusMm} mm`,
    );
  }
  return (Math.asin(sine) * 180) / Math.PI - offsetDeg + constant;
}

export const verticalErrorDeg = (deck: Deck, sheet: Sheet): number =>
  deck.arm.verticalAngleDeg - (sheet.cut?.verticalAngleDeg ?? CUT_VERTICAL_ANGLE_DEG);

export function readingAngles(deck: Deck, sheet: Sheet, radiusMm: number): ReadingAngles {
  const tan = (deg: number) => Math.tan((deg * Math.PI) / 180);
  return {
    tanTracking: tan(trackingErrorDeg(deck, radiusMm)),
    tanVertical: tan(deck.arm.verticalAngleDeg) - tan(sheet.cut?.verticalAngleDeg ?? CUT_VERTICAL_ANGLE_DEG),
  };
}

/** κ of a band at its radius (groove.ts), s/cm. */
export const bandShift = (deck: Deck, sheet: Sheet, band: SheetBand, radiusMm: number): number =>
  readingShift(
    axisOf(band, sheet),
    readingAngles(deck, sheet, radiusMm),
    grooveSpeedCmS(exactRpm(sheet.rpm), radiusMm),
  );
