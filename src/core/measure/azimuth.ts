/** Azimuth error: the tilt for the least total leak, and what equal separations would say. */
import { radToDeg } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
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
): { readonly found: true; readonly finding: Finding } | { readonly found: false; readonly why: Statement } {
  const value = radToDeg(crosstalk.tilt.value);
  const uncertainty = crosstalk.tilt.k * radToDeg(crosstalk.tilt.spread);
  if (!(uncertainty < LEAST_CERTAIN_DEG)) {
    return { found: false, why: statement('leaks-too-noisy', { degrees: uncertainty }) };
  }
  const own: Statement[] = [statement('least-total-leak')];
  if (crosstalk.equalTilt !== null) {
    const other = radToDeg(crosstalk.equalTilt.value);
    const noise = crosstalk.equalTilt.k * radToDeg(crosstalk.equalTilt.spread);
    if (Math.abs(other - value) > Math.max(0.05, Math.hypot(noise, uncertainty))) {
      own.push(statement('equal-separations-at', { other, noise }));
    }
  }
  const apartDb = DB_PER_NEPER * Math.log(crosstalk.leftIntoRight.value / crosstalk.rightIntoLeft.value);
  if (Math.abs(apartDb) < 1 && Math.abs(value) > Math.max(WORTH_SAYING_DEG, uncertainty)) {
    own.push(statement('separations-hide-tilt'));
  }
  const cutDeg = side.sheet?.cut?.tiltDeg;
  if (cutDeg !== undefined) own.push(statement('record-tilt-removed', { degrees: cutDeg }));
  if (side.order === 'unknown') {
    own.push(statement('left-assumed-left'));
  }
  return {
    found: true,
    finding: {
      quantity: 'azimuth-error',
      value,
      asHeard: radToDeg(tiltFromLeaks(crosstalk.asHeard)),
      unit: 'deg',
      uncertainty,
      repeatability: crosstalk.tilt.k * radToDeg(crosstalk.tilt.own),
      bands: bandsOf([...left, ...right, ...both]),
      notes: [...own, ...notes],
    },
  };
}
