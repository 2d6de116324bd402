/** The check of earths by hand: what was measured untouched and with a hand on each part. */
import { effect, signal } from '@preact/signals';
import { type HumLevel, humLevel, type TouchedPart } from '../../core/advise/live/earthCheck.ts';
import type { HumReading } from '../../core/live/humWatch.ts';
import { listening, status } from './listening.ts';

/** whole seconds that make a level */
const SECONDS = 3;

export type EarthStep = TouchedPart | 'free';

export const measured = signal<Readonly<Partial<Record<EarthStep, HumLevel>>>>({});
/** what is being measured now, and how many seconds of it were heard */
export const measuring = signal<{ readonly step: EarthStep; readonly heard: readonly HumReading[] } | null>(null);
/** a reading is told when the second after it is over: the one under way when the hand was laid on is two further, and does not count */
const UNDER_WAY = 2;
let from = 0;

export function measureEarth(step: EarthStep): void {
  from = (status.peek()?.hum?.index ?? 0) + UNDER_WAY + 1;
  measuring.value = { step, heard: [] };
}

export function beginAgain(): void {
  measured.value = {};
  measuring.value = null;
}

effect(() => {
  const hum = status.value?.hum ?? null;
  const now = measuring.peek();
  if (listening.value.phase !== 'on') {
    measuring.value = null;
    return;
  }
  if (now === null || hum === null || hum.index < from || hum.index === now.heard.at(-1)?.index) return;
  const heard = [...now.heard, hum];
  if (heard.length < SECONDS) {
    measuring.value = { ...now, heard };
    return;
  }
  measured.value = { ...measured.peek(), [now.step]: humLevel(heard) };
  measuring.value = null;
});
