/**
 * Sentences with places for values, as the tables of this folder write them.
 *
 * | place | value | gives |
 * | --- | --- | --- |
 * | `{file}` | text, number or statement | the text; a whole number as it is, any other to four digits; the statement's own words |
 * | `{x:.2}` | number | two decimals, a true minus |
 * | `{x:+.2}` | number | the same with a plus before a positive one |
 * | `{x:3}` | number | three significant digits |
 * | `{x:given}` | number | as it was given, every digit |
 * | `{n?band|bands}` | number | the first word for 1, else the second |
 * | `{x±u dB}` | number, number or null | "32.21 ± 0.04 dB", to the digit that u supports; `{+x±u dB}` with a plus |
 * | `{quantity:title}` | a quantity's name | its title |
 */
import { shownFigure } from './figure.ts';
import { showNumber, trueMinus } from './number.ts';
import { quantityTitle } from './quantities.ts';
import type { Statement, Value, Values } from './statement.ts';

type Place<S extends string> = S extends `${string}{${infer In}}${infer Rest}` ? In | Place<Rest> : never;
type ValueOf<In extends string> = In extends `+${infer X}±${infer U} ${string}`
  ? Record<X, number> & Record<U, number | null>
  : In extends `${infer X}±${infer U} ${string}`
    ? Record<X, number> & Record<U, number | null>
    : In extends `${infer X}:title`
      ? Record<X, string>
      : In extends `${infer X}:${string}` | `${infer X}?${string}`
        ? Record<X, number>
        : Record<In, Value>;
type Joined<U> = (U extends unknown ? (x: U) => void : never) extends (x: infer I) => void ? I : never;

/** What a template needs: its places by name. */
export type ValuesOf<S extends string> = string extends S
  ? Values
  : [Place<S>] extends [never]
    ? Record<never, never>
    : Joined<Place<S> extends infer In ? (In extends string ? ValueOf<In> : never) : never>;

/**
 * The template with its places filled.
 *
 * @param code named in errors
 * @param words of a statement that stands as a value
 * @throws RangeError naming the value that is missing, of another kind or not finite
 */
export function fill(code: string, template: string, values: Values, words: (inner: Statement) => string): string {
  const value = (name: string): Value | null => {
    if (!Object.hasOwn(values, name)) throw new RangeError(`'${code}' needs the value '${name}'`);
    const given = values[name];
    if (typeof given === 'number' && !Number.isFinite(given)) {
      throw new RangeError(`'${code}': ${name} = ${given} is not a finite number`);
    }
    return given;
  };
  const number = (name: string): number => {
    const given = value(name);
    if (typeof given !== 'number') throw new RangeError(`'${code}': ${name} = ${given} is not a number`);
    return given;
  };
  return template.replace(/\{([^}]+)\}/g, (_, inside: string) => {
    const figure = /^(\+?)(\w+)±(\w+) (.+)$/.exec(inside);
    if (figure !== null) {
      const [, plus, name, spread, unit] = figure;
      return shownFigure(number(name), unit, value(spread) === null ? null : number(spread), plus === '+');
    }
    const [, name, mark, format] = /^(\w+)(?:([:?])(.+))?$/.exec(inside) ?? [];
    if (name === undefined) throw new RangeError(`'${code}': '{${inside}}' is no place for a value`);
    if (mark === undefined) return plainWords(value(name), words);
    if (mark === '?') return format.split('|')[Math.abs(number(name)) === 1 ? 0 : 1];
    return format === 'title' ? quantityTitle(String(value(name))) : digits(number(name), format);
  });
}

function plainWords(value: Value | null, words: (inner: Statement) => string): string {
  if (value === null) throw new RangeError('null has no words');
  if (typeof value === 'object') return words(value);
  if (typeof value === 'string') return value;
  return trueMinus(Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(4))));
}

/** `.2`, `+.2`, `3` or `given` */
function digits(value: number, format: string): string {
  if (format === 'given') return trueMinus(String(value));
  const [, plus, decimals, significant] = /^(\+?)(?:\.(\d)|(\d))$/.exec(format) ?? [];
  if (plus === undefined) throw new RangeError(`'${format}' is no format of a number`);
  if (decimals !== undefined) return showNumber(value, Number(decimals), plus === '+');
  return (plus === '+' && value > 0 ? '+' : '') + trueMinus(String(Number(value.toPrecision(Number(significant)))));
}
