/** The traces and spectra that a figure can be looked at in. */
import type { Curve } from './finding.ts';
import type { ToneBand } from './sideReadings.ts';

/** points of a curve at most */
const MOST_POINTS = 1500;

/** Speed against time, and its spectrum, of every speed band. */
export function traceCurves(tones: readonly ToneBand[]): Curve[] {
  return tones.flatMap((tone) => [deviationCurve(tone), ...spectrumCurve(tone)]);
}

function deviationCurve(tone: ToneBand): Curve {
  const points = tone.reading.segments.flatMap(({ trace }) =>
    Array.from(trace.deviation, (deviation, n) => ({
      x: trace.startS + n / trace.rateHz,
      y: 100 * (((1 + deviation) * trace.meanHz) / tone.meanHz - 1),
    })),
  );
  const step = Math.max(1, Math.ceil(points.length / MOST_POINTS));
  const thinned = points.filter((_, n) => n % step === 0);
  return {
    quantity: 'speed-deviation',
    band: tone.band.index,
    x: thinned.map((p) => p.x),
    y: thinned.map((p) => p.y),
    xUnit: 's',
    yUnit: '%',
  };
}

function spectrumCurve(tone: ToneBand): Curve[] {
  const flutter = tone.reading.segments.find((s) => s.flutter !== null)?.flutter;
  const spectrum = flutter?.spectrum ?? null;
  if (spectrum === null) return [];
  const { hz, peak } = spectrum;
  const y = peak.map((ratio) => 100 * ratio);
  return [{ quantity: 'speed-deviation-spectrum', band: tone.band.index, x: [...hz], y, xUnit: 'Hz', yUnit: '%' }];
}
