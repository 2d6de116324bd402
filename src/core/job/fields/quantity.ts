/** A quantity as a person types it, unit and all, read against bounds; kept apart from the field that shows it. */
import { acceptedUnits, meansTwoNumbers, typedQuantity } from '../../units/typedQuantity.ts';

export interface QuantityBounds {
  readonly unit: string;
  readonly min: number;
  readonly max: number;
}

export type ReadQuantity = { readonly value: number } | { readonly empty: true } | { readonly wrong: string };

const MINUS = /[\u2212\u2013]/g;

/** "1.8 g" for a force, "47k" for a resistance, "18,5"; what cannot be used is said with what was found and the bounds. */
export function readQuantity(text: string | undefined, { unit, min, max }: QuantityBounds): ReadQuantity {
  const clean = (text ?? '').replace(MINUS, '-').trim();
  if (clean === '') return { empty: true };
  const u = unit === '' ? '' : ` ${unit}`;
  const expected = `${tidy(min)} to ${tidy(max)}${u} was expected`;
  const typed = typedQuantity(clean, unit);
  if (!typed.found) {
    const others = acceptedUnits(unit).filter((name) => name !== unit.toLowerCase());
    const also =
      /^[+-]?[\d.,]+\s*\D/.test(clean) && others.length > 0 ? `; ${others.slice(0, 4).join(', ')} also go` : '';
    return { wrong: `Found “${clean}”; a number, ${expected}${also}.` };
  }
  if (meansTwoNumbers(clean, unit, min, max)) {
    return {
      wrong: `Found “${clean}”, which may mean ${tidy(typed.value)} or a thousand times that; type thousands without a separator.`,
    };
  }
  if (min <= typed.value && typed.value <= max) return { value: typed.value };
  return { wrong: `Found ${tidy(typed.value)}${u}; ${expected}.` };
}

/** "47 kΩ", "220 pF", "6.5 g": three digits are as many as anyone reads of a part. */
export function quantityText(value: number, unit: string): string {
  if (unit === 'Ω' && value >= 1000) return `${tidy(Number((value / 1000).toPrecision(3)))} kΩ`;
  const digits = Math.abs(value) >= 1000 ? value : Number(value.toPrecision(4));
  return unit === '' ? tidy(digits) : `${tidy(digits)} ${unit}`;
}

/** A number without the dust of its binary form. */
export const tidy = (value: number): string => String(Number(value.toPrecision(6))).replace('-', '\u2212');
