/** Days of the Gregorian calendar counted from 1 January 1970, so that spans can be worked out without a clock. */

/**
 * @param iso a day or a time that begins with one, `2026-03-04…`
 * @throws RangeError when it begins with none
 * @source the usual count of days with March as first month; checked against the platform's own calendar in day.test.ts
 */
export function dayNumber(iso: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})/.exec(iso);
  if (match === null) throw new RangeError(`'${iso}': a day such as 2026-03-04 was expected`);
  const [year, month, day] = match.slice(1).map(Number);
  const y = month > 2 ? year : year - 1;
  const sinceMarch = (month + 9) % 12;
  const dayOfYear = Math.floor((153 * sinceMarch + 2) / 5) + day - 1;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + dayOfYear - 719_468;
}

/** @param number from `dayNumber`, rounded down @returns `2026-03-04` */
export function dayText(number: number): string {
  const z = Math.floor(number) + 719_468;
  const era = Math.floor(z / 146_097);
  const ofEra = z - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const dayOfYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const sinceMarch = Math.floor((5 * dayOfYear + 2) / 153);
  const day = dayOfYear - Math.floor((153 * sinceMarch + 2) / 5) + 1;
  const month = sinceMarch < 10 ? sinceMarch + 3 : sinceMarch - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}
