/**
 * The passes of a job on one chart: separation both ways against the tilt they were measured at, with the curves that
 * the last pass predicts for every other tilt.
 *
 * A document holds sizes, not phases. The size P = |c|² of a leak now and P' after a turn by t = tan φ, where
 * c' = (c + t) / (1 − c t), fix its in-phase part: Re c = (P'(1 + t² P) − P − t²) / (2 t (1 + P')). What is left of P is in
 * quadrature; its sign does not matter to sizes.
 */

import type { SideDocument } from '../../../advise/document.ts';
import { isTurn, signedTurn } from '../../../advise/turn.ts';
import { type ComplexLeaks, predictAfterTurn } from '../../../measure/tilt.ts';
import type { Complex } from '../../../units/complex.ts';
import { dbToRatio, degToRad, ratioToDb } from '../../../units/units.ts';
import type { CaptureEntry } from '../../api.ts';
import { type JobWith, ofWhatIsFitted } from '../../recordings.ts';

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

/** Passes of what is fitted now that gave a tilt, oldest first, numbered among its recordings that count. */
export function passesOf(job: JobWith<CaptureEntry>): (Pass & { readonly captureId: string })[] {
  return ofWhatIsFitted(job).flatMap((capture, i) => {
    const pass = passOf(capture, i + 1);
    return pass === null ? [] : [{ ...pass, captureId: capture.id }];
  });
}

export interface PassCurves {
  readonly tiltDeg: readonly number[];
  readonly leftToRightDb: readonly number[];
  readonly rightToLeftDb: readonly number[];
}

const DEEPEST_DB = 60;
const STEPS = 120;

/** @param t tangent of the turn between the two readings, signed as it adds to this leak */
function leakFromSizes(nowDb: number, thenDb: number, t: number): Complex {
  const [now, then] = [dbToRatio(-nowDb) ** 2, dbToRatio(-thenDb) ** 2];
  const re = (then * (1 + t * t * now) - now - t * t) / (2 * t * (1 + then));
  return { re, im: Math.sqrt(Math.max(0, now - re * re)) };
}

const separationOf = ({ re, im }: Complex): number => Math.min(DEEPEST_DB, -ratioToDb(Math.hypot(re, im)));

/** Two readings of one cartridge at two tilts. */
interface Pair {
  readonly now: Pass;
  readonly other: Pass;
}

/** deg; closer together two tilts do not fix a phase */
const LEAST_APART_DEG = 0.1;
const LEAST_PASSES_APART_DEG = 0.3;

function forecastOf(document: SideDocument): Pair | null {
  const now = passOf(document, 0);
  const turn = document.advice.find(isTurn);
  if (now === null || turn === undefined) return null;
  const after = (quantity: string) => turn.predicts.find((prediction) => prediction.quantity === quantity)?.value;
  const leftToRightDb = after('separation-left-to-right');
  const rightToLeftDb = after('separation-right-to-left');
  if (leftToRightDb === undefined || rightToLeftDb === undefined) return null;
  // clockwise turned is clockwise tilted; an advice of an earlier version without a direction turns all of the tilt back
  const tiltDeg = turn.direction === null ? 0 : now.tiltDeg + signedTurn(turn);
  if (!(Math.abs(now.tiltDeg - tiltDeg) >= LEAST_APART_DEG)) return null;
  return { now, other: { number: 0, tiltDeg, leftToRightDb, rightToLeftDb } };
}

/** The two passes furthest apart in tilt. */
function furthest(passes: readonly Pass[]): Pair | null {
  const sorted = [...passes].sort((a, b) => a.tiltDeg - b.tiltDeg);
  const [now, other] = [sorted[0], sorted[sorted.length - 1]];
  return now !== undefined && other.tiltDeg - now.tiltDeg >= LEAST_PASSES_APART_DEG ? { now, other } : null;
}

/**
 * Separation against tilt, from the document's own forecast, or where it has none from two passes.
 * @param spanDeg the curve runs from −spanDeg to +spanDeg
 * @returns null where there is neither
 */
export function curvesFrom(document: SideDocument, spanDeg: number, passes: readonly Pass[] = []): PassCurves | null {
  const pair = forecastOf(document) ?? furthest(passes);
  if (pair === null) return null;
  const { now, other } = pair;
  const t = Math.tan(degToRad(now.tiltDeg - other.tiltDeg));
  const leaks: ComplexLeaks = {
    leftIntoRight: leakFromSizes(now.leftToRightDb, other.leftToRightDb, t),
    rightIntoLeft: leakFromSizes(now.rightToLeftDb, other.rightToLeftDb, -t),
  };
  const tiltDeg = Array.from({ length: STEPS + 1 }, (_, i) => -spanDeg + (2 * spanDeg * i) / STEPS);
  const there = tiltDeg.map((deg) => predictAfterTurn(leaks, degToRad(now.tiltDeg - deg)));
  return {
    tiltDeg,
    leftToRightDb: there.map((at) => separationOf(at.leftIntoRight)),
    rightToLeftDb: there.map((at) => separationOf(at.rightIntoLeft)),
  };
}
