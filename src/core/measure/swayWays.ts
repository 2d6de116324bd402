/**
 * The arm's resonance where nothing is cut for it: from how a steady tone wavers with the tip's own sideways and vertical motion, and from the noise of
 * the groove. The first is blind to the preamp's low end, since only what goes together counts; the second comes last, for what drives it is no
 * white noise, and never tells a resonance alone.
 */
import { statement } from '../words/statement.ts';
import { type ChainKnown, expectedDb } from './chainLevel.ts';
import type { Curve } from './finding.ts';
import { bodyItself, fitHump, type Hump, type HumpPoint, tipAgainstBody, tipAlong } from './humpFit.ts';
import type { Direction } from './lowSweepFit.ts';
import type { ResonanceWay, WayFigure } from './resonanceWays.ts';
import type { PassageReading, SideReadings } from './sideReadings.ts';
import { goesWith, type SwaySpectra } from './swaySpectra.ts';
import type { SegmentFigures } from './toneEstimator.ts';

/** bins about a line of flutter, or of the mains, that say nothing */
const LINE_BINS = 2.5;
/** mean share of the deviation about the resonance that must go with the motion */
const LEAST_COHERENT = 0.3;

/** Inphase is lateral, unless a channel is upside down. */
const motionOf = (direction: Direction, inverted: boolean): 'inPhase' | 'antiphase' =>
  (direction === 'lateral') === inverted ? 'antiphase' : 'inPhase';

export interface SwayWay {
  readonly way: ResonanceWay;
  readonly curves: readonly Curve[];
}

/** By the longest tone that tells. */
export function bySpeed(side: SideReadings, direction: Direction, inverted: boolean): SwayWay | null {
  const told = side.tones.flatMap(({ band, reading }): (SwayWay & { weight: number })[] => {
    const [first] = reading.segments;
    const sway = first?.flutter?.sway ?? null;
    if (sway === null) return [];
    const hump = humpOfSpeed(sway, linesOf(first), direction, inverted);
    return hump === null ? [] : [{ ...speedWay(hump, direction, band.index, side), weight: sway.averages }];
  });
  return told.sort((a, b) => b.weight - a.weight)[0] ?? null;
}

const linesOf = ({ flutter }: SegmentFigures): readonly number[] => flutter?.lines.map(({ hz }) => hz) ?? [];

function humpOfSpeed(
  sway: SwaySpectra,
  lines: readonly number[],
  direction: Direction,
  inverted: boolean,
): Hump | null {
  const along = goesWith(sway, motionOf(direction, inverted));
  const { averages, binHz, whole } = along;
  // a bin's own power says little of its chance: its neighbours' mean
  const usual = whole.map((_, i) => {
    const about = whole.slice(Math.max(0, i - 3), i + 4);
    return about.reduce((a, b) => a + b, 0) / about.length;
  });
  const points = along.hz.flatMap((hz, i): HumpPoint[] =>
    lines.some((line) => Math.abs(line - hz) < LINE_BINS * binHz)
      ? []
      : [
          {
            hz,
            power: along.power[i],
            spread: (m) => Math.sqrt((2 * Math.min(m, usual[i]) * usual[i] + usual[i] ** 2 / averages) / averages),
          },
        ],
  );
  const hump = fitHump(points, binHz, direction === 'lateral' ? bodyItself : tipAlong);
  if (hump === null) return null;
  const about = along.coherence.filter((_, i) => Math.abs(Math.log2(along.hz[i] / hump.hz)) < 0.25);
  const mean = about.reduce((a, b) => a + b, 0) / Math.max(1, about.length);
  return mean >= LEAST_COHERENT ? hump : null;
}

function figureOf(
  value: number,
  spread: number,
  doubt: { of: WayFigure['doubts'][number]['of']; percent: number },
): WayFigure {
  return { value, own: 2 * spread * value, doubts: [{ of: doubt.of, size: (value * doubt.percent) / 100 }] };
}

function speedWay(hump: Hump, direction: Direction, band: number, side: SideReadings): SwayWay {
  const { of, size } = side.assumed.excitation;
  return {
    way: {
      way: 'speed',
      direction,
      hz: figureOf(hump.hz, hump.hzSpread, { of, percent: size }),
      q: figureOf(hump.q, hump.qSpread, { of, percent: 5 * size }),
      bands: [band],
      notes: [statement('resonance-by-speed', { band: band + 1 })],
    },
    curves: curvesOf(`resonance-speed-${direction}`, hump),
  };
}

/** dB against the model's own level at the resonance. */
function curvesOf(quantity: string, { points, level }: Hump): Curve[] {
  const db = (power: number): number => 10 * Math.log10(Math.max(power / level, 1e-4));
  const of = { quantity, x: points.map(({ hz }) => hz), xUnit: 'Hz', yUnit: 'dB' };
  return [
    { ...of, name: 'heard', y: points.map(({ power }) => db(power)) },
    { ...of, name: 'fitted', y: points.map(({ fitted }) => db(fitted)) },
  ];
}

/** By unmodulated groove, the longest. @param chain what it makes of the low end is taken off */
export function byNoise(
  side: SideReadings,
  direction: Direction,
  inverted: boolean,
  chain: ChainKnown,
): ResonanceWay | null {
  const quiet = (side.passages ?? []).flatMap(({ passage, readings }: PassageReading) =>
    readings.quiet?.state === 'groove' ? [{ passage, part: readings.quiet.parts[0] }] : [],
  );
  const [longest] = quiet.sort((a, b) => b.part.low.segments - a.part.low.segments);
  if (longest === undefined) return null;
  const { leftDensity, rightDensity, crossDensityRe, binHz, segments } = longest.part.low;
  const averages = Math.max(1, 0.95 * segments);
  const sign = motionOf(direction, inverted) === 'inPhase' ? 1 : -1;
  const points = Array.from(leftDensity, (left, k): HumpPoint => {
    const hz = k * binHz;
    const gain = hz > 0 ? 10 ** (-expectedDb('constant-velocity', chain, null, hz) / 10) : 0;
    const power = gain * (left + rightDensity[k] + 2 * sign * crossDensityRe[k]);
    return { hz, power, spread: (m) => m / Math.sqrt(averages) };
  });
  const hump = fitHump(points, binHz, tipAgainstBody);
  if (hump === null) return null;
  const { of, size } = side.assumed.excitation;
  const { band } = longest.passage;
  return {
    way: 'noise',
    direction,
    hz: figureOf(hump.hz, hump.hzSpread, { of, percent: 2 * size }),
    q: figureOf(hump.q, hump.qSpread, { of, percent: 8 * size }),
    bands: band === null ? [] : [band.index],
    notes: [],
  };
}
