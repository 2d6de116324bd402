/** How far along the groove the tip has come, by exact kinematics: platter, hole off centre, arm. */
import type { Faults } from './fault.ts';

/**
 * The record turns clockwise; the groove is a circle of radius r about a centre that the hole puts beside the spindle; the tip
 * is where that circle meets the arm's arc. The pivot lies on the x axis, the tip below it (y negative, the front).
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
  // the tip's bearing about the groove's centre swings by far less than a turn
  const around = (turned: number): number => {
    const cx = e * Math.cos(from - turned);
    const cy = e * Math.sin(from - turned);
    const px = d - cx;
    const py = -cy;
    const q = Math.hypot(px, py);
    const x = (radiusMm * radiusMm + q * q - l * l) / (2 * q);
    const h = Math.sqrt(radiusMm * radiusMm - x * x);
    // along the line to the pivot, then across it to the front
    return Math.atan2((x * py - h * px) / q, (x * px + h * py) / q);
  };
  return (t) => {
    const turned = mean * t + wow * (Math.sin(mean * t + wowPhase) - Math.sin(wowPhase));
    return (turned + (e === 0 ? 0 : around(turned))) / nominal;
  };
}
