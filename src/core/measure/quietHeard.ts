/** The quiet stretches of a side, and which of them may be held against its reference level. */
import type { Problem } from '../capture/problem.ts';
import { CHANNELS } from './channels.ts';
import { levelTurns, turnAmong, withheldByTurn } from './levelTurned.ts';
import type { QuietReading, QuietState } from './quietEstimator.ts';
import type { ReferenceLevel } from './referenceLevel.ts';
import type { SideReadings } from './sideReadings.ts';

export interface QuietHeard {
  readonly reading: QuietReading;
  /** the record file says that it is silent there */
  readonly expected: boolean;
  /** s from the first frame */
  readonly startS: number;
  readonly endS: number;
  /** bands it was read from */
  readonly bands: readonly number[];
}

/** In the order in which they play, channels put right. */
export const quietStretches = (side: SideReadings): QuietHeard[] =>
  (side.passages ?? []).flatMap(({ passage, readings }): QuietHeard[] => {
    const reading = readings.quiet ?? null;
    if (reading === null) return [];
    return [
      {
        reading: side.order === 'swapped' ? exchanged(reading) : reading,
        expected: passage.band !== null && passage.band.sheetBand !== null,
        startS: passage.startS,
        endS: passage.endS,
        bands: passage.band === null ? [] : [passage.band.index],
      },
    ];
  });

/** What the record file has as silent first, then the longest. */
export function longestOf(heard: readonly QuietHeard[], state: QuietState): QuietHeard | null {
  const better = (a: QuietHeard, b: QuietHeard): boolean =>
    a.expected === b.expected ? a.reading.seconds > b.reading.seconds : a.expected;
  return heard
    .filter(({ reading }) => reading.state === state)
    .reduce<QuietHeard | null>((a, b) => (a === null || better(b, a) ? b : a), null);
}

/** What is told against the reference level. */
export const UNDER_REFERENCE: Readonly<Record<QuietState, readonly string[]>> = {
  groove: ['hum', 'rumble-unweighted', 'rumble-weighted', 'noise-a-weighted'],
  'tip-up': ['hum-tip-up', 'noise-a-weighted-tip-up'],
};

/**
 * Those between which and the tones of the reference nobody turned the level. @param flat captured without playback equalisation
 * @returns problems where a state has no such stretch
 */
export function atOneLevel(
  all: readonly QuietHeard[],
  side: SideReadings,
  reference: ReferenceLevel,
  flat: boolean,
): { readonly heard: QuietHeard[]; readonly problems: Problem[] } {
  const readOn = side.tones.filter(({ band }) =>
    CHANNELS.some((channel) => reference[channel]?.bands.includes(band.index)),
  );
  const turns = levelTurns(side, flat);
  const held = all.map((one) => ({ one, turn: turnAmong(turns, [one, ...readOn]) }));
  const heard = held.flatMap(({ one, turn }) => (turn === null ? [one] : []));
  const states: readonly QuietState[] = ['groove', 'tip-up'];
  const problems = states.flatMap((state) => {
    const lost = held.find(({ one }) => one.reading.state === state)?.turn ?? null;
    return lost === null || longestOf(heard, state) !== null ? [] : withheldByTurn(UNDER_REFERENCE[state], lost);
  });
  return { heard, problems };
}

/** Left and right exchanged. */
function exchanged(reading: QuietReading): QuietReading {
  return {
    ...reading,
    parts: reading.parts.map(({ low, wide }) => ({
      low: {
        ...low,
        leftDensity: low.rightDensity,
        rightDensity: low.leftDensity,
        crossDensityIm: low.crossDensityIm.map((v) => -v),
      },
      wide: { ...wide, left: wide.right, right: wide.left },
    })),
  };
}
