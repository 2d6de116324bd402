/** Refuses a number that lies outside its bounds, NaN included, by a sentence that names it. */

/**
 * @param name what the argument is called where it came from
 * @param unit as shown to people; `''` for a plain number
 * @returns `value`, unchanged
 * @throws RangeError naming the argument, its value and its bounds
 */
export function within(name: string, value: number, low: number, high: number, unit = ''): number {
  if (!(low <= value && value <= high)) {
    const tail = unit === '' ? '' : ` ${unit}`;
    throw new RangeError(`${name} is ${value}${tail}; from ${low} to ${high}${tail} was expected`);
  }
  return value;
}

/** The same for whole numbers. */
export function wholeWithin(name: string, value: number, low: number, high: number): number {
  if (!(low <= value && value <= high && Number.isInteger(value))) {
    throw new RangeError(`${name} is ${value}; a whole number from ${low} to ${high} was expected`);
  }
  return value;
}
