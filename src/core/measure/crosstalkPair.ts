/** The left-only, right-only and two-walled tones that crosstalk is read from: the pair nearest to 1 kHz. */
import { degToRad, radToDeg } from '../units/units.ts';
import { type Statement, statement } from '../words/statement.ts';
import { combineComplex, combineEstimates } from './combine.ts';
import { type Crosstalk, crosstalkOf } from './crosstalk.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { cutLevel, DB_PER_NEPER, fromReference, levelOf, REFERENCE_HZ, ratioOf, sameTone } from './toneLevels.ts';
import type { Estimate } from './toneSegment.ts';
import { isLateral, isVertical, type Polarity } from './wiring.ts';

export interface CrosstalkPair {
  readonly found: true;
  readonly left: readonly ToneBand[];
  readonly right: readonly ToneBand[];
  /** lateral, else vertical tones near the pair; may be empty */
  readonly both: readonly ToneBand[];
  readonly crosstalk: Crosstalk;
  /** sentences that every figure of the pair needs beside it */
  readonly notes: readonly Statement[];
}

export function findCrosstalkPair(
  side: SideReadings,
  polarity: Polarity,
): CrosstalkPair | { readonly found: false; readonly why: Statement } {
  const lefts = side.tones.filter((t) => t.driven === 'left');
  const rights = side.tones.filter((t) => t.driven === 'right');
  const nearest = lefts
    .filter((l) => rights.some((r) => sameTone(r.meanHz, l.meanHz)))
    .reduce<ToneBand | null>((a, t) => (a === null || fromReference(t) < fromReference(a) ? t : a), null);
  if (nearest === null) {
    if (lefts.length === 0 && rights.length === 0) return { found: false, why: statement('no-one-sided-tones') };
    if (lefts.length > 0 && rights.length > 0) return { found: false, why: statement('one-sided-tones-differ') };
    return { found: false, why: statement('no-one-sided-tone', { side: lefts.length === 0 ? 'left' : 'right' }) };
  }
  const hz = nearest.meanHz;
  const left = lefts.filter((t) => sameTone(t.meanHz, hz));
  const right = rights.filter((t) => sameTone(t.meanHz, hz));
  const lateral = side.tones.filter((t) => isLateral(t, polarity) && sameTone(t.meanHz, hz));
  const vertical = side.tones.filter((t) => isVertical(t, polarity) && sameTone(t.meanHz, hz));
  const both = lateral.length > 0 ? lateral : vertical;
  const velocityKnown = [...left, ...right].every((t) => t.cut?.peakVelocityCmS !== undefined);
  const level = (tones: readonly ToneBand[]): Estimate =>
    combineEstimates(tones.map((t) => ({ ...levelOf(t), value: levelOf(t).value - cutLevel(t, velocityKnown) })));
  const l = level(left);
  const r = level(right);
  const crosstalk = crosstalkOf({
    leftBand: combineComplex(left.map(ratioOf)),
    rightBand: combineComplex(right.map(ratioOf)),
    levelDifference: {
      value: l.value - r.value,
      variance: l.variance + r.variance,
      degreesOfFreedom: Math.min(l.degreesOfFreedom, r.degreesOfFreedom),
    },
    both: both.length > 0 ? combineComplex(both.map(ratioOf)) : null,
    bothVertical: lateral.length === 0,
    inverted: polarity.inverted,
    cutTilt: degToRad(side.sheet?.cut?.tiltDeg ?? 0),
    offTone: off1kHz(hz),
  });
  if (!crosstalk.found) return crosstalk;
  return { found: true, left, right, both, crosstalk, notes: notesOf(crosstalk, hz, both, polarity, side) };
}

/**
 * Share of a leak's size, squared, that it may differ by from that at 1 kHz where the tone is heard a little off it: it may rise by 0.35 %
 * for each 1 % of f (k = 2). Another pass at the same speed shows the same, so this is no part of the repeatability.
 */
const off1kHz = (hz: number): number => (sameTone(hz, REFERENCE_HZ) ? Math.log(hz / REFERENCE_HZ) ** 2 / 32 : 0);

function notesOf(
  crosstalk: Crosstalk,
  hz: number,
  both: readonly ToneBand[],
  polarity: Polarity,
  side: SideReadings,
): Statement[] {
  const notes: Statement[] = [];
  if (!sameTone(hz, REFERENCE_HZ)) {
    notes.push(statement('pair-read-at', { hz }));
  }
  if (both.length === 0) {
    notes.push(statement('phase-assumed'));
  }
  if (crosstalk.phase !== null) {
    // a reversed channel is told on its own
    const off = Math.atan(Math.tan(crosstalk.phase));
    const us = (off / (2 * Math.PI * hz)) * 1e6;
    if (Math.abs(us) > 1) {
      notes.push(statement('phase-removed', { degrees: Math.abs(radToDeg(off)), us: Math.abs(us) }));
    }
  }
  if (crosstalk.disagreement !== null) {
    const apartDb = Math.abs(crosstalk.disagreement * DB_PER_NEPER);
    notes.push(statement(crosstalk.believesLateral ? 'gains-by-lateral' : 'gains-by-levels', { apartDb }));
  }
  if (polarity.inverted) notes.push(statement('reversal-undone'));
  if (side.order === 'swapped') notes.push(statement('swap-undone'));
  return notes;
}
