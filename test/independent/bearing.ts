/** How far along the groove the tip has come, by exact kinematics: platter, hole off centre, arm. */
import type { Faults } from './fault.ts';

/**
 * The record turns clockwise; the groove is a circle of radius r about a centre that the hole puts beside the spindle; the tip
 * is where that circle meets the arm's arc. The pivot lies on the x axis, the tip below it (y negative, the front). A warp lifts the
 * tip by z; the arm, hinged h above the record, keeps its length in space: its reach in plan is √(l² + h² − (h − z)²).
 * @returns s of groove at the exact speed, at a time in s
 */
export function grooveTime(faults: Faults, radiusMm: number): (t: number) => number {
  const { spindleToPivot: d, effectiveLength: l } = faults.arm;
  const nominal = (2 * Math.PI * faults.rpm) / 60;
  const mean = nominal * (1 + faults.speedErrorPercent / 100);
  const wow = faults.wow.percent / 100;
  const wowPhase = (faults.wow.phaseDeg * Math.PI) / 180;
  const e = faults.hole.mm;
  const from = (faults.hole.deg * Math.PI) / 180;
  const { bearingMm: h } = faults.warp;
  const lift = faults.warp.mm * (radiusMm / 146) ** faults.warp.growth;
  const crest = (faults.warp.deg * Math.PI) / 180;
  // where the tip rests, from the spindle: the foot on the line to the pivot, then across it
  const foot = (radiusMm ** 2 + d * d - l * l) / (2 * d);
  const rest = Math.atan2(-Math.sqrt(radiusMm ** 2 - foot ** 2), foot);
  // the tip's bearing about the groove's centre swings by far less than a turn
  const around = (turned: number): number => {
    const cx = e * Math.cos(from - turned);
    const cy = e * Math.sin(from - turned);
    const px = d - cx;
    const py = -cy;
    const q = Math.hypot(px, py);
    // the crest has turned clockwise with the record; the tip rests at `rest`
    const z = lift * Math.cos(crest - turned - rest);
    const x = (radiusMm * radiusMm + q * q - (l * l + h * h - (h - z) ** 2)) / (2 * q);
    const y = Math.sqrt(radiusMm * radiusMm - x * x);
    // along the line to the pivot, then across it to the front
    return Math.atan2((x * py - y * px) / q, (x * px + y * py) / q);
  };
  return (t) => {
    const turned = mean * t + wow * (Math.sin(mean * t + wowPhase) - Math.sin(wowPhase));
    return (turned + (e === 0 && lift * h === 0 ? 0 : around(turned))) / nominal;
  };
}
