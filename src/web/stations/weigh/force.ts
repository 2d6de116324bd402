/** Forces as a bench types and reads them: gauges and dials in grams, data sheets in millinewtons; both are shown. */
import { gramForceToMn, mnToGramForce } from '../../../core/units/units.ts';
import { type ReadQuantity, readQuantity, tidy } from '../../library/quantity.ts';
import { showFigure, showNumber } from '../../parts/number.ts';

/** What a bare number stands for. */
export type ForceUnit = 'g' | 'mN';

/** mN */
export interface ForceBounds {
  readonly min: number;
  readonly max: number;
}

/** A force that is set at the tip; under 0.4 g nothing was ever made to track, so a slip of the unit is caught. */
export const TIP_FORCE: ForceBounds = { min: 4, max: 150 };

const BARE = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?$/i;
const isBare = (text: string): boolean => BARE.test(text.replace(/[\u2212\u2013]/g, '-').trim());

const shownIn = (mn: number, unit: ForceUnit): string =>
  unit === 'mN' ? tidy(mn) : tidy(Number(mnToGramForce(mn).toPrecision(3)));

/** "1.8", "1,8 g", "18 mN" → mN. */
export function readForce(text: string | undefined, unit: ForceUnit, { min, max }: ForceBounds): ReadQuantity {
  const clean = (text ?? '').trim();
  const read = readQuantity(isBare(clean) ? `${clean} ${unit}` : clean, { unit: 'mN', min: 0, max: 1e6 });
  if ('empty' in read) return read;
  const expected = `${shownIn(min, unit)} to ${shownIn(max, unit)} ${unit} was expected`;
  if ('wrong' in read) return { wrong: `Found “${clean}”; a force, ${expected}; g or mN may stand behind it.` };
  if (min <= read.value && read.value <= max) return read;
  return { wrong: `Found ${shownIn(read.value, unit)} ${unit}; ${expected}.` };
}

/** A bare number gets the unit that it stood for, so that another choice of unit does not change what it means. */
export const withUnit = (text: string | undefined, unit: ForceUnit): string | undefined =>
  text !== undefined && isBare(text) ? `${text.trim()} ${unit}` : text;

export const mnOfG = gramForceToMn;
export const gOfMn = mnToGramForce;

/** "18.0 mN (1.84 g)" */
export const forceWords = (mn: number): string => `${showNumber(mn, 1)} mN (${showNumber(mnToGramForce(mn), 2)} g)`;

/** "18.2 ± 0.3 mN (1.86 ± 0.03 g)"; the uncertainty is rounded up. */
export function forceWithin(mn: number, uncertaintyMn: number | null): string {
  if (uncertaintyMn === null) return forceWords(mn);
  const one = (value: number, uncertainty: number, unit: string): string => {
    const shown = showFigure(value, uncertainty, false, 4);
    return `${shown.value} ± ${shown.uncertainty} ${unit}`;
  };
  return `${one(mn, uncertaintyMn, 'mN')} (${one(mnToGramForce(mn), mnToGramForce(uncertaintyMn), 'g')})`;
}
