/**
 * Two recordings of one record, for the second of which it lay turned by 180° on the platter: what turns with it is the
 * record's (hole, warp), what stays is the platter's. No geometry, no radius is needed.
 *
 * Phases are taken from the start of each tone, which is a place on the record. There the record's part R is the same in both,
 * the platter's W turns its sign:  p₁ = R + W, p₂ = R − W.  Each band gives one W of its own angle and of the same size.
 */
import { coverageFactor } from '../signal/robust.ts';
import { type Statement, statement } from '../words/statement.ts';
import type { Assumed } from './assumed.ts';
import { withBudget } from './budget.ts';
import type { Finding, PhasorAtStart } from './finding.ts';

/** A tone's once-per-turn phasor, at the start of its band. */
export interface TurnAtStart extends PhasorAtStart {
  readonly band: number;
}

const UNKNOWN_RADIUS_MM = 100;
/** the same tone in both, ratio */
const SAME_TONE = 0.01;

export type HalfTurn =
  | { readonly found: true; readonly finding: Finding }
  | { readonly found: false; readonly why: Statement };

/** @param assumed how the record seats anew, and where its tones start */
export function halfTurn(
  first: readonly TurnAtStart[],
  second: readonly TurnAtStart[],
  { seating, toneStart }: Pick<Assumed, 'seating' | 'toneStart'>,
): HalfTurn {
  const left = [...second];
  const pairs = first.flatMap((one) => {
    const at = left.findIndex(
      (other) =>
        (one.sheetBand === null || other.sheetBand === null || one.sheetBand === other.sheetBand) &&
        Math.abs(other.frequencyHz / one.frequencyHz - 1) < SAME_TONE,
    );
    // in the order in which they play: what was passed over is not there in the first
    return at < 0 ? [] : [{ one, other: left.splice(0, at + 1)[at] }];
  });
  if (pairs.length === 0) {
    return { found: false, why: statement('no-tone-in-both') };
  }
  const parts = pairs.map(({ one, other }) => ({
    platter: Math.hypot(one.re - other.re, one.im - other.im) / 2,
    record: Math.hypot(one.re + other.re, one.im + other.im) / 2,
    variance: (one.variance + other.variance) / 4,
    radiusMm: one.radiusMm ?? UNKNOWN_RADIUS_MM,
    rotationHz: one.rotationHz,
    freedom: one.degreesOfFreedom + other.degreesOfFreedom,
  }));
  const mean = (of: (p: (typeof parts)[number]) => number): number =>
    parts.reduce((sum, p) => sum + of(p), 0) / parts.length;
  const size = Math.sqrt(
    Math.max(
      0,
      mean((p) => p.platter ** 2 - p.variance),
    ),
  );
  const k = coverageFactor(parts.reduce((sum, p) => sum + p.freedom, 0));
  const finding = withBudget(
    {
      quantity: 'once-per-turn-platter',
      value: 100 * size,
      unit: '%',
      bands: pairs.map(({ one }) => one.band),
      notes: [statement('platter-by-half-turn', { bands: pairs.length })],
    },
    100 * k * Math.sqrt(mean((p) => p.variance) / parts.length),
    [
      // each band's start is its own; the seating is one for all
      {
        of: toneStart.of,
        size: (100 * mean((p) => Math.PI * p.rotationHz * toneStart.size * p.record)) / Math.sqrt(parts.length),
      },
      { of: seating.of, size: 100 * mean((p) => seating.size / (2 * p.radiusMm)) },
    ],
  );
  return { found: true, finding };
}
