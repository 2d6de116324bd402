/**
 * What of a capture may be measured at all: bands without their spoiled stretches, and no figure between two channels where
 * there are no two channels.
 *
 * @checked trusted.test.ts
 */
import { type Problem, problem, withheld } from '../capture/problem.ts';
import type { Spoiled } from '../capture/sampleInspector.ts';
import type { Band } from '../record/band.ts';
import { statement } from '../words/statement.ts';
import type { Finding } from './finding.ts';

/** A band is measured on its longest clean stretch where that is at least this long, s. */
const LEAST_CLEAN_S = 2;
/** Kept clear on both sides of a spoiled stretch, s: filters and tracking settle in it. */
export const SPOILED_MARGIN_S = 0.1;

const PAIR_FIGURES = new Set([
  'channel-balance',
  'separation-left-to-right',
  'separation-right-to-left',
  'azimuth-error',
  'polarity',
  'channel-order',
]);
/** the same, of what few records carry: not worth a line where it is left out */
const SELDOM_HEARD = new Set([
  'absolute-polarity',
  'effective-tip-radius',
  'stylus-skew',
  'tracking-error',
  'vertical-tracking-error',
  'overhang-heard',
  'channel-difference',
  'channel-difference-40-12500',
  'channel-difference-100-10000',
  'channel-difference-315-6300',
]);
const NO_PAIR = {
  mono: 'one-channel',
  'identical-channels': 'same-signal',
  'dead-channel': 'one-dead',
} as const;

/** The longest part of a band that no spoiled stretch touches; null where none is long enough. */
function cleanPart(band: Band, spoiled: readonly Spoiled[]): Band | null {
  const touching = spoiled
    .filter(({ startS, endS }) => startS < band.endS && endS > band.startS)
    .sort((a, b) => a.startS - b.startS);
  if (touching.length === 0) return band;
  let best: [number, number] = [0, 0];
  let from = band.startS;
  const take = (to: number): void => {
    if (to - from > best[1] - best[0]) best = [from, to];
  };
  for (const { startS, endS } of touching) {
    take(startS - SPOILED_MARGIN_S);
    from = Math.max(from, endS + SPOILED_MARGIN_S);
  }
  take(band.endS);
  return best[1] - best[0] >= LEAST_CLEAN_S ? { ...band, startS: best[0], endS: best[1] } : null;
}

/**
 * @param spoiled stretches whose samples are not the groove's, s
 * @returns the bands as they may be measured, indices kept, and a problem for each that is left out
 */
export function trustedBands(
  bands: readonly Band[],
  spoiled: readonly Spoiled[],
): { bands: Band[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const kept = bands.flatMap((band) => {
    const clean = cleanPart(band, spoiled);
    if (clean === null) {
      const { index, startS, endS } = band;
      if (spoiled.some((one) => one.isTold && one.startS < endS && one.endS > startS)) return [];
      problems.push(problem('band-spoiled', { band: index + 1, leastS: LEAST_CLEAN_S }, { startS, endS }));
      return [];
    }
    return [clean];
  });
  return { bands: kept, problems };
}

/** Leaves out what compares two channels where the capture has no two: with the reason. */
export function withoutFalsePairs(
  findings: readonly Finding[],
  found: readonly Problem[],
): { findings: Finding[]; problems: Problem[]; pair: boolean } {
  const code = found.map((p) => p.code).find((name): name is keyof typeof NO_PAIR => Object.hasOwn(NO_PAIR, name));
  if (code === undefined) return { findings: [...findings], problems: [], pair: true };
  const why = statement(NO_PAIR[code]);
  return {
    findings: findings.filter(({ quantity }) => !PAIR_FIGURES.has(quantity) && !SELDOM_HEARD.has(quantity)),
    problems: [...PAIR_FIGURES].map((quantity) => withheld(quantity, why)),
    pair: false,
  };
}
