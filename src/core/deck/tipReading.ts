/**
 * How a tip reads a groove, exactly.
 *
 * Path: what carries the tip sideways by X and up by Y carries it along the groove as well, so its centre stands at
 *
 *   w = τ + k_x X(w) + k_y Y(w),   velocity = (X′, Y′) τ′ / (1 − k_x X′ − k_y Y′)
 *
 * This is Kepler's equation; for a lateral tone v cos ωt it gives v cos ωt + k v² cos 2ωt + …, H2/H1 = J₂(2e)/J₁(e), e = k v.
 *
 * Tracing: a ball of radius R rolls on either wall in that wall's own plane, along its normal. With h(s) the wall's height along
 * its normal it touches at s = w + (R/V) h′/√(1 + h′²), h′ = ḣ/V, and its centre is lifted by h + R (1/√(1 + h′²) − 1); its
 * slope is the wall's there. The inner wall's normal is the left channel's positive direction, the outer wall's the right's
 * negative. Where the wall is more curved than the ball, the ball bridges: the highest centre over all points within R counts.
 *
 * Skew: the right wall's contact lies `rightLagS` behind the left's.
 *
 * Not modelled: mistracking, the wall's give, and the factor 1/cos ε on the cartridge's side of the motion (0.005 dB at 2°).
 */

import { type Complex, magnitude, plus, scaled } from '../units/complex.ts';
import type { Deck } from './deck.ts';
import { type Motion, peakVelocity, stillMotion, type Walls, type Waveform, wallsOf, waveformOf } from './groove.ts';
import type { Sheet, SheetBand } from './sheet.ts';

export interface Reading {
  /** k_x, k_y, s/cm */
  readonly lateralShift: number;
  readonly verticalShift: number;
  readonly speedCmS: number;
  readonly tipCm: number;
  readonly rightLagS: number;
}

/** Velocities of the tip for each unit of τ′, cm/s, along the walls' directions. */
export interface TipVelocity {
  left: number;
  right: number;
}

/** Centre's displacement and slope over one wall. */
interface Contact {
  centre: number;
  slope: number;
}

/** A wall more curved than this share of the ball's is looked over whole; below, the contact is one. */
const CURVED = 0.7;
const BRIDGE_POINTS = 48;

/**
 * @returns reads the tip's velocity at groove time u; `loud` scales what is cut (the cutter's fade)
 */
export function tipReader(
  waveform: Waveform,
  { left, right }: Walls,
  { lateralShift: kx, verticalShift: ky, speedCmS, tipCm, rightLagS }: Reading,
): (u: number, loud: number, into: TipVelocity) => void {
  const at: Motion = stillMotion();
  const rho = tipCm / speedCmS;
  const round = rho > 0;

  /** the wall's own height h along its normal, from displacement, velocity or acceleration and its quadrature */
  const wallContact = (wall: Complex, normal: 1 | -1) => {
    const re = normal * wall.re;
    const im = normal * wall.im;
    const size = magnitude(wall);
    return (w: number, loud: number, into: Contact): void => {
      waveform(w, at);
      if (!round) {
        // the skewed edge of a point
        into.centre = loud * (wall.re * at.s - wall.im * at.sq);
        into.slope = loud * (wall.re * at.v - wall.im * at.vq);
        return;
      }
      let s = w;
      const curved = (rho * loud * size * Math.hypot(at.a, at.aq)) / speedCmS;
      let slope = 0;
      let root = 1;
      if (curved > CURVED) {
        // The ball's height over each point it could touch: h(s) + √(R² − (V(s − w))²) − R, the highest carries it.
        const height = (x: number): number => {
          waveform(w + rho * x, at);
          return loud * (re * at.s - im * at.sq) - (tipCm * x * x) / (1 + Math.sqrt(1 - x * x));
        };
        let best = 0;
        let highest = Number.NEGATIVE_INFINITY;
        for (let i = 1; i < BRIDGE_POINTS; i++) {
          const x = -1 + (2 * i) / BRIDGE_POINTS;
          const here = height(x);
          if (here > highest) {
            highest = here;
            best = x;
          }
        }
        let [low, high] = [best - 2 / BRIDGE_POINTS, best + 2 / BRIDGE_POINTS];
        for (let i = 0; i < 30; i++) {
          const third = (high - low) / 3;
          if (height(low + third) < height(high - third)) low += third;
          else high -= third;
        }
        s = w + (rho * (low + high)) / 2;
      }
      for (let i = 0; i < 20; i++) {
        waveform(s, at);
        slope = (loud * (re * at.v - im * at.vq)) / speedCmS;
        root = Math.sqrt(1 + slope * slope);
        const bend = (loud * (re * at.a - im * at.aq)) / speedCmS;
        const step = (s - w - (rho * slope) / root) / (1 - (rho * bend) / root ** 3);
        if (!(Math.abs(step) < rho)) break;
        s -= step;
        if (Math.abs(step) < 1e-13) break;
      }
      waveform(s, at);
      into.centre = loud * (wall.re * at.s - wall.im * at.sq) + normal * tipCm * (1 / root - 1);
      into.slope = loud * (wall.re * at.v - wall.im * at.vq);
    };
  };
  const onLeft = wallContact(left, 1);
  const onRight = wallContact(right, -1);
  const l: Contact = { centre: 0, slope: 0 };
  const r: Contact = { centre: 0, slope: 0 };
  const kLeft = (kx + ky) * Math.SQRT1_2;
  const kRight = (kx - ky) * Math.SQRT1_2;
  const together = !round && rightLagS === 0;
  const straight = kx === 0 && ky === 0;

  return (u, loud, into) => {
    let w = u;
    for (let i = 0; i < 40; i++) {
      if (together) {
        // a point reads both walls at one place
        waveform(w, at);
        l.centre = loud * (left.re * at.s - left.im * at.sq);
        l.slope = loud * (left.re * at.v - left.im * at.vq);
        r.centre = loud * (right.re * at.s - right.im * at.sq);
        r.slope = loud * (right.re * at.v - right.im * at.vq);
      } else {
        onLeft(w + rightLagS / 2, loud, l);
        onRight(w - rightLagS / 2, loud, r);
      }
      if (straight) break;
      const step = (w - u - kLeft * l.centre - kRight * r.centre) / (1 - kLeft * l.slope - kRight * r.slope);
      w -= step;
      if (Math.abs(step) < 1e-13) break;
    }
    const along = 1 - kLeft * l.slope - kRight * r.slope;
    into.left = l.slope / along;
    into.right = r.slope / along;
  };
}

/** The reader of one band, null where the band has no waveform. */
export function bandReader(deck: Deck, sheet: Sheet, band: SheetBand, reading: Reading) {
  const waveform = waveformOf(deck, sheet, band);
  return waveform === null ? null : tipReader(waveform, wallsOf(deck, sheet, band), reading);
}

/** Where the tip's shift would reach this share of the groove it reads, the model ends: the tip would leave the groove. */
const MOST_SHIFT = 0.6;

/**
 * @throws RangeError when the shift is so large that w is no longer one value
 */
export function checkShift(deck: Deck, sheet: Sheet, band: SheetBand, reading: Reading, index: number): void {
  const { left, right } = wallsOf(deck, sheet, band);
  const { lateralShift: kx, verticalShift: ky } = reading;
  const kappa = magnitude(plus(scaled(left, (kx + ky) * Math.SQRT1_2), scaled(right, (kx - ky) * Math.SQRT1_2)));
  const e = kappa * peakVelocity(band);
  if (!(e <= MOST_SHIFT)) {
    throw new RangeError(
      `bands[${index}].peakVelocityCmS: ${band.peakVelocityCmS} given, but with this deck's angles the tip can follow at most ${((MOST_SHIFT / e) * (band.peakVelocityCmS ?? 0)).toPrecision(3)}`,
    );
  }
}
