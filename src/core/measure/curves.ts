/** The traces and spectra that a figure can be looked at in. */
import type { Curve } from './finding.ts';
import type { ToneBand } from './sideReadings.ts';

/** points of a curve at most */
const MOST_POINTS = 1500;

/** Speed against time and against the platter's turning, and its spectrum, of every speed band. @param rotationHz null: not known */
export function traceCurves(tones: readonly ToneBand[], rotationHz: number | null): Curve[] {
  return tones.flatMap((tone) => [
    deviationCurve(tone),
    ...(rotationHz === null ? [] : turnCurve(tone, rotationHz)),
    ...spectrumCurve(tone),
  ]);
}

function deviationCurve(tone: ToneBand): Curve {
  const points = tone.reading.segments.flatMap(({ trace }) =>
    Array.from(trace.deviation, (deviation, n) => ({
      x: trace.startS + n / trace.rateHz,
      y: 100 * (((1 + deviation) * trace.meanHz) / tone.meanHz - 1),
    })),
  );
  const thinned = averaged(points, Math.max(1, Math.ceil(points.length / MOST_POINTS)));
  return {
    quantity: 'speed-deviation',
    band: tone.band.index,
    x: thinned.map((p) => p.x),
    y: thinned.map((p) => p.y),
    xUnit: 's',
    yUnit: '%',
  };
}

/** Neighbours averaged in groups, so that nothing fast folds down. */
function averaged(points: readonly { x: number; y: number }[], group: number): { x: number; y: number }[] {
  return Array.from({ length: Math.floor(points.length / group) }, (_, i) => {
    const some = points.slice(i * group, (i + 1) * group);
    const mean = (of: 'x' | 'y'): number => some.reduce((sum, p) => sum + p[of], 0) / group;
    return { x: mean('x'), y: mean('y') };
  });
}

/** a turn is drawn in this many points; so many turns at most */
const POINTS_A_TURN = 36;
const MOST_TURNS = 24;

/**
 * Deviation against the platter's angle since the recording's first frame, counted on from turn to turn: what repeats with the platter
 * lies over itself, what does not drifts away.
 */
function turnCurve(tone: ToneBand, rotationHz: number): Curve[] {
  const x: number[] = [];
  const y: number[] = [];
  let firstTurn: number | null = null;
  let sum = 0;
  let count = 0;
  let bin: number | null = null;
  const close = (): void => {
    if (bin === null || count === 0 || firstTurn === null) return;
    x.push(((bin + 0.5) * 360) / POINTS_A_TURN - 360 * firstTurn);
    y.push(sum / count);
  };
  for (const { trace } of tone.reading.segments) {
    for (let n = 0; n < trace.deviation.length; n++) {
      const turns = rotationHz * (trace.startS + n / trace.rateHz);
      firstTurn ??= Math.floor(turns);
      if (turns - firstTurn > MOST_TURNS) break;
      const here = Math.floor(turns * POINTS_A_TURN);
      if (here !== bin) {
        close();
        bin = here;
        sum = 0;
        count = 0;
      }
      sum += 100 * (((1 + trace.deviation[n]) * trace.meanHz) / tone.meanHz - 1);
      count += 1;
    }
  }
  close();
  if (x.length < 2) return [];
  return [{ quantity: 'speed-against-turn', band: tone.band.index, x, y, xUnit: 'deg', yUnit: '%' }];
}

function spectrumCurve(tone: ToneBand): Curve[] {
  const flutter = tone.reading.segments.find((s) => s.flutter !== null)?.flutter;
  const spectrum = flutter?.spectrum ?? null;
  if (spectrum === null) return [];
  const { hz, peak } = spectrum;
  const y = peak.map((ratio) => 100 * ratio);
  return [{ quantity: 'speed-deviation-spectrum', band: tone.band.index, x: [...hz], y, xUnit: 'Hz', yUnit: '%' }];
}
