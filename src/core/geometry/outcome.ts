/** What may not exist: a value, or the reason why there is none. */
export type Found<T> = { readonly found: true; readonly value: T } | { readonly found: false; readonly why: string };

/**
 * Refuses a number outside its bounds, naming argument, value and bounds. NaN fails too.
 *
 * @throws RangeError
 */
export function within(name: string, value: number, low: number, high: number, unit: string): number {
  if (!(low <= value && value <= high)) {
    const of = unit === '' ? '' : ` ${unit}`;
    throw new RangeError(`${name} is ${value}${of}; it must lie between ${low} and ${high}${of}`);
  }
  return value;
}

/**
 * Refuses what is no whole number within its bounds.
 *
 * @throws RangeError
 */
export function wholeWithin(name: string, value: number, low: number, high: number): number {
  if (!(low <= value && value <= high && Number.isInteger(value))) {
    throw new RangeError(`${name} is ${value}; it must be a whole number between ${low} and ${high}`);
  }
  return value;
}
