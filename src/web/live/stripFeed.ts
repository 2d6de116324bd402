/** The speed of the tone that plays, as points of the last seconds. */
import { effect, signal } from '@preact/signals';
import { STRIP_STEP_S } from '../../core/live/speedStrip.ts';
import { listening, status } from './listening.ts';

/** s that are kept: six turns at 33⅓ */
export const STRIP_S = 12;

export const strip = {
  /** Hz that 0 % is */
  f0: 0,
  tone: -1,
  /** s of one turn */
  turnS: 1.8,
  /** s at the first point, and points in % against `f0` */
  fromS: 0,
  percent: [] as (number | null)[],
};

/** moves whenever there are new points to draw */
export const stripCount = signal(0);

const MOST = Math.round(STRIP_S / STRIP_STEP_S);

effect(() => {
  const now = status.value;
  const points = now?.strip ?? null;
  if (listening.value.phase !== 'on') {
    strip.percent = [];
    stripCount.value = stripCount.peek() + 1;
    return;
  }
  if (now === null || points === null || points.percent.length === 0) return;
  if (points.tone !== strip.tone) {
    Object.assign(strip, { tone: points.tone, f0: points.f0, fromS: points.fromS, percent: [] });
  }
  strip.turnS = now.turnS;
  strip.percent.push(...points.percent);
  const over = strip.percent.length - MOST;
  if (over > 0) {
    strip.percent.splice(0, over);
    strip.fromS += over * STRIP_STEP_S;
  }
  stripCount.value = stripCount.peek() + 1;
});
