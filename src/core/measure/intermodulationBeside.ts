/**
 * By how much a record that is not cut as its file says moves the intermodulation of a band: what level, radius, the cut's angle and a cutter that bends
 * would add to the side lines as they stand in the capture, phases and all (twoToneSolve.ts has the laws).
 *
 *   S₊/(v1 v2)  + (δk/2) Σ²/p + δb      S₋/(v2 v1*)  − (δk/2) Δ²/p + δb        δk = δ tan ε/V (lateral), δ tan α/V (vertical)
 *
 * Tracing by a round tip stands across an angle's share in phase: then a small angle hardly shows, and only its square counts.
 */
import type { SheetBand } from '../record/sheet.ts';
import { type Complex, magnitude, over, plus, scaled, times } from '../units/complex.ts';
import { degToRad } from '../units/units.ts';
import type { ChannelLines } from './twoToneEstimator.ts';
import type { Undo } from './twoToneSolve.ts';
import { grooveSpeed, intermodulationOf, lowerVelocity, type TwoToneBand } from './twoTones.ts';

/** Of a figure against a cause that may lie to either side: how it goes with it, and how it bends. */
export interface Swayed {
  /** a unit */
  readonly slope: number;
  /** a unit squared */
  readonly bend: number;
}

/** % of intermodulation, as captured. */
export interface IntermodulationBeside {
  /** a degree of the cut's zenith, and of its vertical angle */
  readonly zenith: Swayed;
  readonly verticalAngle: Swayed;
  /** a per cent of second harmonic of the cut at the reference velocity */
  readonly secondHarmonic: Swayed;
  /** a share of the cut's level, and of the radius: 0.01 is 1 % */
  readonly level: number;
  readonly radius: number;
  /** mm, of the band as stated */
  readonly radiusMm: number;
}

/** that a vertical angle of some 20° goes with: d tan α/dα */
const STEEPER = 1 / Math.cos(degToRad(20)) ** 2;

/** @returns null where the record file states no velocity or radius */
export function intermodulationBeside(
  { cut, heard }: TwoToneBand,
  channel: 'left' | 'right',
  {
    rpm,
    referenceVelocityCmS,
    undo,
  }: { readonly rpm: number; readonly referenceVelocityCmS: number; readonly undo: Undo },
): IntermodulationBeside | null {
  const velocity = cut === null ? null : lowerVelocity(cut);
  if (cut === null || velocity === null || cut.radiusMm === undefined) return null;
  const lines = heard[channel];
  const is = intermodulationOf(lines);
  if (is === null || !(is.total > 0)) return null;
  const adds = adding(lines, heard.frequenciesHz, velocity, undo);
  const swayed = (of: (by: number) => ChannelLines): Swayed => {
    const [up, down] = [1, -1].map((by) => 100 * ((intermodulationOf(of(by)) ?? is).total - is.total));
    return { slope: (up - down) / 2, bend: up + down };
  };
  const kOfDegree = degToRad(1) / grooveSpeed(rpm, cut.radiusMm);
  const [lateral, vertical] = sharesOf(cut);
  const orders = 100 * ((is.second ** 2 + 2 * is.third ** 2) / is.total);
  return {
    zenith: swayed((by) => adds(by * lateral * kOfDegree, 0)),
    verticalAngle: swayed((by) => adds(by * vertical * kOfDegree * STEEPER, 0)),
    secondHarmonic: swayed((by) => adds(0, (by * 0.02) / referenceVelocityCmS)),
    level: orders,
    // angles go as 1/V, tracing as 1/V²
    radius: 2 * orders,
    radiusMm: cut.radiusMm,
  };
}

/** How far a wall's motion goes either way: one wall alone does both. */
const sharesOf = ({ motion }: SheetBand): readonly [number, number] =>
  motion === 'lateral' ? [1, 0] : motion === 'vertical' ? [0, 1] : [Math.SQRT1_2, Math.SQRT1_2];

/** The lines with k and b changed, s/cm. */
function adding(lines: ChannelLines, [f1, f2]: readonly [number, number], velocity: number, undo: Undo) {
  const lower = undo(lines.lower, f1);
  const turn = scaled(lower, velocity / Math.max(1e-12, magnitude(lower)));
  const upper = undo(lines.upper, f2);
  const captured = (line: Complex, hz: number): Complex => over(line, undo({ re: 1, im: 0 }, hz));
  return (k: number, b: number): ChannelLines => {
    const moved = (line: ChannelLines['plus'], hz: number, share: number, v1: Complex) =>
      line === null ? null : { ...line, ...plus(line, captured(scaled(times(upper, v1), share), hz)) };
    return {
      ...lines,
      plus: moved(lines.plus, f2 + f1, ((k / 2) * (f2 + f1) ** 2) / (f1 * f2) + b, turn),
      minus: moved(lines.minus, f2 - f1, (-(k / 2) * (f2 - f1) ** 2) / (f1 * f2) + b, { re: turn.re, im: -turn.im }),
    };
  };
}
