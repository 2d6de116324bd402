/**
 * Hum, rumble and surface noise in each channel, in dB under 5 cm/s along one wall at 1 kHz (referenceLevel.ts), of the states that the recording
 * holds: the tip in the air with the motor off and on, and unmodulated groove.
 *
 *   L = 10 lg (a²/2) − 10 lg P      P mean square in that state, weighted, after playback equalisation
 */

import { type Problem, withheld } from '../capture/problem.ts';
import { aWeightingGain } from '../signal/aWeighting.ts';
import { countInterval } from '../signal/countInterval.ts';
import { type RumbleWeighting, rumbleGain } from '../signal/rumbleWeighting.ts';
import { type Statement, statement } from '../words/statement.ts';
import { CHANNELS, type Channel } from './channels.ts';
import type { Curve, Finding } from './finding.ts';
import { familyOf, humFindings, tipUpStates } from './humFigures.ts';
import type { QuietPart } from './quietEstimator.ts';
import { atOneLevel, longestOf, type QuietHeard, quietStretches, UNDER_REFERENCE } from './quietHeard.ts';
import { referencePower, spreadDb, under } from './quietLevel.ts';
import { type Gain, thirdOctaves, undoing, weightedPower } from './quietSpectra.ts';
import { type ChannelReference, type ReferenceLevel, referenceLevel } from './referenceLevel.ts';
import type { SideReadings } from './sideReadings.ts';

export interface NoiseFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  readonly curves: Curve[];
}

/** rumble is summed from here to there, Hz: the weightings have all but ended by then */
const RUMBLE_FROM_HZ = 2;
const RUMBLE_TO_HZ = 2000;
const SURFACE_FROM_HZ = 20;
const SURFACE_TO_HZ = 20_000;

/** by so much filters must read otherwise to be named, dB */
const WORTH_SAYING_DB = 0.5;

/** @param flat captured without playback equalisation */
export function noiseFigures(side: SideReadings, flat: boolean): NoiseFigures {
  const all = quietStretches(side);
  if (all.length === 0) return { findings: [], problems: [], curves: [] };
  const reference = referenceLevel(side, flat);
  const { heard, problems } = atOneLevel(all, side, reference, flat);
  const groove = longestOf(heard, 'groove');
  const gain = undoing(flat);
  const { on, off } = tipUpStates(heard, gain);
  // one state alone: the longest of it
  const air = (off === null ? longestOf(heard, 'tip-up')?.reading.parts[0] : on?.part) ?? null;
  const played = longestOf(all, 'groove');
  const clicks = played === null ? [] : [clickFigure(played)];
  if (reference.left === null && reference.right === null) {
    return { findings: clicks, problems: withoutReference(groove), curves: [] };
  }
  const ofChannels = (make: (channel: Channel, of: ChannelReference) => readonly Finding[]): Finding[] =>
    CHANNELS.flatMap((channel) => {
      const of = reference[channel];
      return of === null ? [] : make(channel, of);
    });
  return {
    findings: [
      ...humFindings(groove, heard, reference, gain),
      ...(groove === null
        ? []
        : ofChannels((channel, of) => [
            rumble('unweighted', groove, air, channel, of, gain, side.assumed.lowCorner.size),
            rumble('weighted', groove, air, channel, of, gain, side.assumed.lowCorner.size),
            surface('noise-a-weighted', groove.reading.parts[0], groove.bands, channel, of, gain),
          ])),
      ...ofChannels((channel, of) => electronics(air, off?.part ?? null, channel, of, gain)),
      ...clicks,
    ],
    problems,
    curves: ofCurves({ groove, air, off: off?.part ?? null }, reference, gain),
  };
}

/** What a reference would have told. */
const withoutReference = (groove: QuietHeard | null): Problem[] =>
  (groove === null ? ['hum-tip-up'] : UNDER_REFERENCE.groove).map((quantity) =>
    withheld(quantity, statement('no-reference-level')),
  );

function rumble(
  weighting: RumbleWeighting,
  { reading, bands }: QuietHeard,
  air: QuietPart | null,
  channel: Channel,
  of: ChannelReference,
  gain: Gain,
  cornerHz: number,
): Finding {
  const shaped = (shape: 'lines' | 'smooth', behindHz = 0) =>
    weightedPower(
      reading.parts[0],
      channel,
      RUMBLE_FROM_HZ,
      RUMBLE_TO_HZ,
      (hz) => gain(hz) * rumbleGain(weighting, shape, hz) * Math.hypot(1, behindHz / hz),
    );
  const { power, spread } = shaped('lines');
  // the figure is of the straight lines; what filters with the same ends would read is as good a reading, so how far they lie apart is in the ±
  const smooth = shaped('smooth').power;
  const filtersDb = power > 0 && smooth > 0 ? 10 * Math.log10(power / smooth) : 0;
  // a low corner of the chain takes rumble off the capture: none of 0 Hz to there likelier than another, twice the rms of that
  const cornerDb = power > 0 ? 2 * Math.sqrt(1 / 5) * 10 * Math.log10(shaped('lines', cornerHz).power / power) : 0;
  const family = familyOf(reading.parts[0].low, gain);
  const ofMains =
    family?.lines.reduce(
      (sum, line) => sum + line[channel] * rumbleGain(weighting, 'lines', line.order * family.hz) ** 2,
      0,
    ) ?? 0;
  const notes = [statement(weighting === 'weighted' ? 'rumble-weighted-as' : 'rumble-unweighted-as')];
  if (Math.abs(filtersDb) >= WORTH_SAYING_DB) notes.push(statement('rumble-by-filters', { db: filtersDb }));
  if (ofMains > power / 2) notes.push(statement('rumble-is-hum', { percent: (100 * ofMains) / power }));
  else if (air !== null) {
    // what is there with the tip up is no bearing's
    const without = weightedPower(
      air,
      channel,
      RUMBLE_FROM_HZ,
      RUMBLE_TO_HZ,
      (hz) => gain(hz) * rumbleGain(weighting, 'lines', hz),
    ).power;
    if (without > power / 2)
      notes.push(statement('rumble-is-electronics', { percent: Math.min(100, (100 * without) / power) }));
  }
  const [value, own] = [under(of, power), spreadDb(power, spread)];
  // such filters read to one side of the lines, on this noise; without its corner the chain would pass more
  const towards = (db: number): number => Math.hypot(own, Math.max(0, db));
  return {
    quantity: `rumble-${weighting}`,
    value,
    unit: 'dB',
    repeatability: own,
    uncertainty: Math.hypot(own, filtersDb, cornerDb),
    low: value - Math.hypot(towards(-filtersDb), cornerDb),
    high: value + towards(filtersDb),
    bands,
    channel,
    notes: [...notes, underReference(of)],
  };
}

function surface(
  quantity: string,
  part: QuietPart,
  bands: readonly number[],
  channel: Channel,
  of: ChannelReference,
  gain: Gain,
): Finding {
  const { power, spread } = weightedPower(
    part,
    channel,
    SURFACE_FROM_HZ,
    SURFACE_TO_HZ,
    (hz) => gain(hz) * aWeightingGain(hz),
  );
  return {
    quantity,
    value: under(of, power),
    unit: 'dB',
    uncertainty: spreadDb(power, spread),
    bands,
    channel,
    notes: [
      statement(quantity === 'noise-a-weighted' ? 'noise-of-groove' : 'noise-of-electronics'),
      underReference(of),
    ],
  };
}

/** the motor is said to be heard from so much on beyond what chance leaves, dB */
const MOTOR_HEARD_DB = 1;

/** Tip in the air, motor on (or what there is), and off where the recording tells it. */
function electronics(
  air: QuietPart | null,
  off: QuietPart | null,
  channel: Channel,
  of: ChannelReference,
  gain: Gain,
): Finding[] {
  if (air === null) return [];
  const on = surface('noise-a-weighted-tip-up', air, [], channel, of, gain);
  if (off === null) return [on];
  const quiet = surface('noise-a-weighted-motor-off', off, [], channel, of, gain);
  const louder = (quiet.value as number) - (on.value as number);
  const chance = Math.hypot(on.uncertainty ?? 0, quiet.uncertainty ?? 0);
  const note = statement(louder > MOTOR_HEARD_DB + chance ? 'noise-with-motor' : 'noise-motor-alike', { db: louder });
  return [{ ...on, notes: [...on.notes, note] }, quiet];
}

const underReference = ({ hz }: ChannelReference): Statement => statement('under-reference', { hz });

/** What was counted, and the means that leave it likely: a count of few is far from symmetric. */
function clickFigure({ reading, bands }: QuietHeard): Finding {
  const perMinute = 60 / reading.seconds;
  const { low, high } = countInterval(reading.clicks);
  return {
    quantity: 'clicks-per-minute',
    value: reading.clicks * perMinute,
    unit: '1/min',
    uncertainty: (high - reading.clicks) * perMinute,
    low: low * perMinute,
    high: high * perMinute,
    bands,
    notes: [statement('clicks-counted', { clicks: reading.clicks, seconds: reading.seconds })],
  };
}

interface Quiet {
  readonly groove: QuietHeard | null;
  readonly air: QuietPart | null;
  readonly off: QuietPart | null;
}

function ofCurves({ groove, air, off }: Quiet, reference: ReferenceLevel, gain: Gain): Curve[] {
  return (
    [
      ['noise-spectrum', groove?.reading.parts[0] ?? null],
      ['noise-spectrum-tip-up', air],
      ['noise-spectrum-motor-off', off],
    ] as const
  ).flatMap(([quantity, part]) =>
    part === null
      ? []
      : CHANNELS.flatMap((channel): Curve[] => {
          const of = reference[channel];
          if (of === null) return [];
          const { x, y } = thirdOctaves(part, channel, referencePower(of), gain);
          const band = quantity === 'noise-spectrum' ? groove?.bands[0] : undefined;
          return [{ quantity, channel, ...(band === undefined ? {} : { band }), x, y, xUnit: 'Hz', yUnit: 'dB' }];
        }),
  );
}
