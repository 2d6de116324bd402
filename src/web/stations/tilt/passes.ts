/**
 * The passes of a job on one chart: separation both ways against the tilt they were measured at, with the curves that
 * the last pass predicts for every other tilt.
 *
 * A tilt of φ adds −tan φ to the leak of left into right and +tan φ to the other (docs/signs.md). From the size of a leak
 * now and after taking out t = tan φ its in-phase part follows: |c + t|² = |c|² + 2 t Re c + t².
 */
import type { SideDocument } from '../../../core/advise/document.ts';
import type { Job } from '../../../core/job/api.ts';

export interface Pass {
  readonly number: number;
  readonly tiltDeg: number;
  readonly leftToRightDb: number;
  readonly rightToLeftDb: number;
}

interface Measured {
  readonly findings: readonly { readonly quantity: string; readonly value: number | string }[];
}

function numberOf({ findings }: Measured, quantity: string): number | null {
  const value = findings.find((finding) => finding.quantity === quantity)?.value;
  return typeof value === 'number' ? value : null;
}

function passOf(measured: Measured, number: number): Pass | null {
  const tiltDeg = numberOf(measured, 'azimuth-error');
  const leftToRightDb = numberOf(measured, 'separation-left-to-right');
  const rightToLeftDb = numberOf(measured, 'separation-right-to-left');
  if (tiltDeg === null || leftToRightDb === null || rightToLeftDb === null) return null;
  return { number, tiltDeg, leftToRightDb, rightToLeftDb };
}

/** Passes that gave a tilt, oldest first, numbered as the job's captures are. */
export function passesOf(job: Job): Pass[] {
  return job.captures.flatMap((capture, i) => passOf(capture, i + 1) ?? []);
}

export interface PassCurves {
  readonly tiltDeg: readonly number[];
  readonly leftToRightDb: readonly number[];
  readonly rightToLeftDb: readonly number[];
}

const DEEPEST_DB = 60;
const STEPS = 120;
const leakOf = (separationDb: number): number => 10 ** (-separationDb / 20);
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/**
 * Separation against tilt, as the document's own figures and forecast say.
 * @param spanDeg the curve runs from −spanDeg to +spanDeg
 * @returns null where the document has no forecast to take it from
 */
export function curvesFrom(document: SideDocument, spanDeg: number): PassCurves | null {
  const pass = passOf(document, 0);
  const predicts = document.advice.find((advice) => advice.action === 'tilt')?.predicts ?? [];
  const after = (quantity: string) => predicts.find((prediction) => prediction.quantity === quantity)?.value;
  const afterLeft = after('separation-left-to-right');
  const afterRight = after('separation-right-to-left');
  if (pass === null || afterLeft === undefined || afterRight === undefined || Math.abs(pass.tiltDeg) < 0.1) return null;
  const t = tan(pass.tiltDeg);
  const inPhase = (now: number, then: number, step: number): number =>
    (leakOf(then) ** 2 - leakOf(now) ** 2 - step * step) / (2 * step);
  const left = inPhase(pass.leftToRightDb, afterLeft, t);
  const right = inPhase(pass.rightToLeftDb, afterRight, -t);
  const size = (nowDb: number, real: number, step: number): number => {
    const power = leakOf(nowDb) ** 2 + 2 * step * real + step * step;
    return Math.min(DEEPEST_DB, -10 * Math.log10(Math.max(1e-12, power)));
  };
  const tiltDeg = Array.from({ length: STEPS + 1 }, (_, i) => -spanDeg + (2 * spanDeg * i) / STEPS);
  return {
    tiltDeg,
    leftToRightDb: tiltDeg.map((deg) => size(pass.leftToRightDb, left, t - tan(deg))),
    rightToLeftDb: tiltDeg.map((deg) => size(pass.rightToLeftDb, right, tan(deg) - t)),
  };
}
