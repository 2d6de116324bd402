/**
 * Bands heard ↔ bands of the record sheet, in order, tolerating missing, extra and cut-off ones.
 *
 * An alignment of two lists by dynamic programming (as for two spellings of a word): each pair has a score, leaving one
 * out on either side costs a little, the best sum wins. It is made for every way that the chain may have been wired (left
 * and right as they are or swapped, one channel inverted or not) and for every speed ratio that the tones suggest; the
 * best of them is the answer, and says which it was. Frequencies are compared after the common speed ratio is taken
 * out, durations are soft evidence.
 *
 * @source S. B. Needleman and C. D. Wunsch 1970 for the alignment (from memory, not seen in a source)
 * @checked matchSheet.test.ts
 */
import type { Problem } from '../capture/problem.ts';
import { problem } from '../capture/sentences.ts';
import type { Band, BandMotion } from './band.ts';
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

interface Wiring {
  readonly swapped: boolean;
  readonly inverted: boolean;
}

interface Alignment extends Wiring {
  /** place on the sheet of each band heard, or null */
  readonly places: readonly (number | null)[];
  readonly score: number;
  readonly ratio: number;
}

/** turns a minute of the usual decks */
const SPEEDS = [100 / 3, 45, 78] as const;
/** a deck that is merely off */
const SPEED_TOLERANCE = 0.065;
const LEAVE_OUT = -0.25;

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
  const filled = unmatched.map((band, i): Band => {
    const place = best.places[i];
    return place === null ? band : { ...band, sheetBand: place, radiusMm: sheet.bands[place].radiusMm ?? null };
  });
  const oneSided = best.places.some(
    (place, i) => place !== null && isOneSided(bands[i]) && isOneSided(sheet.bands[place]),
  );
  const order = !oneSided ? 'unknown' : best.swapped ? 'swapped' : 'normal';
  return { bands: filled, order, problems: problemsOf(filled, sheet, best, order), speedRatio: best.ratio };
}

const isOneSided = ({ motion }: { readonly motion: BandMotion }): boolean => motion === 'left' || motion === 'right';

function bestAlignment(bands: readonly Band[], sheet: RecordSheet): Alignment {
  let best: Alignment | null = null;
  for (const ratio of speedRatios(bands, sheet)) {
    for (const swapped of [false, true]) {
      for (const inverted of [false, true]) {
        const found = align(bands, sheet.bands, ratio, { swapped, inverted });
        // The plain wiring and the plain speed come first and win a draw.
        if (best === null || found.score > best.score + 1e-9) best = found;
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

const frequenciesOf = (band: Band): number[] =>
  band.signal === 'tone' && band.frequencyHz !== null ? [band.frequencyHz] : [...(band.frequenciesHz ?? [])];
const sheetFrequenciesOf = (band: SheetBand): number[] =>
  band.signal === 'tone' && band.frequencyHz !== undefined
    ? [band.frequencyHz]
    : [...(band.frequenciesHz ?? [])].sort((a, b) => a - b);

/** The best sum of pair scores in which both lists keep their order. Bands left out at the sheet's ends cost nothing. */
function align(bands: readonly Band[], cut: readonly SheetBand[], ratio: number, wiring: Wiring): Alignment {
  const n = bands.length;
  const m = cut.length;
  const sums = Array.from({ length: n + 1 }, () => new Float64Array(m + 1));
  const moves = Array.from({ length: n + 1 }, () => new Uint8Array(m + 1));
  for (let i = 1; i <= n; i++) sums[i][0] = sums[i - 1][0] + extraCost(bands[i - 1]);
  for (let i = 1; i <= n; i++) {
    for (let j = 1; j <= m; j++) {
      const pair = pairScore(bands[i - 1], cut[j - 1], ratio, wiring);
      const together = pair === null ? -Infinity : sums[i - 1][j - 1] + pair;
      const extra = sums[i - 1][j] + extraCost(bands[i - 1]);
      const missing = sums[i][j - 1] + (i === n ? 0 : missingCost(cut[j - 1]));
      const most = Math.max(together, extra, missing);
      sums[i][j] = most;
      moves[i][j] = most === together ? 0 : most === missing ? 1 : 2;
    }
  }
  const places: (number | null)[] = bands.map(() => null);
  for (let i = n, j = m; i > 0 && j > 0; ) {
    if (moves[i][j] === 0) {
      places[i - 1] = j - 1;
      i -= 1;
      j -= 1;
    } else if (moves[i][j] === 1) j -= 1;
    else i -= 1;
  }
  return { ...wiring, places, ratio, score: sums[n][m] };
}

// Unmodulated groove may be heard or not without telling anything: lead-in, lead-out and pauses look the same.
const extraCost = (band: Band): number =>
  band.signal === 'silent-groove' || band.signal === 'unknown' ? -0.02 : LEAVE_OUT;
const missingCost = (band: SheetBand): number => (band.signal === 'silent-groove' ? -0.05 : LEAVE_OUT);

/** How well a band heard fits one of the sheet, up to 1; null where it cannot be that one. */
function pairScore(band: Band, cut: SheetBand, ratio: number, wiring: Wiring): number | null {
  const signal = signalScore(band, cut, ratio);
  if (signal === null) return null;
  const motion = motionScore(band.motion, throughWiring(cut.motion, wiring));
  if (motion === null) return null;
  return 0.6 * signal + 0.3 * motion + 0.1 * durationScore(band.endS - band.startS, cut.durationS, ratio);
}

function signalScore(band: Band, cut: SheetBand, ratio: number): number | null {
  if (band.signal === 'sweep' && cut.signal === 'sweep') {
    const { fromHz, toHz } = band;
    if (fromHz === undefined || toHz === undefined || cut.fromHz === undefined || cut.toHz === undefined) return 0.5;
    return (toHz - fromHz) * (cut.toHz - cut.fromHz) > 0 ? 1 : null;
  }
  if (band.signal !== cut.signal) {
    // The weaker line of a two-tone may have been missed.
    if (band.signal !== 'tone' || cut.signal !== 'two-tone' || band.frequencyHz === null) return null;
    const near = sheetFrequenciesOf(cut).map((g) => frequencyScore(band.frequencyHz as number, g * ratio));
    return near.some((s) => s !== null) ? 0.5 : null;
  }
  const heard = frequenciesOf(band);
  const expected = sheetFrequenciesOf(cut);
  const scores = heard.map((f, i) => frequencyScore(f, expected[i] * ratio));
  return scores.reduce<number | null>((least, s) => (least === null || s === null ? null : Math.min(least, s)), 1);
}

/** 1 within 0.3 %, falling to nothing at 3 %: what is left after the common speed ratio is wow and the search's bins. */
function frequencyScore(heardHz: number, expectedHz: number): number | null {
  const off = Math.abs(Math.log(heardHz / expectedHz));
  return off > 0.03 ? null : 1 - Math.max(0, off - 0.003) / 0.03;
}

function throughWiring(motion: BandMotion, { swapped, inverted }: Wiring): BandMotion {
  if (swapped && motion === 'left') return 'right';
  if (swapped && motion === 'right') return 'left';
  if (inverted && motion === 'lateral') return 'vertical';
  if (inverted && motion === 'vertical') return 'lateral';
  return motion;
}

function motionScore(heard: BandMotion, expected: BandMotion): number | null {
  if (heard === expected) return 1;
  if (heard === 'unknown' || expected === 'unknown') return 0.4;
  return null;
}

/** 1 for the sheet's duration, 0.5 unknown or cut off, 0 for twice as long. */
function durationScore(heardS: number, cutS: number | undefined, ratio: number): number {
  if (cutS === undefined) return 0.5;
  const over = heardS / (cutS / ratio);
  if (over <= 1.05) return over > 0.85 ? 1 : 0.5;
  return Math.max(0, 1 - (over - 1.05));
}

function problemsOf(bands: readonly Band[], sheet: RecordSheet, best: Alignment, order: ChannelOrder): Problem[] {
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
    if (place > first && place < last && !places.includes(place) && cut.signal !== 'silent-groove') {
      problems.push(problem('sheet-band-missing', { sheetBand: place + 1, what: describe(cut) }));
    }
  });
  for (const band of bands) {
    if (band.sheetBand === null && band.signal !== 'silent-groove') {
      const params = { band: band.index + 1, what: describe(band) };
      problems.push(problem('sheet-band-extra', params, { startS: band.startS, endS: band.endS }));
    }
  }
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
