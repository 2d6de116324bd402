/** The readings of a side → its figures, the curves behind them, and what is withheld and why. */
import type { Problem } from '../capture/problem.ts';
import { traceCurves } from './curves.ts';
import type { Curve, Finding } from './finding.ts';
import type { TurnAtStart } from './halfTurn.ts';
import { harmonicFigures } from './harmonicFigures.ts';
import { holeOfSide, turnsAtStart } from './hole.ts';
import { type LevelFigures, levelFigures } from './levelFigures.ts';
import { noiseFigures } from './noiseFigures.ts';
import { speedTones } from './nominal.ts';
import { onceAroundFigures } from './onceAround.ts';
import { recordCheck } from './recordCheck.ts';
import { referenceFigures } from './referenceFigures.ts';
import { resonanceFigures } from './resonanceFigures.ts';
import type { FoundLowSweep } from './resonanceWays.ts';
import { responseFigures } from './responseFigures.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { type HeardGeometry, soundFigures } from './soundFigures.ts';
import { speedFigures } from './speed.ts';
import { speedDriftFigure } from './speedDrift.ts';
import type { ComplexLeaks } from './tilt.ts';
import type { Estimate } from './toneSegment.ts';
import { trackingFigures } from './trackingFigures.ts';
import { withTypeA } from './typeAWithin.ts';
import { isLateral, polarityOf, wiringFindings } from './wiring.ts';
import { flutterFigures, flutterLineFigures } from './wowFlutter.ts';

/** The leaks with what they rest on, for the advice. */
export interface TiltReading extends ComplexLeaks {
  /** standard uncertainties of the four parts */
  readonly spread: ComplexLeaks;
  /** rad, clockwise positive; standard uncertainty */
  readonly tilt: number;
  readonly tiltSpread: number;
}

/** The platter's turning as heard, and at the exact speed. */
export interface HeardTurning {
  readonly heardHz: number;
  readonly nominalHz: number;
  /** Hz: how fine the lines of flutter were told apart */
  readonly resolutionHz: number;
}

export interface MeasuredSide {
  readonly findings: Finding[];
  readonly curves: Curve[];
  readonly problems: Problem[];
  /** gains removed; absent where the leaks could not be read */
  readonly leaks?: ComplexLeaks;
  readonly tilt?: TiltReading;
  /** what tells where the tip goes; absent from provisional figures */
  readonly geometry?: HeardGeometry;
  /** turns a second; null or absent where no tone tells */
  readonly turning?: HeardTurning | null;
  /** once per turn of each tone, for a second recording with the record turned by half a turn */
  readonly turns: readonly TurnAtStart[];
  /** sweeps of the record file that were found where ears tell nothing; absent from provisional figures */
  readonly lowSweeps?: readonly FoundLowSweep[];
}

/** All figures of a side from its readings. @param flat captured without playback equalisation */
export function figuresOf(side: SideReadings, flat: boolean): MeasuredSide {
  const measured = figuresOnce(side, flat);
  return { ...measured, findings: withTypeA(measured.findings, side, (part) => figuresOnce(part, flat).findings) };
}

function figuresOnce(side: SideReadings, flat: boolean): MeasuredSide {
  const polarity = polarityOf(side);
  const levels = levelFigures(side, polarity);
  const speedBands = speedTones(side, (t) => isLateral(t, polarity));
  const speed = speedFigures(side, speedBands);
  const rotationHz = rotationOf(side, speed.speed);
  const heard = speed.speed;
  const holeOf = (tones: SideReadings['tones']) =>
    rotationHz === null || heard === null ? null : holeOfSide({ ...side, tones }, rotationHz, heard);
  const hole = holeOf(side.tones);
  const flutter = flutterFigures(speedBands, hole, (tone) => holeOf([tone]));
  const turn = onceAroundFigures(side, speedBands, rotationHz, hole);
  const sound = soundFigures(side, polarity, levels.crosstalk?.leaks ?? null, flat);
  const noise = noiseFigures(side, flat);
  const reference = referenceFigures(side, flat);
  const response = responseFigures(side, flat);
  const drift = speedDriftFigure(side);
  const resonance = resonanceFigures(side, flat, polarity.inverted);
  const tracking = trackingFigures(side, flat);
  return {
    findings: [
      ...levels.findings,
      ...wiringFindings(side, polarity),
      ...speed.findings,
      ...flutter.findings,
      ...flutterLineFigures(speedBands),
      ...turn.findings,
      ...drift.findings,
      ...harmonicFigures(side.tones, flat),
      ...sound.findings,
      ...noise.findings,
      ...reference.findings,
      ...resonance.findings,
      ...response.findings,
      ...tracking.findings,
    ],
    problems: [
      ...levels.problems,
      ...speed.problems,
      ...flutter.problems,
      ...turn.problems,
      ...sound.problems,
      ...recordCheck(side, flat),
      ...noise.problems,
      ...reference.problems,
      ...resonance.problems,
      ...response.problems,
      ...tracking.problems,
    ],
    geometry: sound.geometry,
    lowSweeps: resonance.lowSweeps,
    turning: rotationHz === null ? null : turningOf(side, speedBands, rotationHz),
    turns: turnsAtStart(hole),
    curves: [
      ...traceCurves(speedBands, rotationHz),
      ...drift.curves,
      ...sound.curves,
      ...noise.curves,
      ...resonance.curves,
      ...response.curves,
      ...(side.passages ?? []).flatMap(({ readings }) => readings.spectrum ?? []),
    ],
    ...tiltReading(levels),
  };
}

/** Of what plays, what a few milliseconds can tell: levels, wiring and speed, no curves. */
export function provisionalFigures(side: SideReadings): MeasuredSide {
  const polarity = polarityOf(side);
  const levels = levelFigures(side, polarity);
  const speed = speedFigures(
    side,
    speedTones(side, (t) => isLateral(t, polarity)),
  );
  return {
    findings: [...levels.findings, ...wiringFindings(side, polarity), ...speed.findings],
    problems: [...levels.problems, ...speed.problems],
    curves: [],
    turns: [],
    ...tiltReading(levels),
  };
}

function turningOf({ rpm }: SideReadings, tones: readonly ToneBand[], heardHz: number): HeardTurning {
  const longest = Math.max(4, ...tones.flatMap(({ reading }) => reading.segments.map((s) => s.flutter?.lengthS ?? 0)));
  return { heardHz, nominalHz: rpm / 60, resolutionHz: 0.5 / longest };
}

/** Turns a second as heard; null where no tone tells. */
function rotationOf(side: SideReadings, speed: Estimate | null): number | null {
  const hz = (side.rpm / 60) * (1 + (speed?.value ?? 0));
  return speed !== null && hz > 0.05 && hz < 3 ? hz : null;
}

function tiltReading({ crosstalk }: LevelFigures): Pick<MeasuredSide, 'leaks' | 'tilt'> {
  if (crosstalk === null) return {};
  const { leaks, leakSpread, tilt } = crosstalk;
  return { leaks, tilt: { ...leaks, spread: leakSpread, tilt: tilt.value, tiltSpread: tilt.spread } };
}
