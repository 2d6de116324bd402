/** The deck's angles against the groove at a radius. */
import type { Deck } from './deck.ts';
import { cutTiltDeg, grooveSpeedCmS } from './groove.ts';
import type { Sheet } from './sheet.ts';
import { exactRpm } from './side.ts';
import type { Reading } from './tipReading.ts';

/** Where the record's certificate says nothing: 20° (IEC 60098:2020, 20° +5/−0). */
const CUT_VERTICAL_ANGLE_DEG = 20;

const rad = (deg: number): number => (deg * Math.PI) / 180;
const deg = (angle: number): number => (angle * 180) / Math.PI;

/**
 * Tracking error θ − φ of the arm, degrees: sin θ = (r² + L² − d²)/(2rL), plus the deck's constant error.
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
  return deg(Math.asin(sine)) - offsetDeg + constant;
}

/** How far the tip goes along the groove for a lateral (outward) and a vertical (rising) step: slopes, no unit. */
export interface PathSlope {
  readonly lateral: number;
  readonly vertical: number;
}

/**
 * A cantilever at the vertical angle α swings in a plane of its own; tilted clockwise by φ with the cartridge, and twisted so
 * that it tracks ε off the tangent, its tip's path is, in the groove's axes,
 *
 *   lateral tan ε cos φ − tan α sin φ,   vertical −(tan ε sin φ + tan α cos φ)
 */
function pathSlope(errorDeg: number, verticalAngleDeg: number, tiltDeg: number): PathSlope {
  const [e, v, phi] = [Math.tan(rad(errorDeg)), Math.tan(rad(verticalAngleDeg)), rad(tiltDeg)];
  return {
    lateral: e * Math.cos(phi) - v * Math.sin(phi),
    vertical: -(e * Math.sin(phi) + v * Math.cos(phi)),
  };
}

/** The path of the deck's tip. */
export const tipPath = (deck: Deck, radiusMm: number): PathSlope =>
  pathSlope(trackingErrorDeg(deck, radiusMm), deck.arm.verticalAngleDeg, deck.cartridge.tiltDeg);

/** The cutter's path; a cutter twisted clockwise by ζ tracks −ζ off the tangent. `stated`: by what the file says alone. */
export function cutPath(deck: Deck, sheet: Sheet, stated = false): PathSlope {
  const own = stated ? { zenithDeg: 0, verticalAngleDeg: 0 } : deck.record.cut;
  return pathSlope(
    -((sheet.cut?.zenithDeg ?? 0) + own.zenithDeg),
    (sheet.cut?.verticalAngleDeg ?? CUT_VERTICAL_ANGLE_DEG) + own.verticalAngleDeg,
    stated ? (sheet.cut?.tiltDeg ?? 0) : cutTiltDeg(deck, sheet),
  );
}

/** The tracking error of the tip's path, degrees: what the deck alone would make of a faultless record. */
export const pathErrorDeg = (deck: Deck, radiusMm: number): number => deg(Math.atan(tipPath(deck, radiusMm).lateral));

/** Vertical angle of the tip's path less that which the record file states, degrees. */
export const verticalErrorDeg = (deck: Deck, sheet: Sheet, radiusMm: number): number =>
  deg(Math.atan(-tipPath(deck, radiusMm).vertical)) - (sheet.cut?.verticalAngleDeg ?? CUT_VERTICAL_ANGLE_DEG);

/** How the tip reads the groove at a radius. */
export function readingAt(deck: Deck, sheet: Sheet, radiusMm: number): Reading {
  const speedCmS = grooveSpeedCmS(exactRpm(sheet.rpm), radiusMm);
  const tip = tipPath(deck, radiusMm);
  const cut = cutPath(deck, sheet);
  const { tipRadiusUm, stylusSkewDeg, contactWidthUm } = deck.cartridge;
  // clockwise, against the line on which the cutter's edges stood
  const skew =
    stylusSkewDeg - trackingErrorDeg(deck, radiusMm) - ((sheet.cut?.zenithDeg ?? 0) + deck.record.cut.zenithDeg);
  return {
    lateralShift: (tip.lateral - cut.lateral) / speedCmS,
    verticalShift: (tip.vertical - cut.vertical) / speedCmS,
    speedCmS,
    tipCm: tipRadiusUm * 1e-4,
    rightLagS: (contactWidthUm * 1e-4 * Math.tan(rad(skew))) / speedCmS,
  };
}
