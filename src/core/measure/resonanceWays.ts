/**
 * The ways in which a recording tells the arm's resonance. A sweep through it, whose law the record file states; a sweep cut askew and a chain that
 * falls off at its low end are fitted with it, held by what is assumed of them (secondOrder.ts).
 */
import { type Statement, statement } from '../words/statement.ts';
import type { Passage } from './bandEstimator.ts';
import type { Doubt } from './budget.ts';
import { expectedDb, highPass7950Db } from './chainLevel.ts';
import type { Curve } from './finding.ts';
import type { LowSweepReading } from './lowSweepEstimator.ts';
import { type Direction, type SweptLevels, sweptResonance } from './lowSweepFit.ts';
import type { RingDownReading } from './ringDownKind.ts';
import type { LevelPoint, ResonanceFit } from './secondOrder.ts';
import type { SideReadings } from './sideReadings.ts';
import { byNoise, bySpeed } from './swayWays.ts';
import { sweptLevel } from './sweptArm.ts';

/** A figure as one way tells it; sizes k = 2, in the figure's unit. */
export interface WayFigure {
  readonly value: number;
  /** from the signal alone */
  readonly own: number;
  readonly doubts: readonly Doubt[];
}

export interface ResonanceWay {
  readonly way: 'sweep' | 'ring-down' | 'speed' | 'noise';
  readonly direction: Direction;
  readonly hz: WayFigure;
  readonly q: WayFigure;
  readonly bands: readonly number[];
  readonly notes: readonly Statement[];
}

/** A sweep of the record file, found where ears tell nothing. */
export interface FoundLowSweep {
  readonly sheetBand: number;
  /** s from the capture's first frame, as played */
  readonly startS: number;
  readonly endS: number;
  /** that rest on it */
  readonly quantities: readonly string[];
}

export interface FoundWays {
  readonly ways: ResonanceWay[];
  readonly failed: { readonly direction: Direction; readonly why: Statement }[];
  readonly curves: Curve[];
  readonly lowSweeps: FoundLowSweep[];
}

export function resonanceWays(side: SideReadings, flat: boolean, inverted: boolean): FoundWays {
  const found: FoundWays = { ways: [], failed: [], curves: [], lowSweeps: [] };
  for (const { passage, readings } of side.passages ?? []) {
    if (readings.lowSweep !== undefined) bySweep(readings.lowSweep, passage, side, flat, inverted, found);
  }
  for (const { passage, readings } of side.passages ?? []) {
    if (readings.ringDown !== undefined) byRingDown(readings.ringDown, passage.startS, side, inverted, found);
  }
  const chain = { flat, preamp: side.preamp, record: null };
  for (const direction of ['lateral', 'vertical'] as const) {
    const told = bySpeed(side, direction, inverted);
    if (told !== null) {
      found.ways.push(told.way);
      found.curves.push(...told.curves);
    }
    const noise = byNoise(side, direction, inverted, chain);
    if (noise !== null) found.ways.push(noise);
  }
  return found;
}

function byRingDown(
  reading: RingDownReading,
  atS: number,
  side: SideReadings,
  inverted: boolean,
  { ways }: FoundWays,
): void {
  for (const direction of ['lateral', 'vertical'] as const) {
    const rings = (direction === 'lateral') === inverted ? reading.antiphase : reading.inPhase;
    if (rings === null) continue;
    const { of, size } = side.assumed.ringDown;
    const figure = (value: number, spread: number, apart: number, share: number): WayFigure => ({
      value,
      own: value * Math.hypot(2 * spread, apart),
      doubts: [{ of, size: (value * share * size) / 100 }],
    });
    ways.push({
      way: 'ring-down',
      direction,
      hz: figure(rings.hz, rings.hzSpread, rings.hzApart, 1),
      q: figure(rings.q, rings.qSpread, rings.qApart, 4),
      bands: [],
      notes: [statement('resonance-by-ring-down', { atS })],
    });
  }
}

function directionsOf(motion: string): { direction: Direction; whole: boolean }[] {
  if (motion === 'lateral' || motion === 'vertical') return [{ direction: motion, whole: true }];
  // one wall moves both ways at once
  return (['lateral', 'vertical'] as const).map((direction) => ({ direction, whole: false }));
}

function bySweep(
  reading: LowSweepReading,
  passage: Passage,
  side: SideReadings,
  flat: boolean,
  inverted: boolean,
  found: FoundWays,
): void {
  const cut = side.sheet?.bands[reading.sheetBand];
  if (cut === undefined) return;
  const told: Direction[] = [];
  for (const { direction, whole } of directionsOf(cut.motion)) {
    const fail = (why: Statement): number => found.failed.push({ direction, why });
    const { place } = reading;
    if (place === null) {
      fail(statement('low-sweep-not-found'));
      continue;
    }
    const [fromS, toS] = [passage.startS + place.startS, passage.startS + place.startS + place.lengthS];
    if (side.spoiled.some(({ startS, endS }) => startS < toS && endS > fromS)) {
      fail(statement('low-sweep-spoiled'));
      continue;
    }
    const chain = { flat, preamp: side.preamp, record: side.recordResponse };
    const law = cut.cut ?? 'riaa';
    const plain = (hz: number): number => expectedDb(law, chain, null, hz);
    // with a channel upside down in-phase and antiphase change places
    const phaseOf: Direction = inverted && !whole ? other(direction) : direction;
    const through = (hz: number): number => plain(hz) + highPass7950Db(hz);
    const known = flat || side.preamp !== null;
    const measured = side.preamp !== null && side.preamp.hz[0] <= LOW_ENOUGH_HZ;
    const { cutSlope, lowCorner } = side.assumed;
    const askew = { slope: cutSlope.size / 2, cornerHz: measured ? 0 : lowCorner.size };
    const swept = sweptResonance(reading, phaseOf, whole, plain, askew);
    const lowEnd = known ? null : withHighPass(swept, sweptResonance(reading, phaseOf, whole, through, askew));
    const fit = lowEnd?.heard === true ? lowEnd.fit : swept.fit;
    if ('why' in fit) {
      fail(statement(fit.why));
      continue;
    }
    const points = lowEnd?.heard === true ? lowEnd.points : swept.points;
    found.ways.push(way(direction, fit, lowEnd, side, { fromHz: cut.fromHz ?? 0, toHz: cut.toHz ?? 0 }));
    found.curves.push(...curvesOf(direction, fit, points));
    told.push(direction);
  }
  if (reading.place === null) return;
  const startS = passage.startS + reading.place.startS;
  found.lowSweeps.push({
    sheetBand: reading.sheetBand,
    startS: Math.max(passage.startS, startS),
    endS: Math.min(passage.endS, startS + reading.place.lengthS),
    quantities: told.flatMap((direction) => [`arm-resonance-${direction}`, `arm-resonance-${direction}-q`]),
  });
}

const other = (direction: Direction): Direction => (direction === 'lateral' ? 'vertical' : 'lateral');

interface LowEnd {
  readonly fit: ResonanceFit;
  readonly points: readonly LevelPoint[];
  /** what is left over says that the high pass is there */
  readonly heard: boolean;
  /** or that it is not */
  readonly absent: boolean;
}

/** a preamp measured down to here leaves nothing open at the low end, Hz */
const LOW_ENOUGH_HZ = 8;
/** so much more is left over by the one than by the other where it can be told, ratio of rms */
const CLEARLY = 1.5;
/** what the fit reads astray; behind a 7950 µs high pass f₀ comes low by 0.1 %. Shares, k = 2 */
const METHOD_OF_HZ = 0.0015;
const METHOD_BEHIND = 0.002;
const METHOD_OF_Q = 0.006;

/** Fitted anew from the start: a wrong level turns the arm's phase, and that the frequencies as played. */
function withHighPass({ fit: plain }: SweptLevels, { fit, points }: SweptLevels): LowEnd | null {
  if ('why' in fit) return null;
  if ('why' in plain) return { fit, points, heard: true, absent: false };
  // below this nothing is told apart
  const floor = 0.02;
  const [without, with_] = [Math.max(floor, plain.strainDb), Math.max(floor, fit.strainDb)];
  return { fit, points, heard: without > CLEARLY * with_, absent: with_ > CLEARLY * without };
}

function way(
  direction: Direction,
  fit: ResonanceFit,
  lowEnd: LowEnd | null,
  side: SideReadings,
  sweep: { readonly fromHz: number; readonly toHz: number },
): ResonanceWay {
  const { cutSlope, lowCorner } = side.assumed;
  const open = lowEnd !== null && !lowEnd.heard && !lowEnd.absent;
  const figure = (
    of: (fit: ResonanceFit) => number,
    spread: number,
    { ofSlope, ofCorner }: ResonanceFit['hzBeside'],
    ofMethod: number,
  ): WayFigure => {
    const value = of(fit);
    return {
      value,
      own: 2 * spread * value,
      doubts: [
        { of: cutSlope.of, size: 2 * ofSlope * value },
        { of: lowCorner.of, size: 2 * ofCorner * value },
        { of: statement('method'), size: ofMethod * value },
        ...(open ? [{ of: statement('low-end-7950'), size: Math.abs(of(lowEnd.fit) - value) }] : []),
      ],
    };
  };
  const notes = [
    statement('resonance-by-sweep', { ...sweep, leftDb: fit.leftDb }),
    ...(lowEnd?.heard === true ? [statement('low-end-7950-heard')] : []),
    ...(open ? [statement('low-end-open')] : []),
  ];
  return {
    way: 'sweep',
    direction,
    hz: figure((f) => f.hz, fit.hzSpread, fit.hzBeside, lowEnd?.heard === true ? METHOD_BEHIND : METHOD_OF_HZ),
    q: figure((f) => f.q, fit.qSpread, fit.qBeside, METHOD_OF_Q),
    bands: [],
    notes,
  };
}

function curvesOf(direction: Direction, fit: ResonanceFit, points: readonly LevelPoint[]): Curve[] {
  const sorted = [...points].sort((a, b) => a.hz - b.hz);
  const of = { quantity: `resonance-${direction}`, x: sorted.map((p) => p.hz), xUnit: 'Hz', yUnit: 'dB' };
  return [
    { ...of, name: 'heard', y: sorted.map((p) => p.db - fit.gainDb - fit.besideDb(p.hz)) },
    { ...of, name: 'fitted', y: sorted.map((p) => sweptLevel(p, fit.hz, fit.q)) },
  ];
}
