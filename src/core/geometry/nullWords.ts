/** Null points in words: where an arm has them, where it has none, and where it needs none. */
import { showNumber } from '../words/number.ts';
import type { ArmFigures } from './distortion.ts';

type Nulls = Pick<ArmFigures, 'nullPointsMm' | 'peakDistortionPercent'>;

/** "65.99 and 120.89", or "none". */
export const radiiText = (radii: readonly number[], digits: number): string =>
  radii.length === 0 ? 'none' : radii.map((radius) => showNumber(radius, digits)).join(' and ');

/** A tangential arm whose line passes through the spindle, the cartridge square: no radius is singled out, because none has an error. */
const hasNoError = ({ nullPointsMm, peakDistortionPercent }: Nulls): boolean =>
  nullPointsMm.length === 0 && peakDistortionPercent === 0;

/** To stand behind "null points": "65.99 and 120.89 mm", "none", "every radius". */
export function nullRadiiText(nulls: Nulls, digits: number): string {
  if (hasNoError(nulls)) return 'every radius';
  return `${radiiText(nulls.nullPointsMm, digits)}${nulls.nullPointsMm.length === 0 ? '' : ' mm'}`;
}

/** "null points 66.0 and 120.9 mm", "null point 90.0 mm", "no null point", "no tracking error at any radius". */
export function nullPointsText(nulls: Nulls): string {
  if (hasNoError(nulls)) return 'no tracking error at any radius';
  const { nullPointsMm: radii } = nulls;
  return radii.length === 0 ? 'no null point' : `null point${radii.length > 1 ? 's' : ''} ${radiiText(radii, 1)} mm`;
}
