/** Azimuth error: the tilt for the least total leak, and what equal separations would say. */
import { radToDeg } from '../units/units.ts';
import { plain } from '../words/statement.ts';
import type { CrosstalkPair } from './crosstalkPair.ts';
import type { Finding } from './finding.ts';
import type { SideReadings } from './sideReadings.ts';
import { tiltFromLeaks } from './tilt.ts';
import { bandsOf, DB_PER_NEPER } from './toneLevels.ts';

/** deg; an angle that is less sure than this says nothing */
const LEAST_CERTAIN_DEG = 5;
/** deg; a tilt that is worth telling apart */
const WORTH_SAYING_DEG = 0.2;

export function azimuthFigure(
  side: SideReadings,
  { left, right, both, crosstalk, notes }: CrosstalkPair,
): { readonly found: true; readonly finding: Finding } | { readonly found: false; readonly why: string } {
  const value = radToDeg(crosstalk.tilt.value);
  const uncertainty = crosstalk.tilt.k * radToDeg(crosstalk.tilt.spread);
  if (!(uncertainty < LEAST_CERTAIN_DEG)) {
    return { found: false, why: `the leaks are too noisy: the angle is uncertain by ${uncertainty.toFixed(1)}°` };
  }
  const own: string[] = ['Least total leak.'];
  if (crosstalk.equalTilt !== null) {
    const other = radToDeg(crosstalk.equalTilt.value);
    const noise = crosstalk.equalTilt.k * radToDeg(crosstalk.equalTilt.spread);
    if (Math.abs(other - value) > Math.max(0.05, Math.hypot(noise, uncertainty))) {
      own.push(
        `Equal separations would stand at ${other.toFixed(2)}° ± ${(Math.ceil(noise * 100 - 1e-6) / 100).toFixed(2)}°: the cartridge itself is not symmetrical.`,
      );
    }
  }
  const apartDb = DB_PER_NEPER * Math.log(crosstalk.leftIntoRight.value / crosstalk.rightIntoLeft.value);
  if (Math.abs(apartDb) < 1 && Math.abs(value) > Math.max(WORTH_SAYING_DEG, uncertainty)) {
    own.push(
      'The separations are alike and hide this tilt: its two leaks have equal sizes and opposite signs, which meters cannot tell apart.',
    );
  }
  const cutDeg = side.sheet?.cut?.tiltDeg;
  if (cutDeg !== undefined) own.push(`The record's own tilt (${cutDeg.toFixed(2)}°) is taken off.`);
  if (side.order === 'unknown') {
    own.push('Left is taken to come out left: were the channels swapped, the tilt would be the other way.');
  }
  return {
    found: true,
    finding: {
      quantity: 'azimuth-error',
      value,
      asHeard: radToDeg(tiltFromLeaks(crosstalk.asHeard)),
      unit: 'deg',
      uncertainty,
      bands: bandsOf([...left, ...right, ...both]),
      notes: [...own, ...notes].map(plain),
    },
  };
}
