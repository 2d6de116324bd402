/**
 * Which entry of the record file contradicts the rest of it, by what is heard: a tone's frequency, its level, or a radius out of its row.
 * (An entry's motion is held against what is heard where bands are matched.) An entry is named only where the others agree.
 *
 * @checked recordCheck.test.ts; test/loops/recordCheck.test.ts
 */

import { type Problem, problem } from '../capture/problem.ts';
import { median } from '../signal/robust.ts';
import { CHANNELS } from './channels.ts';
import { nominalOf } from './nominal.ts';
import { heardIn } from './referenceLevel.ts';
import type { SideReadings, ToneBand } from './sideReadings.ts';
import { speedOfTone } from './speed.ts';
import { DB_PER_NEPER } from './toneLevels.ts';

interface Entry {
  readonly tone: ToneBand;
  readonly value: number;
  readonly spread: number;
}

/**
 * The entries that lie off the middle of the others by more than `least`, or four of their own spreads, and what the others reach to; where
 * most of these lie within `alike` of their middle.
 */
export function oddEntries<Of extends { readonly value: number; readonly spread: number }>(
  entries: readonly Of[],
  least: number,
  alike: number,
): { readonly entry: Of; readonly off: number }[] {
  if (entries.length < 3) return [];
  return entries.flatMap((entry) => {
    const others = entries.filter((other) => other !== entry);
    const middle = median(others.map(({ value }) => value));
    // most of the others must agree; one more may be odd too
    const agreeing = others.filter(({ value }) => Math.abs(value - middle) <= alike);
    const off = entry.value - middle;
    const reach = Math.max(0, ...agreeing.map(({ value }) => Math.abs(value - middle)));
    const sure = Math.abs(off) > Math.max(least, 4 * entry.spread) + reach;
    return sure && agreeing.length >= 2 && agreeing.length > others.length / 2 ? [{ entry, off }] : [];
  });
}

const FROM_HZ = 300;
const TO_HZ = 4000;

/** @param flat captured without playback equalisation */
export function recordCheck(side: SideReadings, flat: boolean): Problem[] {
  const filed = side.tones.filter(({ cut }) => cut !== null);
  return [...frequencies(side, filed), ...levels(filed, flat, side.assumed.agreement.levelDb), ...radii(side)];
}

const at = ({ band }: ToneBand) => ({ startS: band.startS, endS: band.endS });
const entryOf = ({ band }: ToneBand): number => (band.sheetBand ?? 0) + 1;

function frequencies(side: SideReadings, filed: readonly ToneBand[]): Problem[] {
  const entries = filed.flatMap((tone): Entry[] => {
    const nominal = nominalOf(tone, side);
    if (nominal?.source !== 'sheet') return [];
    const { value, variance } = speedOfTone(tone, nominal, side);
    return [{ tone, value, spread: Math.sqrt(variance) }];
  });
  return oddEntries(entries, side.assumed.agreement.frequency, side.assumed.agreement.frequency).map(
    ({ entry: { tone }, off }) =>
      problem(
        'record-frequency-doubt',
        { entry: entryOf(tone), statedHz: tone.cut?.frequencyHz ?? 0, percent: 100 * off },
        at(tone),
      ),
  );
}

function levels(filed: readonly ToneBand[], flat: boolean, offDb: number): Problem[] {
  const entries = filed
    .filter(({ meanHz }) => meanHz >= FROM_HZ && meanHz <= TO_HZ)
    .flatMap((tone): Entry[] => {
      const heard = CHANNELS.flatMap((channel) => heardIn(tone, channel, flat) ?? []);
      if (heard.length === 0) return [];
      const level = heard.reduce((sum, { logLevel }) => sum + logLevel / heard.length, 0);
      // one wall alone has that channel's own gain: balance is not the file's
      return [{ tone, value: DB_PER_NEPER * level, spread: heard.length === 1 ? 0.25 : 0.05 }];
    });
  return oddEntries(entries, offDb, offDb).map(({ entry: { tone }, off }) =>
    problem(
      'record-level-doubt',
      { entry: entryOf(tone), statedCmS: tone.cut?.peakVelocityCmS ?? 0, db: off },
      at(tone),
    ),
  );
}

/** A radius that lies outside its neighbours', where they go inwards without it. */
function radii({ sheet }: SideReadings): Problem[] {
  const known = (sheet?.bands ?? []).flatMap(({ radiusMm }, i) => (radiusMm === undefined ? [] : [{ i, radiusMm }]));
  return known.flatMap(({ i, radiusMm }, n) => {
    const [before, after] = [known[n - 1], known[n + 1]];
    if (before === undefined || after === undefined || !(before.radiusMm > after.radiusMm)) return [];
    if (radiusMm <= before.radiusMm && radiusMm >= after.radiusMm) return [];
    // of two neighbours out of order the one that the wider row speaks against
    const [wider, further] = [known[n - 2], known[n + 2]];
    if (wider !== undefined && radiusMm > before.radiusMm && before.radiusMm > wider.radiusMm) return [];
    if (further !== undefined && radiusMm < after.radiusMm && after.radiusMm < further.radiusMm) return [];
    return [
      problem('record-radius-doubt', {
        entry: i + 1,
        radiusMm,
        outerMm: before.radiusMm,
        innerMm: after.radiusMm,
      }),
    ];
  });
}
