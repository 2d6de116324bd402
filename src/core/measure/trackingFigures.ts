/**
 * Up to which level each wall is tracked, from lateral tones in steps of level: an interval, from the level under which lost contact would have been heard to the
 * softest step that is surely lost. Which wall gives way first tells force from anti-skating.
 */

import { type Problem, withheld } from '../capture/problem.ts';
import { type Statement, statement } from '../words/statement.ts';
import { expectedDb } from './chainLevel.ts';
import { CHANNELS } from './channels.ts';
import type { Finding } from './finding.ts';
import { exactRpm, type SideReadings } from './sideReadings.ts';
import { hearSteps, type Step, type StepHeard } from './trackingSteps.ts';

/** one wall gives way first where what is locked is so much stronger at the same step, power */
const CLEARLY = 4;
/** mm, where a record file states none: the innermost */
const INNER_MM = 60;

/** Where one wall gives way. */
interface Limit {
  /** cm/s: the limit lies over it; 0 where already the softest step is not silent */
  readonly low: number;
  /** cm/s, softest that is surely lost; null: none is */
  readonly high: number | null;
  /** the loudest silent step before any other, cm/s and lag that would have been heard there, %; null: none */
  readonly silent: { readonly cmS: number; readonly lag: number } | null;
  /** every step is silent */
  readonly throughout: boolean;
}

function limitOf(steps: readonly Step[], heard: readonly StepHeard[]): Limit {
  const first = heard.findIndex(({ verdict }) => verdict !== 'silent');
  const count = first === -1 ? heard.length : first;
  // of the silent steps the one that bounds it highest: a louder one may lie in more noise
  const low = Math.max(0, ...steps.slice(0, count).map(({ cmS }, k) => cmS * heard[k].limitOverTone));
  // once lost it is lost at all louder ones: a softer one that looks so alone was disturbed
  const lastSilent = heard.findLastIndex(({ verdict }) => verdict === 'silent');
  const lost = heard.findIndex(({ verdict }, k) => k > lastSilent && verdict === 'lost');
  return {
    low,
    high: lost === -1 ? null : steps[lost].cmS,
    silent: count === 0 ? null : { cmS: steps[count - 1].cmS, lag: 100 * heard[count - 1].lag },
    throughout: first === -1,
  };
}

/** @param flat captured without playback equalisation */
export function trackingFigures(side: SideReadings, flat: boolean): { findings: Finding[]; problems: Problem[] } {
  const families = [...familiesOf(side).values()].flatMap((family) => {
    const sorted = [...family].sort((a, b) => a.cmS - b.cmS);
    return new Set(sorted.map(({ cmS }) => cmS)).size < 3 ? [] : [sorted];
  });
  const findings: Finding[] = [];
  const problems: Problem[] = [];
  for (const steps of families) {
    const heardIn = (channel: 'left' | 'right') =>
      hearSteps(steps, channel, (hz) =>
        expectedDb('constant-velocity', { flat, preamp: side.preamp, record: null }, channel, hz),
      );
    const heard = { left: heardIn('left'), right: heardIn('right') };
    const limits = { left: limitOf(steps, heard.left), right: limitOf(steps, heard.right) };
    // without one-sided bands nobody knows which wall a channel is
    const move = side.order === 'unknown' ? statement('walls-not-told') : whatToDo(limits, steps, heard);
    for (const channel of CHANNELS) {
      const limit = limits[channel];
      if (limit.low === 0 && limit.high === null) {
        problems.push(withheld('tracking-limit', statement('tracking-not-told', { side: channel, hz: steps[0].hz })));
      } else findings.push(figure(channel, limit, steps, move));
    }
  }
  return { findings, problems };
}

function familiesOf(side: SideReadings): Map<number, Step[]> {
  const families = new Map<number, Step[]>();
  for (const { passage, readings } of side.passages ?? []) {
    const of = readings.bursts;
    const { band } = passage;
    const cut = band === null || band.sheetBand === null ? undefined : side.sheet?.bands[band.sheetBand];
    if (of === undefined || of.frames < 2 || band === null || cut?.peakVelocityCmS === undefined) continue;
    const hz = cut.frequencyHz ?? 0;
    const step = {
      cmS: cut.peakVelocityCmS * 10 ** ((cut.levelCorrectionDb ?? 0) / 20),
      band: band.index,
      hz,
      grooveCmS: (2 * Math.PI * exactRpm(side.rpm) * (cut.radiusMm ?? INNER_MM)) / 600,
      of: side.order === 'swapped' ? { ...of, left: of.right, right: of.left } : of,
    };
    families.set(hz, [...(families.get(hz) ?? []), step]);
  }
  return families;
}

function figure(
  channel: 'left' | 'right',
  { low, high, silent, throughout }: Limit,
  steps: readonly Step[],
  move: Statement,
): Finding {
  const of = { quantity: 'tracking-limit', unit: 'cm/s', channel, bands: steps.map(({ band }) => band) };
  const { hz } = steps[0];
  const up = silent === null ? [] : [statement('silent-up-to', { cmS: silent.cmS, lag: silent.lag })];
  if (high === null) {
    const says = throughout
      ? statement('tracked-throughout', { hz, low })
      : statement('lost-perhaps', { hz, low, loudest: steps[steps.length - 1].cmS });
    return { ...of, value: low, uncertainty: null, low, high, notes: [says, ...up, move] };
  }
  const value = low === 0 ? high / 2 : Math.sqrt(low * high);
  const says =
    low === 0 ? statement('lost-throughout', { hz, lost: high }) : statement('tracked-up-to', { hz, low, lost: high });
  return { ...of, value, uncertainty: Math.max(high - value, value - low), low, high, notes: [says, ...up, move] };
}

/** The pull inwards presses the tip on the inner wall: too little against it, and the outer wall (right) gives way first. */
function whatToDo(
  { left, right }: Record<'left' | 'right', Limit>,
  steps: readonly Step[],
  heard: Record<'left' | 'right', StepHeard[]>,
): Statement {
  if (left.throughout && right.throughout) return statement('tracking-well');
  if (left.high === null && right.high === null) return statement('tracking-open');
  // the softest step at which either is surely lost
  const at = steps.findIndex(({ cmS }) => cmS === Math.min(left.high ?? Infinity, right.high ?? Infinity));
  const [l, r] = [heard.left[at], heard.right[at]];
  if (r.verdict === 'silent') return statement('left-lost-first');
  if (l.verdict === 'silent') return statement('right-lost-first');
  const apart = l.share / Math.max(1e-30, r.share);
  if (apart > CLEARLY) return statement('left-lost-first');
  return statement(apart < 1 / CLEARLY ? 'right-lost-first' : 'both-lost');
}
