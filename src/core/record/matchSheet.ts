/**
 * Bands heard ↔ bands of the record sheet, in order, tolerating missing, extra and cut-off ones.
 *
 * The alignment (alignBands.ts) is made for every way that the chain may have been wired (left
 * and right as they are or swapped, one channel inverted or not) and for every speed ratio that the tones suggest; the
 * best of them is the answer, and says which it was. Frequencies are compared after the common speed ratio is taken
 * out, durations are soft evidence.
 *
 * A match that another one equals is no match: a lone 1 kHz tone may be any of the sheet's three. Such a band keeps no
 * place, and channel order is told only where the other order fits clearly worse.
 *
 * @checked matchSheet.test.ts
 */
import { type Problem, problem } from '../capture/problem.ts';
import { median } from '../signal/robust.ts';
import { type Alignment, alignBands } from './alignBands.ts';
import type { Band, BandMotion } from './band.ts';
import { isLowSweep } from './lowSweeps.ts';
import { frequenciesOf, sheetFrequenciesOf, throughWiring, type Wiring } from './pairScore.ts';
import { withPlayedAgain } from './playedAgain.ts';
import type { RecordSheet, SheetBand } from './sheet.ts';

export type ChannelOrder = 'normal' | 'swapped' | 'unknown';

export interface MatchedSheet {
  /** as given, with `radiusMm` and `sheetBand` filled where matched */
  readonly bands: Band[];
  readonly order: ChannelOrder;
  readonly problems: Problem[];
  /** heard over sheet, 1 where the record ran at its speed; 1 where no tone tells */
  readonly speedRatio: number;
}

/** turns a minute of the usual decks */
const SPEEDS = [100 / 3, 45, 78] as const;
/** a deck that is merely off */
const SPEED_TOLERANCE = 0.065;
/** a wiring fault, or another speed, is not assumed for less */
const FAULT_COST = 0.3;
const ORDER_CLEARLY = 0.25;

export function matchSheet(bands: readonly Band[], sheet: RecordSheet): MatchedSheet {
  const unmatched = bands.map((band): Band => ({ ...band, radiusMm: null, sheetBand: null }));
  if (bands.length === 0) return { bands: unmatched, order: 'unknown', problems: [], speedRatio: 1 };
  const best = bestAlignment(bands, sheet);
  const matched = best.places.filter((place) => place !== null).length;
  const ofGrip = bands.filter((band) => band.signal !== 'silent-groove' && band.signal !== 'unknown').length;
  if (matched === 0 || matched < 0.5 * Math.min(ofGrip, sheet.bands.length)) {
    const params = { name: sheet.name, matched, heard: bands.length };
    return { bands: unmatched, order: 'unknown', problems: [problem('sheet-not-this-record', params)], speedRatio: 1 };
  }
  const told = unmatched.map((band, i): Band => {
    const place = best.places[i];
    if (place === null || best.rivals[i] !== null) return band;
    const cut = sheet.bands[place];
    // The sheet knows better than ears that heard one side of a lateral tone; the wiring stays as heard.
    const motion = cut.motion === 'unknown' ? band.motion : throughWiring(cut.motion, best);
    return { ...band, motion, sheetBand: place, radiusMm: cut.radiusMm ?? null };
  });
  const once = told.map((band, i) => pilotOf(band, i, told, sheet, best) ?? band);
  const filled = withPlayedAgain(once, bands, sheet, best);
  const order = orderOf(bands, sheet, best);
  const speedRatio = refinedRatio(bands, sheet, best);
  return { bands: filled, order, problems: problemsOf(bands, filled, sheet, best, order), speedRatio };
}

/** s that a pilot tone lasts at least, and how near to the sweep's stated length, ratio */
const LEAST_PILOT_S = 3;
const PILOT_LENGTH = 0.12;

/** A tone that plays where the record file has a sweep, as long as that, is the pilot beside it: the sweep itself is the weaker line. */
function pilotOf(band: Band, i: number, told: readonly Band[], sheet: RecordSheet, wiring: Wiring): Band | null {
  if (band.signal !== 'tone' || band.sheetBand !== null || band.endS - band.startS < LEAST_PILOT_S) return null;
  const before = told.slice(0, i).findLast(({ sheetBand }) => sheetBand !== null)?.sheetBand ?? -1;
  const after = told.slice(i + 1).find(({ sheetBand }) => sheetBand !== null)?.sheetBand ?? sheet.bands.length;
  const places = sheet.bands.flatMap((cut, place) => {
    const isThere = place > before && place < after && cut.signal === 'sweep' && !isLowSweep(cut);
    const off = Math.abs(Math.log((band.endS - band.startS + 0.12) / (cut.durationS ?? 0)));
    return isThere && off < PILOT_LENGTH ? [place] : [];
  });
  if (places.length !== 1) return null;
  const cut = sheet.bands[places[0]];
  return {
    ...band,
    signal: 'sweep',
    frequencyHz: null,
    fromHz: cut.fromHz,
    toHz: cut.toHz,
    motion: throughWiring(cut.motion, wiring),
    radiusMm: cut.radiusMm ?? null,
    sheetBand: places[0],
  };
}

/** Told only where one-sided bands were matched and the other order fits clearly worse. */
function orderOf(bands: readonly Band[], sheet: RecordSheet, best: Alignment): ChannelOrder {
  const oneSided = best.places.some(
    (place, i) => place !== null && isOneSided(bands[i]) && isOneSided(sheet.bands[place]),
  );
  if (!oneSided) return 'unknown';
  const other = Math.max(
    ...[false, true].map(
      (inverted) => alignBands(bands, sheet.bands, best.ratio, { swapped: !best.swapped, inverted }).score,
    ),
  );
  if (other > best.score - ORDER_CLEARLY) return 'unknown';
  return best.swapped ? 'swapped' : 'normal';
}

const isOneSided = ({ motion }: { readonly motion: BandMotion }): boolean => motion === 'left' || motion === 'right';

function bestAlignment(bands: readonly Band[], sheet: RecordSheet): Alignment {
  let best: Alignment | null = null;
  let most = -Infinity;
  for (const ratio of speedRatios(bands, sheet)) {
    for (const swapped of [false, true]) {
      for (const inverted of [false, true]) {
        const found = alignBands(bands, sheet.bands, ratio, { swapped, inverted });
        const faults = [swapped, inverted, Math.abs(ratio - 1) > SPEED_TOLERANCE].filter(Boolean).length;
        const score = found.score - FAULT_COST * faults;
        if (score > most + 1e-9) {
          most = score;
          best = found;
        }
      }
    }
  }
  return best as Alignment;
}

/**
 * Speed ratios worth trying, likeliest first: 1, then those that carry some tone of the sheet onto some tone heard and
 * are within 6.5 % of 1 or of a mix-up of two speeds; near ones are taken together.
 */
function speedRatios(bands: readonly Band[], sheet: RecordSheet): number[] {
  const usual = SPEEDS.flatMap((a) => SPEEDS.map((b) => a / b));
  const votes = new Map<number, number>();
  const heard = bands.flatMap(frequenciesOf);
  const cut = sheet.bands.flatMap(sheetFrequenciesOf);
  for (const f of heard) {
    for (const g of cut) {
      const ratio = f / g;
      const plain = Math.abs(ratio - 1) < SPEED_TOLERANCE;
      if (!plain && !usual.some((u) => Math.abs(ratio / u - 1) < SPEED_TOLERANCE)) continue;
      // Bins of 0.5 %, the finest that wow leaves a short band.
      const bin = Math.round(Math.log(ratio) / 0.005);
      votes.set(bin, (votes.get(bin) ?? 0) + 1);
    }
  }
  const ranked = [...votes].sort((a, b) => b[1] - a[1] || Math.abs(a[0]) - Math.abs(b[0])).slice(0, 12);
  return [1, ...ranked.map(([bin]) => Math.exp(0.005 * bin))];
}

/** Median of heard over cut frequency of the tones that were matched. */
function refinedRatio(bands: readonly Band[], sheet: RecordSheet, { places, ratio }: Alignment): number {
  const ratios = bands.flatMap((band, i) => {
    const place = places[i];
    const cut = place === null ? undefined : sheet.bands[place].frequencyHz;
    return band.frequencyHz === null || cut === undefined ? [] : [band.frequencyHz / cut];
  });
  return ratios.length === 0 ? ratio : median(ratios);
}

function problemsOf(
  heard: readonly Band[],
  bands: readonly Band[],
  sheet: RecordSheet,
  best: Alignment,
  order: ChannelOrder,
): Problem[] {
  const problems: Problem[] = [];
  const speed = wrongSpeed(best.ratio, sheet.rpm);
  if (speed !== null) problems.push(speed);
  if (order === 'swapped') problems.push(problem('sheet-channels-swapped'));
  if (best.inverted) {
    const count = bands.filter(
      (band) => band.sheetBand !== null && (band.motion === 'lateral' || band.motion === 'vertical'),
    ).length;
    if (count > 0) problems.push(problem('sheet-one-channel-inverted', { count }));
  }
  if (order === 'unknown') problems.push(problem('sheet-order-unknown'));
  const places = best.places.filter((place) => place !== null);
  const first = places[0];
  const last = places[places.length - 1];
  sheet.bands.forEach((cut, place) => {
    // heard as the pilot tone beside it
    if (bands.some(({ sheetBand }) => sheetBand === place)) return;
    // one too low for ears is looked for where the record file has it
    const told = cut.signal !== 'silent-groove' && !isLowSweep(cut);
    if (place > first && place < last && !places.includes(place) && told) {
      problems.push(problem('sheet-band-missing', { sheetBand: place + 1, what: describe(cut) }));
    }
  });
  bands.forEach((band, i) => {
    if (band.motion === heard[i].motion || heard[i].motion === 'unknown') return;
    const params = { band: band.index + 1, heard: heard[i].motion, cut: band.motion };
    problems.push(problem('sheet-motion-differs', params, { startS: band.startS, endS: band.endS }));
  });
  bands.forEach((band, i) => {
    const rival = best.rivals[i];
    const place = best.places[i];
    if (place !== null && rival !== null && band.signal !== 'silent-groove') {
      const params = { band: band.index + 1, one: Math.min(place, rival) + 1, other: Math.max(place, rival) + 1 };
      problems.push(problem('sheet-band-ambiguous', params, { startS: band.startS, endS: band.endS }));
    } else if (band.sheetBand === null && band.signal !== 'silent-groove') {
      const params = { band: band.index + 1, what: describe(band) };
      problems.push(problem('sheet-band-extra', params, { startS: band.startS, endS: band.endS }));
    }
  });
  return problems;
}

/** A ratio that is nearer to a mix-up of two speeds than to a deck that is merely off. */
function wrongSpeed(ratio: number, rpm: number): Problem | null {
  if (Math.abs(ratio - 1) < SPEED_TOLERANCE) return null;
  const played = SPEEDS.reduce((near, s) => (Math.abs(s / rpm - ratio) < Math.abs(near / rpm - ratio) ? s : near));
  return problem('sheet-wrong-speed', {
    percent: Number((100 * (ratio - 1)).toFixed(1)),
    playedRpm: Number(played.toFixed(1)),
    rpm: Number(rpm.toFixed(1)),
  });
}

function describe(band: Band | SheetBand): string {
  const hz = (f: number | undefined): string => (f === undefined ? '?' : `${Number(f.toPrecision(4))}`);
  const signal =
    band.signal === 'tone'
      ? `tone ${hz(band.frequencyHz ?? undefined)} Hz`
      : band.signal === 'two-tone'
        ? `two-tone ${(band.frequenciesHz ?? []).map(hz).join(' + ')} Hz`
        : band.signal === 'sweep'
          ? `sweep ${hz(band.fromHz)} to ${hz(band.toHz)} Hz`
          : band.signal;
  return band.motion === 'none' || band.motion === 'unknown' ? signal : `${signal}, ${band.motion}`;
}
