/**
 * What a person reads off a sheet or a ruler, and what each reading says about the arm.
 *
 * Lengths mm, angles rad. Uncertainties are expanded, k = 2; the defaults are what an eye does on a 1 mm grid with a
 * lens and a steel ruler: common practice, not from a source.
 */

import { within } from '../units/bounds.ts';
import { degToRad } from '../units/units.ts';

/**
 * The tip's miss at a point drawn on a sheet that is turned until its sight line points at the pivot: along the groove
 * (towards the headshell's front positive), across it (towards the rim positive), and the cartridge's turn against the
 * grid (clockwise seen from above positive).
 */
export interface PointReading {
  readonly kind: 'point';
  /** radius of the drawn point */
  readonly radius: number;
  readonly along: number;
  readonly across: number;
  readonly twist: number;
  /** the arm that the sheet was drawn for */
  readonly drawnFor: { readonly spindleToPivot: number; readonly effectiveLength: number };
  readonly uncertainty?: {
    readonly along?: number;
    readonly across?: number;
    readonly twist?: number;
    /** how far beside the pivot the sight line may point */
    readonly sight?: number;
  };
}

/** The cartridge's turn against the groove's direction at one radius, clockwise positive; the sheet may be turned freely. */
export interface TwistReading {
  readonly kind: 'twist';
  readonly radius: number;
  readonly twist: number;
  readonly uncertainty?: { readonly twist?: number; readonly radius?: number };
}

/** Overhang by ruler. */
export interface OverhangReading {
  readonly kind: 'overhang';
  readonly overhang: number;
  readonly uncertainty?: { readonly overhang?: number };
}

/** An effective length or an offset that is known some other way. */
export interface StatedLength {
  readonly kind: 'length';
  readonly effectiveLength: number;
  readonly uncertainty?: { readonly effectiveLength?: number };
}
export interface StatedOffset {
  readonly kind: 'offset';
  readonly offset: number;
  readonly uncertainty?: { readonly offset?: number };
}

export type Reading = PointReading | TwistReading | OverhangReading | StatedLength | StatedOffset;

/** Expanded uncertainties (k = 2) of readings for which the person gives none. */
export const usualReadingUncertainty = {
  along: 0.25,
  across: 0.25,
  twist: degToRad(0.5),
  sight: 0.5,
  radius: 0.25,
  overhang: 0.5,
  effectiveLength: 0.5,
  offset: degToRad(1),
  spindleToPivot: 0.5,
} as const;

/** The two radii at which the cartridge stands square to the groove: no turn against the grid at either. */
export const squareAt = (first: number, second: number, uncertainty?: TwistReading['uncertainty']): TwistReading[] =>
  [first, second].map((radius) => ({ kind: 'twist', radius, twist: 0, uncertainty }));

/** Unknowns: L, φ, d. */
export type Unknowns = readonly [number, number, number];

/** Equations of one reading, each divided by its standard uncertainty: nought where the arm agrees. */
export type Residuals = (arm: Unknowns) => readonly number[];

const half = (name: string, given: number | undefined, usual: number, most: number, unit: string): number =>
  within(`uncertainty of ${name}`, given ?? usual, 1e-6, most, unit) / 2;

/** A bearing, clockwise from the line spindle to pivot, brought into −π to π. */
const wrap = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle));

/**
 * Where the tip is and how the cartridge points, in the frame spindle (0, 0), pivot (0, d): what L and φ follow from it.
 *
 * @param turned how far the sheet stands clockwise of its sight line, rad
 */
function armSeenAtPoint(
  reading: PointReading,
  d: number,
  miss: readonly [number, number, number],
  turned: number,
): readonly [number, number] {
  const { spindleToPivot: dt, effectiveLength: Lt } = reading.drawnFor;
  const R = reading.radius;
  const bearing = Math.acos((dt * dt + R * R - Lt * Lt) / (2 * dt * R)) + turned;
  const [along, across, twist] = miss;
  // outward (sin, cos); the groove runs clockwise: (cos, −sin)
  const out = R + across;
  const x = out * Math.sin(bearing) + along * Math.cos(bearing);
  const y = out * Math.cos(bearing) - along * Math.sin(bearing);
  const armBearing = Math.atan2(x, y - d);
  const grooveBearing = bearing + Math.PI / 2;
  return [Math.hypot(x, y - d), wrap(grooveBearing + twist - armBearing)];
}

function pointResiduals(reading: PointReading): Residuals {
  const { radius: R, drawnFor, uncertainty: u = {} } = reading;
  within('radius of the drawn point', R, 20, 200, 'mm');
  within('miss along', reading.along, -30, 30, 'mm');
  within('miss across', reading.across, -15, 15, 'mm');
  within('twist', reading.twist, -Math.PI / 6, Math.PI / 6, 'rad');
  const { spindleToPivot: dt, effectiveLength: Lt } = drawnFor;
  if (!(Math.abs(Lt - dt) <= R && R <= Lt + dt)) {
    throw new RangeError(
      `the point at ${R} mm cannot be on a template drawn for ${dt.toFixed(1)} mm to the pivot and ${Lt.toFixed(1)} mm effective length; that arm's tip comes no nearer to the spindle than ${Math.abs(Lt - dt).toFixed(1)} mm`,
    );
  }
  const usual = usualReadingUncertainty;
  const standard = [
    half('the miss along', u.along, usual.along, 10, 'mm'),
    half('the miss across', u.across, usual.across, 10, 'mm'),
    half('the twist', u.twist, usual.twist, 0.5, 'rad'),
    half('the sight line', u.sight, usual.sight, 20, 'mm') / dt,
  ];
  const seen = (shift: readonly number[], d: number): readonly [number, number] =>
    armSeenAtPoint(
      reading,
      d,
      [reading.along + shift[0], reading.across + shift[1], reading.twist + shift[2]],
      shift[3],
    );
  // covariance of (L, φ) as read, to first order, and its Cholesky factor to divide by
  let cLL = 0;
  let cLp = 0;
  let cpp = 0;
  standard.forEach((sd, i) => {
    const up = seen(
      standard.map((_, k) => (k === i ? sd : 0)),
      dt,
    );
    const down = seen(
      standard.map((_, k) => (k === i ? -sd : 0)),
      dt,
    );
    const [dL, dp] = [(up[0] - down[0]) / 2, (up[1] - down[1]) / 2];
    cLL += dL * dL;
    cLp += dL * dp;
    cpp += dp * dp;
  });
  const l11 = Math.sqrt(cLL);
  const l21 = cLp / l11;
  const l22 = Math.sqrt(cpp - l21 * l21);
  return ([L, offset, d]) => {
    const [seenL, seenOffset] = seen([0, 0, 0, 0], d);
    const first = (L - seenL) / l11;
    return [first, (wrap(offset - seenOffset) - l21 * first) / l22];
  };
}

/**
 * The equations of a reading.
 *
 * @throws RangeError naming what was read, its value and its bounds
 */
export function readingResiduals(reading: Reading): Residuals {
  const usual = usualReadingUncertainty;
  switch (reading.kind) {
    case 'point':
      return pointResiduals(reading);
    case 'twist': {
      const { radius, twist, uncertainty: u = {} } = reading;
      within('radius of a twist reading', radius, 20, 200, 'mm');
      within('twist', twist, -Math.PI / 6, Math.PI / 6, 'rad');
      const sdTwist = half('the twist', u.twist, usual.twist, 0.5, 'rad');
      const sdRadius = half('the radius', u.radius, usual.radius, 10, 'mm');
      const angle = (r: number, L: number, d: number): number =>
        Math.asin(Math.max(-1, Math.min(1, (r * r + (L - d) * (L + d)) / (2 * r * L))));
      return ([L, offset, d]) => {
        const slope = (angle(radius + 0.01, L, d) - angle(radius - 0.01, L, d)) / 0.02;
        // ε = θ − φ is the turn anticlockwise: the reading with its sign changed
        return [(angle(radius, L, d) - offset + twist) / Math.hypot(sdTwist, slope * sdRadius)];
      };
    }
    case 'overhang': {
      within('overhang', reading.overhang, -100, 100, 'mm');
      const sd = half('the overhang', reading.uncertainty?.overhang, usual.overhang, 20, 'mm');
      return ([L, , d]) => [(L - d - reading.overhang) / sd];
    }
    case 'length': {
      within('effective length', reading.effectiveLength, 50, 20_000, 'mm');
      const sd = half('the effective length', reading.uncertainty?.effectiveLength, usual.effectiveLength, 20, 'mm');
      return ([L]) => [(L - reading.effectiveLength) / sd];
    }
    case 'offset': {
      within('offset', reading.offset, -Math.PI / 3, Math.PI / 3, 'rad');
      const sd = half('the offset', reading.uncertainty?.offset, usual.offset, 0.5, 'rad');
      return ([, offset]) => [(offset - reading.offset) / sd];
    }
  }
}
