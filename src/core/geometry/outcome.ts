/** What may not exist: a value, or the reason why there is none. */
export type Found<T> = { readonly found: true; readonly value: T } | { readonly found: false; readonly why: string };

/**
 * Refuses a number outside its bounds, naming argument, value and bounds. NaN fails too.
 *
 * @throws RangeError
 */
export function within(name: string, value: number, low: number, high: number, unit: string): number {
  if (!(low <= value && value <= high)) {
    throw new RangeError(`${name} is ${value} ${unit}; it must lie between ${low} and ${high} ${unit}`);
  }
  return value;
}
