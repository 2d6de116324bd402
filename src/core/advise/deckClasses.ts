/**
 * The limits by what a deck is for: the one table, in docs/verdicts.md. A job may carry its own (limitsFile.ts).
 *
 * Rumble: the standards' reference is 10 cm/s peak of lateral motion at 1 kHz, 7.07 cm/s on each wall; this tool's is 5 cm/s on one wall, 3.0 dB
 * lower, so a standard's 35 dB is 32 dB here (docs/verdicts.md).
 */
import type { Limit, Limits } from './limits.ts';

export const deckClasses = ['shop', 'studio', 'archive'] as const;
export type DeckClass = (typeof deckClasses)[number];

const house = 'house rule';
const below = (good: number, bad: number, source: string): Limit => ({ good, bad, sense: 'below', source });
const above = (good: number, bad: number, source: string): Limit => ({ good, bad, sense: 'above', source });

type Edges = readonly [good: number, bad: number];

/** Of the response over its stated spans, the widest first; the cut alone leaves ± 0.5 dB open unless the record is calibrated. */
const spans = (...[wide, inner, middle]: readonly [Edges, Edges, Edges]): Limits => ({
  'frequency-response-deviation-40-12500': below(...wide, house),
  'frequency-response-deviation-100-10000': below(...inner, house),
  'frequency-response-deviation-315-6300': below(...middle, house),
});

/** Of left over right over the same spans, against 1 kHz: what the ear places a sound by. A cut differs by some ± 0.3 dB between its walls. */
const differences = (...[whole, wide, inner, middle]: readonly [Edges, Edges, Edges, Edges]): Limits => ({
  'channel-difference': below(...whole, house),
  'channel-difference-40-12500': below(...wide, house),
  'channel-difference-100-10000': below(...inner, house),
  'channel-difference-315-6300': below(...middle, house),
});

const shop: Limits = {
  'separation-left-to-right': above(25, 20, 'good: common practice; bad: DIN 45500'),
  'separation-right-to-left': above(25, 20, 'good: common practice; bad: DIN 45500'),
  'channel-balance': below(1, 2, 'good: common practice; bad: DIN 45500'),
  'speed-error': below(0.3, 1, 'good: common practice; bad: DIN 45500 allows −1 %'),
  'wow-flutter-weighted': below(0.1, 0.2, 'good: common practice; bad: DIN 45500'),
  eccentricity: below(0.2, 0.5, 'good: IEC 98:1987 hole to groove; bad: common practice'),
  'rumble-unweighted': above(37, 32, 'good: ČSN 36 8401, converted; bad: DIN 45500, converted'),
  'rumble-weighted': above(52, 47, 'good: common practice, converted; bad: DIN 45500, converted'),
  hum: above(55, 45, house),
  'tracking-error': below(2.5, 4, 'house rule: a nine-inch arm that is set right reaches 2.3° at the outermost groove'),
  'vertical-tracking-error': below(5, 10, 'good: 20° ± 5° of IEC 98, from memory; bad: house rule'),
  'frequency-response-deviation': below(2, 5, house),
  ...spans([2, 4], [1.5, 3], [1, 2]),
  ...differences([2, 4], [2, 3.5], [1.5, 2.5], [1, 2]),
  'arm-resonance-from': above(8, 6, 'common practice; no standard seen'),
  'arm-resonance-to': below(12, 15, 'common practice; no standard seen'),
  // — of Match, calculated —
  'noise-under-reference': above(60, 50, 'common practice'),
  'noise-with-input': above(60, 50, 'common practice'),
  headroom: above(18, 12, 'common practice: records reach 18 dB over 5 cm/s'),
  'headroom-converter': above(18, 12, 'common practice: records reach 18 dB over 5 cm/s'),
  'line-level': above(100, 30, 'common practice: 10 and 20 dB under −10 dBV'),
  'load-over-coil': above(8, 2, 'common practice: ten times the coil is usual'),
};

export const DECK_CLASSES: Readonly<Record<DeckClass, Limits>> = {
  shop,
  studio: {
    ...shop,
    'separation-left-to-right': above(27, 22, house),
    'separation-right-to-left': above(27, 22, house),
    'channel-balance': below(0.8, 1.5, house),
    'speed-error': below(0.2, 0.5, house),
    'wow-flutter-weighted': below(0.07, 0.12, house),
    'rumble-unweighted': above(42, 37, house),
    'rumble-weighted': above(60, 55, house),
    'tracking-error': below(2.5, 3.5, house),
    'vertical-tracking-error': below(4, 8, house),
    'frequency-response-deviation': below(1.5, 3, house),
    ...spans([1.5, 3], [1.2, 2], [1, 1.5]),
    ...differences([1.5, 3], [1.5, 2.5], [1.2, 2], [0.8, 1.5]),
  },
  archive: {
    ...shop,
    'separation-left-to-right': above(28, 25, house),
    'separation-right-to-left': above(28, 25, house),
    'channel-balance': below(0.5, 1, house),
    'speed-error': below(0.1, 0.3, house),
    'wow-flutter-weighted': below(0.05, 0.1, house),
    eccentricity: below(0.1, 0.3, house),
    'rumble-unweighted': above(45, 40, house),
    'rumble-weighted': above(63, 58, house),
    'tracking-error': below(2.5, 3, house),
    'vertical-tracking-error': below(3, 6, house),
    'frequency-response-deviation': below(1, 2, house),
    ...spans([1, 2], [1, 1.5], [0.8, 1.2]),
    ...differences([1, 2], [1, 1.5], [0.8, 1.2], [0.5, 1]),
  },
};
