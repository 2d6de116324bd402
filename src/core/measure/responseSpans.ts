/**
 * Spans of frequency over which a response is judged besides the whole of what is heard: who asks for each is said with it.
 *
 * 40 Hz to 12.5 kHz is the span of DIN 45500 for record players, quoted from memory; the other two are house rules: what lies well inside arm
 * resonance and tip resonance, and the middle, where a cartridge has no reason to stray and equalisation shows.
 */
import { type Statement, statement } from '../words/statement.ts';

/** no level is read better than this, dB: hum that is passed, clicks, wow */
export const LEAST_SPREAD_DB = 0.02;
/** a span shorter than this says little, octaves */
export const LEAST_OCTAVES = 2;

interface Ends {
  readonly fromHz: number;
  readonly toHz: number;
}

export interface ResponseSpan extends Ends {
  /** how the quantity's name ends */
  readonly name: string;
  /** whose span it is */
  readonly by: Statement;
}

/** What is heard. */
export const WHOLE: Ends = { fromHz: 20, toHz: 20_000 };

const HOUSE = statement('span-by-house');
const SPANS: readonly ResponseSpan[] = [
  { name: '40-12500', fromHz: 40, toHz: 12_500, by: statement('span-by-din') },
  { name: '100-10000', fromHz: 100, toHz: 10_000, by: HOUSE },
  { name: '315-6300', fromHz: 315, toHz: 6300, by: HOUSE },
];

/** the ends of a sweep are heard a little inside of where it is cut */
const NEAR = 1.02;
/** as much may be missing at either end of a stated span; points lie 1/24 octave apart */
const REACH = 2 ** (1 / 12);

/** Indices of the frequencies within a span. @param hz ascending */
export const pointsWithin = (hz: readonly number[], { fromHz, toHz }: Ends): number[] =>
  hz.flatMap((f, i) => (f >= fromHz / NEAR && f <= toHz * NEAR ? [i] : []));

/** The stated spans that a response reaches from end to end. @param hz ascending */
export const spansCovered = (hz: readonly number[]): readonly ResponseSpan[] =>
  SPANS.filter(({ fromHz, toHz }) => hz.length > 0 && hz[0] <= fromHz * REACH && hz[hz.length - 1] >= toHz / REACH);
