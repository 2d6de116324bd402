/**
 * Up to which level each wall is tracked, from lateral tones in steps of level: a wall mistracks where bursts at one place of the tone's period rise out
 * of what softer steps have. Which wall gives way first tells force from anti-skating.
 */

import { type Statement, statement } from '../words/statement.ts';
import type { BurstReading, ChannelBursts } from './burstEstimator.ts';
import { CHANNELS } from './channels.ts';
import type { Finding } from './finding.ts';
import type { SideReadings } from './sideReadings.ts';

interface Step {
  readonly cmS: number;
  readonly band: number;
  readonly hz: number;
  readonly of: BurstReading;
}

/** locked power over the tone's: less is never called mistracking; and over the least of all steps */
const LEAST_SHARE = 3e-6;
const LEAST_OVER = 5;
/** one wall gives way first where its bursts are so much stronger at the same step, power */
const CLEARLY = 4;

const share = ({ locked, tone }: ChannelBursts): number => (tone > 0 ? locked / tone : 0);

/** Where one wall gives way. */
interface Limit {
  /** cm/s, highest step that is tracked (0: none), lowest that is not (null: all are) */
  readonly clean: number;
  readonly lost: number | null;
}

function limitOf(steps: readonly Step[], channel: 'left' | 'right'): Limit {
  // a wall that is lost from the first step on has nothing of its own to be held against: the other one has
  const base = Math.min(...steps.flatMap(({ of }) => [share(of.left), share(of.right)]));
  const isLost = ({ of }: Step): boolean => share(of[channel]) > Math.max(LEAST_SHARE, LEAST_OVER * base);
  // once lost it is lost at all louder ones: a softer one that looks so alone was disturbed
  const first = steps.findLastIndex((step) => !isLost(step)) + 1;
  if (first === steps.length) return { clean: steps[steps.length - 1].cmS, lost: null };
  return { clean: first === 0 ? 0 : steps[first - 1].cmS, lost: steps[first].cmS };
}

export function trackingFigures(side: SideReadings): Finding[] {
  const steps = (side.passages ?? []).flatMap(({ passage: { band }, readings }): Step[] => {
    const of = readings.bursts;
    const cut = band === null || band.sheetBand === null ? undefined : side.sheet?.bands[band.sheetBand];
    if (of === undefined || band === null || cut?.peakVelocityCmS === undefined) return [];
    const swapped = side.order === 'swapped' ? { left: of.right, right: of.left } : of;
    const cmS = cut.peakVelocityCmS * 10 ** ((cut.levelCorrectionDb ?? 0) / 20);
    return [{ cmS, band: band.index, hz: cut.frequencyHz ?? 0, of: swapped }];
  });
  const families = new Map<number, Step[]>();
  for (const step of steps) families.set(step.hz, [...(families.get(step.hz) ?? []), step]);
  return [...families.values()].flatMap((family) => {
    const sorted = [...family].sort((a, b) => a.cmS - b.cmS);
    if (new Set(sorted.map(({ cmS }) => cmS)).size < 3) return [];
    const limits = { left: limitOf(sorted, 'left'), right: limitOf(sorted, 'right') };
    const move = whatToDo(limits, sorted);
    return CHANNELS.map((channel) => figure(channel, limits[channel], sorted, move));
  });
}

function figure(channel: 'left' | 'right', { clean, lost }: Limit, steps: readonly Step[], move: Statement): Finding {
  const of = { quantity: 'tracking-limit', unit: 'cm/s', channel, bands: steps.map(({ band }) => band) };
  const { hz } = steps[0];
  if (lost === null) {
    const notes = [statement('tracked-throughout', { hz, cmS: clean }), move];
    return { ...of, value: clean, uncertainty: null, low: clean, high: null, notes };
  }
  const low = clean === 0 ? 0 : clean;
  const value = clean === 0 ? lost / 2 : Math.sqrt(clean * lost);
  const notes = [statement(clean === 0 ? 'lost-throughout' : 'tracked-up-to', { hz, clean, lost }), move];
  return { ...of, value, uncertainty: Math.max(lost - value, value - low), low, high: lost, notes };
}

/** The pull inwards presses the tip on the inner wall: too little against it, and the outer wall (right) gives way first. */
function whatToDo({ left, right }: Record<'left' | 'right', Limit>, steps: readonly Step[]): Statement {
  if (left.lost === null && right.lost === null) return statement('tracking-well');
  const first = (left.lost ?? Number.POSITIVE_INFINITY) - (right.lost ?? Number.POSITIVE_INFINITY);
  if (first < 0) return statement('left-lost-first');
  if (first > 0) return statement('right-lost-first');
  const at = steps.find(({ cmS }) => cmS === left.lost);
  const apart = at === undefined ? 1 : share(at.of.left) / Math.max(1e-12, share(at.of.right));
  if (apart > CLEARLY) return statement('left-lost-first');
  return statement(apart < 1 / CLEARLY ? 'right-lost-first' : 'both-lost');
}
