/** Numbers as a bench writes them: to the digit that the uncertainty supports, with a true minus sign. */

const MINUS = '\u2212';
const MOST_DECIMALS = 6;

/**
 * Decimals that an expanded uncertainty supports: two digits of it where it starts with 1 or 2, else one.
 * @param uncertainty in the unit shown, > 0
 */
export function decimalsFor(uncertainty: number): number {
  if (!(uncertainty > 0 && uncertainty < 1e9)) return 2;
  const exponent = Math.floor(Math.log10(uncertainty));
  const lead = Math.floor(uncertainty / 10 ** exponent + 1e-9);
  return Math.min(MOST_DECIMALS, Math.max(0, lead <= 2 ? 1 - exponent : -exponent));
}

/** A number with a fixed count of decimals; a zero never carries a minus. */
export function showNumber(value: number, decimals: number, signed = false): string {
  const text = Math.abs(value).toFixed(decimals);
  const zero = Number(text) === 0;
  const sign = zero ? '' : value < 0 ? MINUS : signed ? '+' : '';
  return sign + text;
}

/** Sensible decimals for a figure that has no uncertainty: about three significant digits. */
export function plainDecimals(value: number): number {
  const size = Math.abs(value);
  if (size === 0 || size >= 100) return 0;
  return Math.min(MOST_DECIMALS, Math.max(0, 2 - Math.floor(Math.log10(size))));
}

export interface ShownFigure {
  readonly value: string;
  /** without the ± sign; null where there is none */
  readonly uncertainty: string | null;
}

/** Decimals that a bench can use, whatever the uncertainty allows. */
export const decimalsAtBench = (unit: string): number => (['deg', 'dB', 'Hz'].includes(unit) ? 2 : 4);

/** Value and uncertainty to the same decimals, by the same rules as on the sheet (core/words/figure.ts; a test compares). */
export function showFigure(
  value: number,
  uncertainty: number | null,
  signed = false,
  most = MOST_DECIMALS,
): ShownFigure {
  if (uncertainty === null || !(uncertainty > 0)) {
    return { value: showNumber(value, Math.min(most, plainDecimals(value)), signed), uncertainty: null };
  }
  const decimals = Math.min(most, decimalsFor(uncertainty));
  // rounded up, so that what is printed never claims more than was found
  const up = Math.ceil(uncertainty * 10 ** decimals - 1e-6) / 10 ** decimals;
  return { value: showNumber(value, decimals, signed), uncertainty: up.toFixed(decimals) };
}

/** Units that stand against the figure without a space. */
export const tightUnit = (unit: string): boolean => unit === '°';

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
