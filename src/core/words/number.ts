/** Numbers as a bench writes them: to the digit that the uncertainty supports, with a true minus sign. */

const MOST_DECIMALS = 6;

/** A text of a number with a true minus for its hyphen. */
export const trueMinus = (text: string): string => text.replace(/^-/, '\u2212');

/** A number without the dust of its binary form. */
export const tidy = (value: number): string => trueMinus(String(Number(value.toPrecision(6))));

/**
 * Decimals that an expanded uncertainty supports: two digits of it where it starts with 1 or 2, else one.
 *
 * @param uncertainty in the unit shown, > 0
 * @source [CP] an uncertainty is stated to one or two digits, and the value to the same place
 */
export function decimalsFor(uncertainty: number, most = MOST_DECIMALS): number {
  if (!(uncertainty > 0 && uncertainty < 1e9)) return 2;
  const exponent = Math.floor(Math.log10(uncertainty));
  const lead = Math.floor(uncertainty / 10 ** exponent + 1e-9);
  return Math.min(most, Math.max(0, lead <= 2 ? 1 - exponent : -exponent));
}

/** A number with a fixed count of decimals; a zero never carries a sign. */
export function showNumber(value: number, decimals: number, signed = false): string {
  const text = Math.abs(value).toFixed(decimals);
  const sign = Number(text) === 0 ? '' : value < 0 ? '-' : signed ? '+' : '';
  return trueMinus(sign + text);
}

/** Sensible decimals for a figure that has no uncertainty: about three significant digits. */
export function plainDecimals(value: number, most = MOST_DECIMALS): number {
  const size = Math.abs(value);
  if (size === 0 || size >= 100) return 0;
  return Math.min(most, Math.max(0, 2 - Math.floor(Math.log10(size))));
}

/** An uncertainty rounded up at a count of decimals, so that no more is claimed than was found. */
export const showSpread = (uncertainty: number, decimals: number): string =>
  (Math.ceil(uncertainty * 10 ** decimals - 1e-6) / 10 ** decimals).toFixed(decimals);

export interface ShownFigure {
  readonly value: string;
  /** without the ± sign; null where there is none */
  readonly uncertainty: string | null;
}

/** Decimals that anybody at a bench can use; a smaller uncertainty is rounded up to the last of them. */
export const decimalsAtBench = (unit: string): number => (['deg', 'dB', 'Hz'].includes(unit) ? 2 : 4);

/** Value and uncertainty to the same decimals. */
export function showFigure(
  value: number,
  uncertainty: number | null,
  signed = false,
  most = MOST_DECIMALS,
): ShownFigure {
  if (uncertainty === null || !(uncertainty > 0)) {
    return { value: showNumber(value, plainDecimals(value, most), signed), uncertainty: null };
  }
  const decimals = decimalsFor(uncertainty, most);
  return { value: showNumber(value, decimals, signed), uncertainty: showSpread(uncertainty, decimals) };
}

/** m:ss, with as many decimals of the second as are asked for; cut, not rounded, as a clock does. */
export function showTime(seconds: number, decimals = 0): string {
  const scale = 10 ** decimals;
  const whole = Math.floor(Math.max(0, seconds) * scale + 1e-6) / scale;
  const minutes = Math.floor(whole / 60);
  return `${minutes}:${(whole - 60 * minutes).toFixed(decimals).padStart(decimals === 0 ? 2 : 3 + decimals, '0')}`;
}

export function showFrequency(hz: number): string {
  if (hz >= 1000) {
    const k = hz / 1000;
    return `${Number(k.toFixed(k < 10 ? 2 : 1))} kHz`;
  }
  return `${Number(hz.toFixed(hz < 100 ? 1 : 0))} Hz`;
}

export function showBytes(bytes: number): string {
  if (bytes >= 1e9) return `${(bytes / 1e9).toFixed(2)} GB`;
  if (bytes >= 1e6) return `${(bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)} MB`;
  return `${Math.max(0, Math.round(bytes / 1e3))} kB`;
}
