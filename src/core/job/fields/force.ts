/** Forces as a bench types and reads them: gauges and dials in grams, data sheets in millinewtons; both are shown. */
import { gramForceToMn, mnToGramForce } from '../../units/units.ts';
import { showFigure, showNumber } from '../../words/number.ts';
import { isBare } from './quantity.ts';

/** What a bare number stands for. */
export type ForceUnit = 'g' | 'mN';

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
