/** Polarity and channel order. */

import { type Statement, statement } from '../words/statement.ts';
import type { Finding } from './finding.ts';
import { meanOf, type SideReadings, type ToneBand } from './sideReadings.ts';
import { sameTone } from './toneLevels.ts';

export interface Polarity {
  readonly inverted: boolean;
  /** bands it was read from; empty where no tone drives both walls */
  readonly bands: readonly ToneBand[];
  /** nothing tells a lateral tone from a vertical one: `inverted` is then no more than the likelier guess */
  readonly unsure: boolean;
  /** what tells it; null where nothing does */
  readonly note: Statement | null;
}

/** The two channels are in phase here, as a lateral cut through a chain in order gives them. */
const inPhase = (tone: ToneBand): boolean =>
  tone.reading.segments.reduce((sum, s) => sum + s.usedS * Math.sign(s.ratio.re), 0) > 0;

const isSpeedTone = (hz: number): boolean => Math.abs(hz / 3150 - 1) < 0.03 || Math.abs(hz / 3000 - 1) < 0.02;

/** Without better a channel is taken for reversed only where this many times more is heard in antiphase than in phase; */
const FAR_MORE = 3;
/** and the channels are taken to be in phase, as most are, where this many times more is heard in phase. */
const CLEARLY_MORE = 1.5;
/** neper; 1 dB: so much louder a tone is taken for the lateral one of two of the same frequency */
const LOUDER = Math.LN10 / 20;

/**
 * Which way round the channels are. A sheet says which bands are lateral; without one a lateral cut with a reversed
 * channel looks like a vertical cut, so: speed tones are cut laterally; of two tones of one frequency the louder is lateral,
 * for the groove's depth bounds a vertical cut (common practice); where there is neither, what the most of the two-walled
 * tones, sweeps and noise show counts, for test records are mostly lateral. The leads are taken to be right, as most are, where
 * clearly more is heard in phase, and to be reversed where far more is heard in antiphase; between these it cannot be told.
 */
export function polarityOf({ tones, untoned = [] }: SideReadings): Polarity {
  const both = tones.filter((t) => t.driven === 'both');
  const cutBoth = both.filter((t) => t.cut?.motion === 'lateral' || t.cut?.motion === 'vertical');
  if (cutBoth.length > 0) {
    const time = (agree: boolean): number =>
      cutBoth.reduce((s, t) => s + ((inPhase(t) === (t.cut?.motion === 'lateral')) === agree ? t.usedS : 0), 0);
    return {
      inverted: time(false) > time(true),
      bands: cutBoth,
      unsure: false,
      note: statement('lateral-by-record-file'),
    };
  }
  if (both.length === 0) return { inverted: false, bands: [], unsure: false, note: null };
  const speed = both.filter((t) => isSpeedTone(t.meanHz));
  if (speed.length > 0) {
    const inverted = speed.reduce((s, t) => s + (inPhase(t) ? t.usedS : -t.usedS), 0) < 0;
    const note = statement('speed-tone-assumed-lateral');
    return { inverted, bands: speed, unsure: false, note };
  }
  const pair = unlikePair(both);
  if (pair !== null) {
    const note = statement('louder-assumed-lateral');
    return { inverted: !inPhase(pair.louder), bands: [pair.louder, pair.softer], unsure: false, note };
  }
  const broad = (motion: 'lateral' | 'vertical'): number =>
    untoned
      .filter((b) => b.motion === motion && (b.signal === 'sweep' || b.signal === 'noise' || b.signal === 'two-tone'))
      .reduce((s, b) => s + b.endS - b.startS, 0);
  const toned = (phase: boolean): number => both.reduce((s, t) => s + (inPhase(t) === phase ? t.usedS : 0), 0);
  const inStep = toned(true) + broad('lateral');
  const against = toned(false) + broad('vertical');
  const inverted = against > FAR_MORE * inStep;
  const note = statement('most-assumed-lateral');
  return { inverted, bands: both, unsure: !inverted && inStep < CLEARLY_MORE * against, note };
}

/** The loudest tone in phase and the loudest in antiphase at one frequency, where one is clearly louder: of the pair furthest apart. */
function unlikePair(both: readonly ToneBand[]): { readonly louder: ToneBand; readonly softer: ToneBand } | null {
  let found: { louder: ToneBand; softer: ToneBand } | null = null;
  let furthest = LOUDER;
  for (const tone of both) {
    const alike = both.filter((t) => sameTone(t.meanHz, tone.meanHz));
    const [a, b] = [true, false].map((phase) =>
      alike
        .filter((t) => inPhase(t) === phase)
        .reduce<ToneBand | null>((x, t) => (x === null || levelOf(t) > levelOf(x) ? t : x), null),
    );
    if (a === null || b === null) continue;
    const apart = levelOf(a) - levelOf(b);
    if (Math.abs(apart) <= furthest) continue;
    furthest = Math.abs(apart);
    found = apart > 0 ? { louder: a, softer: b } : { louder: b, softer: a };
  }
  return found;
}

/** neper */
const levelOf = (tone: ToneBand): number =>
  meanOf(tone.reading.segments.map((s) => ({ weight: s.usedS, value: s.logLevel.value })));

/** The two walls move laterally here, whichever way round the channels are. */
export const isLateral = (tone: ToneBand, polarity: Polarity): boolean =>
  tone.driven === 'both' && (tone.cut === null ? inPhase(tone) !== polarity.inverted : tone.cut.motion === 'lateral');

export const isVertical = (tone: ToneBand, polarity: Polarity): boolean =>
  tone.driven === 'both' && !isLateral(tone, polarity);

export function wiringFindings(side: SideReadings, polarity: Polarity): Finding[] {
  const findings: Finding[] = [];
  if (polarity.bands.length > 0 && !polarity.unsure) {
    findings.push({
      quantity: 'polarity',
      value: polarity.inverted ? 'antiphase' : 'in-phase',
      unit: '',
      uncertainty: null,
      bands: polarity.bands.map((t) => t.band.index),
      notes: [
        ...(polarity.inverted ? [statement('one-channel-reversed')] : []),
        ...(polarity.note === null ? [] : [polarity.note]),
        statement('one-or-the-other'),
      ],
    });
  }
  if (side.sheet !== null && side.order !== 'unknown') {
    const matched = side.tones.filter((t) => t.cut?.motion === 'left' || t.cut?.motion === 'right');
    findings.push({
      quantity: 'channel-order',
      value: side.order,
      unit: '',
      uncertainty: null,
      bands: matched.map((t) => t.band.index),
      notes: [
        statement(side.order === 'swapped' ? 'channels-swapped' : 'channels-in-order'),
        statement('one-or-the-other'),
      ],
    });
  }
  return findings;
}
