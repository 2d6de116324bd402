/** Screw length for a cartridge: enough thread engaged to hold, not so much that it bottoms or fouls. mm. */
import { within } from '../units/bounds.ts';
import { type Statement, statement } from '../words/statement.ts';

/** The coarse thread of an M2.5 screw, mm (ISO metric; from memory, not seen in a source). */
export const M2_5_PITCH = 0.45;

export interface ScrewStack {
  /** headshell where the screw passes through, mm */
  readonly headshell: number;
  readonly spacer: number;
  readonly washer: number;
  /** `nut` under a flange with through-holes, or a `tapped` body */
  readonly into:
    | { readonly kind: 'nut'; readonly flange: number; readonly nut: number }
    | { readonly kind: 'tapped'; readonly depth: number };
  /** thread pitch, mm */
  readonly pitch: number;
}

export type ScrewLengths =
  | {
      readonly found: true;
      /** under the head, mm: 3 threads engaged, and the most that still fits (nut: nut filled and three threads through) */
      readonly shortest: number;
      readonly longest: number;
      /** length at which 4 threads are engaged, mm */
      readonly fourThreads: number;
    }
  | { readonly found: false; readonly why: Statement };

/** Least and usual thread engagement, in threads: common practice. */
export const LEAST_THREADS = 3;
export const USUAL_THREADS = 4;

/** Threads that may stand out of a nut: one shows that it is filled, more than three only foul (common practice). */
const MOST_THROUGH = 3;

/**
 * @throws RangeError naming the argument, its value and its bounds
 * @source common practice: 3 to 4 threads engaged
 * @checked src/core/mechanics/screwLength.test.ts
 */
export function screwLengths(stack: ScrewStack): ScrewLengths {
  const { headshell, spacer, washer, into, pitch } = stack;
  within('headshell', headshell, 0, 30, 'mm');
  within('spacer', spacer, 0, 30, 'mm');
  within('washer', washer, 0, 10, 'mm');
  within('pitch', pitch, 0.1, 2, 'mm');
  const passed = headshell + spacer + washer;
  if (into.kind === 'tapped') {
    within('depth', into.depth, 0, 30, 'mm');
    // half a thread short of the bottom, so that it clamps before it bottoms
    const longest = passed + into.depth - pitch / 2;
    const shortest = passed + LEAST_THREADS * pitch;
    if (longest < shortest) {
      return {
        found: false,
        why: statement('tapped-too-shallow', {
          depth: into.depth,
          threads: LEAST_THREADS,
          pitch,
          needed: (LEAST_THREADS + 0.5) * pitch,
        }),
      };
    }
    return { found: true, shortest, longest, fourThreads: Math.min(passed + USUAL_THREADS * pitch, longest) };
  }
  within('flange', into.flange, 0, 30, 'mm');
  within('nut', into.nut, 0, 20, 'mm');
  const under = passed + into.flange;
  if (into.nut < LEAST_THREADS * pitch) {
    return {
      found: false,
      why: statement('nut-too-thin', { nut: into.nut, holds: into.nut / pitch, pitch, threads: LEAST_THREADS }),
    };
  }
  const fourThreads = under + Math.min(USUAL_THREADS * pitch, into.nut);
  return {
    found: true,
    shortest: under + LEAST_THREADS * pitch,
    longest: under + into.nut + MOST_THROUGH * pitch,
    fourThreads,
  };
}

/** Threads that a screw of this length engages, capped by what is there to engage. */
export function threadsEngaged(stack: ScrewStack, length: number): number {
  within('length', length, 0, 100, 'mm');
  const { headshell, spacer, washer, into, pitch } = stack;
  const passed = headshell + spacer + washer + (into.kind === 'nut' ? into.flange : 0);
  const room = into.kind === 'nut' ? into.nut : into.depth;
  return Math.max(0, Math.min(length - passed, room)) / within('pitch', pitch, 0.1, 2, 'mm');
}
