/** Figures of a window by which published tables name it. */

/** Mean of the window: a tone of peak A on a bin shows |X| = A · N · gain / 2. */
export function coherentGain(window: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < window.length; n++) sum += window[n];
  return sum / window.length;
}

/** Equivalent noise bandwidth in bins: N Σw² / (Σw)². */
export function noiseBandwidthBins(window: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (let n = 0; n < window.length; n++) {
    sum += window[n];
    squares += window[n] * window[n];
  }
  return (window.length * squares) / (sum * sum);
}
