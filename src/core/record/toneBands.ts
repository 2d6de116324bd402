/**
 * Pieces of tracks → bands: the strongest steady line at a time is the band, a second one that starts and stops with it
 * makes it a two-tone, harmonics and mixing products belong to it, and what goes on before, during and after stronger
 * bands (hum, the motor) is background.
 */

import { median } from '../signal/robust.ts';
import { isAlone, isSweepAlone } from './aloneLines.ts';
import { alwaysThere, type LinesOfHop, LOUD_HUM } from './heardLines.ts';
import { CROSSOVER_HZ, type HopSpectra } from './hopSpectra.ts';
import type { Line } from './lineStore.ts';
import { type Edges, edgesOf } from './pieceEdges.ts';
import { sweepEnds } from './sweepEnds.ts';
import { joinSweeps } from './sweepPieces.ts';
import { power, type Track } from './toneTracks.ts';
import { type Piece, trackSegments } from './trackSegments.ts';

export interface ToneBand extends Edges {
  readonly signal: 'tone' | 'two-tone' | 'sweep';
  /** Hz; of a sweep, where it starts and where it ends */
  readonly frequencyHz: number;
  /** two-tone: the other one; sweep: the end */
  readonly otherHz: number | null;
  /** mean squares, medians over the band; of a two-tone, those of the line that tells the motion better */
  readonly left: number;
  readonly right: number;
  readonly cross: number;
}

interface Candidate extends Edges, Pick<Piece, 'kind' | 'fromHop' | 'toHop'> {
  /** of a sweep; a steady one's are not kept */
  readonly points: readonly Line[];
  readonly frequencyHz: number;
  readonly left: number;
  readonly right: number;
  readonly cross: number;
  /** power with the low end, where hum and rumble live, weighed down */
  readonly weight: number;
}

const LEAST_S = 0.7;
const LEAST_SWEEP_S = 1.2;
const MOST_DRIFT_DB = 0.8;
const SIDE_LINES_HZ = 250;
/** Hz; the motor and the bearing make lines below this */
const RUMBLE_HZ = 160;
/** Down here rumble itself swells for a second or so at one frequency: what is as short and 16 dB under the loudest band is rumble. */
const SWELL = { hz: 60, s: 2, under: 10 ** -1.6 };
/** Of a line that the side keeps all along, power to what it keeps, and how far under the loudest band it must be. */
const KEPT = { times: 4, under: 0.1 };
/** of a mains line that the side keeps, power to what it keeps */
const STILL_KEPT = 2;
/** the mains' lines beat about the level that they keep, power */
const HUM_IN_AIR = 30;

export function toneBands(tracks: Iterable<Track>, linesOf: LinesOfHop, spectra: HopSpectra): ToneBand[] {
  const candidates = candidatesAmong(tracks, spectra).sort((a, b) => b.weight - a.weight);
  const kept = alwaysThere(spectra);
  const loudest = candidates.reduce((most, c) => (isLowLine(c) ? most : Math.max(most, c.left + c.right)), 0);
  const foreground = candidates.filter(
    (c) =>
      !isBackground(c, candidates) &&
      !isHumInAir(c, candidates, kept(c.frequencyHz), spectra) &&
      !isRumble(c, loudest, kept(c.frequencyHz)) &&
      !isKeptHum(c, candidates, kept(c.frequencyHz)),
  );

  const primaries: Candidate[] = [];
  const seconds = new Map<Candidate, Candidate[]>();
  for (const c of foreground) {
    const over = primaries.find((p) => overlapS(c, p) > 0.5 * (c.endS - c.startS));
    if (over === undefined) {
      primaries.push(c);
      seconds.set(c, []);
    } else seconds.get(over)?.push(c);
  }
  primaries.sort((a, b) => a.startS - b.startS);
  return primaries.flatMap((p): ToneBand[] => {
    const { startS, endS, steadyFromS, steadyToS } = p;
    if (p.kind === 'moving') return isSweepAlone(p.points, linesOf) ? [sweep(p, primaries, spectra)] : [];
    const second = seconds.get(p)?.find((q) => isPartner(p, q, spectra));
    const own = second === undefined ? [p.frequencyHz] : [p.frequencyHz, second.frequencyHz];
    if (!isAlone(own, p.fromHop + 1, p.toHop - 1, linesOf)) return [];
    const band: ToneBand = {
      signal: second === undefined ? 'tone' : 'two-tone',
      startS,
      endS,
      steadyFromS,
      steadyToS,
      frequencyHz: p.frequencyHz,
      otherHz: second?.frequencyHz ?? null,
      ...moreOneSided(p, second),
    };
    return [band];
  });
}

/** Steady ones first. Of a long capture's many steady pieces nothing is held but what is told of them. */
function candidatesAmong(tracks: Iterable<Track>, spectra: HopSpectra): Candidate[] {
  const moving: Piece[] = [];
  const steady: Candidate[] = [];
  const told = (piece: Piece, leastS: number): Candidate[] => {
    if (!isWhole(piece, spectra)) return [];
    const one = candidate(piece, spectra);
    return one.endS - one.startS > leastS ? [one] : [];
  };
  for (const track of tracks) {
    for (const piece of trackSegments(track, spectra)) {
      if (piece.kind === 'moving') moving.push(piece);
      else steady.push(...told(piece, LEAST_S));
    }
  }
  return [...steady, ...joinSweeps(moving).flatMap((piece) => told(piece, LEAST_SWEEP_S))];
}

/** Both lines of a two-tone move one way; leak, which grows with frequency, can only make a side less clear. */
function moreOneSided(p: Candidate, q: Candidate | undefined): Pick<ToneBand, 'left' | 'right' | 'cross'> {
  const sided = (c: Candidate): number => Math.abs(Math.log((c.left + 1e-30) / (c.right + 1e-30)));
  const { left, right, cross } = q !== undefined && sided(q) > sided(p) ? q : p;
  return { left, right, cross };
}

/** A sweep with its ends carried on to where it was lost or to its neighbours. */
function sweep(c: Candidate, primaries: readonly Candidate[], spectra: HopSpectra): ToneBand {
  const { points } = c;
  const i = primaries.indexOf(c);
  const hopOf = (s: number): number => (s - spectra.timeOf(0)) / spectra.hopS;
  const leastHop = i === 0 ? 0 : Math.ceil(hopOf(primaries[i - 1].endS));
  const mostHop = i === primaries.length - 1 ? spectra.hops : Math.floor(hopOf(primaries[i + 1].startS));
  const ends = sweepEnds(points, spectra, leastHop, mostHop);
  const startS = ends.fromHop < points[0].hop ? Math.max(0, spectra.timeOf(ends.fromHop + 0.4)) : c.startS;
  const lastHop = points[points.length - 1].hop;
  const endS = ends.toHop > lastHop + 1 ? Math.min(spectra.durationS, spectra.timeOf(ends.toHop - 0.4)) : c.endS;
  return {
    signal: 'sweep',
    startS,
    endS,
    steadyFromS: Math.min(c.steadyFromS, startS),
    steadyToS: Math.max(c.steadyToS, endS),
    frequencyHz: ends.fromHz,
    otherHz: ends.toHz,
    left: c.left,
    right: c.right,
    cross: c.cross,
  };
}

const overlapS = (a: Edges, b: Edges): number => Math.min(a.endS, b.endS) - Math.max(a.startS, b.startS);

/**
 * Level and frequency keep still enough, and the line is there nearly all the time. Rumble makes lines too, for half a
 * second and never far out of it: down there a line must stand out, or stay for long.
 */
function isWhole({ kind, points, fromHop, toHop }: Piece, spectra: HopSpectra): boolean {
  const n = points.length;
  if (n < 8) return false;
  const low = median(points.map((p) => p.frequencyHz)) < CROSSOVER_HZ;
  const presence = n / (toHop - fromHop);
  const inner = points.slice(2, -2);
  const rise = median(inner.map((p) => p.rise));
  if (kind === 'moving') {
    const span = Math.abs(Math.log(points[n - 1].frequencyHz / points[0].frequencyHz));
    const inRumble = points[0].frequencyHz < 60 && points[n - 1].frequencyHz < 60;
    return presence > 0.6 && rise > 60 && span > (inRumble ? 0.9 : 0.3);
  }
  if (presence < 0.75) return false;
  // About the crossover some points come from one spectrum and some from the other.
  const binHz = (p: Line): number => (p.frequencyHz < CROSSOVER_HZ ? spectra.lowBinHz : spectra.mainBinHz);
  if (median(inner.map((p) => p.spreadHz / binHz(p))) > (low ? 2.8 : 2.2)) return false;
  const lnF = inner.map((p) => Math.log(p.frequencyHz));
  const jitter = median(lnF.slice(2).map((f, i) => Math.abs(f - 2 * lnF[i + 1] + lnF[i]) / 2));
  const coarsest = inner.reduce((most, p) => Math.max(most, (0.12 * binHz(p)) / p.frequencyHz), 0);
  if (jitter > 0.002 + coarsest) return false;
  const db = inner.map((p) => 10 * Math.log10(power(p))).sort((a, b) => a - b);
  const unrestDb = db[Math.floor(0.75 * db.length)] - db[Math.floor(0.25 * db.length)];
  if (driftDb(inner) > MOST_DRIFT_DB + 0.5 * unrestDb + 0.05 * (toHop - fromHop) * spectra.hopS) return false;
  if (low && !(presence > 0.85 && ((n >= 24 && rise > 150) || (n >= 40 && rise > 50 && unrestDb < 1.5)))) return false;
  return unrestDb < 2.5;
}

/** How far the level of the last third lies from that of the first: a note that was struck dies away. */
function driftDb(points: readonly Line[]): number {
  const third = Math.max(1, Math.floor(points.length / 3));
  return Math.abs(10 * Math.log10(median(points.slice(-third).map(power)) / median(points.slice(0, third).map(power))));
}

function candidate(piece: Piece, spectra: HopSpectra): Candidate {
  const inner = piece.points.length > 8 ? piece.points.slice(2, -2) : piece.points;
  // Of a sweep, the middle of the range tells motion best: leak grows with frequency, rumble lies below.
  const middle = inner.filter((p) => piece.kind === 'moving' && p.frequencyHz > 200 && p.frequencyHz < 3000);
  const points = middle.length >= 8 ? middle : inner;
  const frequencyHz = median(points.map((p) => p.frequencyHz));
  const left = median(points.map((p) => p.left));
  const right = median(points.map((p) => p.right));
  const coherence = median(points.map((p) => p.cross / Math.sqrt(p.left * p.right + 1e-30)));
  const edges = edgesOf(piece, spectra);
  const clip = (s: number): number => Math.min(spectra.durationS, Math.max(0, s));
  return {
    kind: piece.kind,
    fromHop: piece.fromHop,
    toHop: piece.toHop,
    points: piece.kind === 'moving' ? piece.points : [],
    frequencyHz,
    left,
    right,
    cross: coherence * Math.sqrt(left * right),
    weight: (left + right) * Math.min(1, frequencyHz / 1000) ** 2,
    startS: clip(edges.startS),
    endS: clip(edges.endS),
    steadyFromS: clip(edges.steadyFromS),
    steadyToS: clip(edges.steadyToS),
  };
}

function isRumble(c: Candidate, loudest: number, kept: number): boolean {
  if (!isLowLine(c)) return false;
  const power = c.left + c.right;
  const swells = c.frequencyHz < SWELL.hz && c.endS - c.startS < SWELL.s && power < SWELL.under * loudest;
  return swells || power < Math.min(KEPT.times * kept, KEPT.under * loudest);
}

/**
 * A mains line whose level the side keeps all along, far under a band at another frequency: under stronger bands it was not followed, between them and in the
 * run-out it was.
 */
function isKeptHum(c: Candidate, all: readonly Candidate[], kept: number): boolean {
  const { frequencyHz, left, right } = c;
  if (c.kind === 'moving' || frequencyHz > CROSSOVER_HZ || !isOfMains(frequencyHz)) return false;
  const others = all.filter((d) => !isLowLine(d) && Math.abs(d.frequencyHz / frequencyHz - 1) > 0.03);
  const loudest = others.reduce((most, d) => Math.max(most, d.left + d.right), 0);
  return left + right < Math.min(STILL_KEPT * kept, KEPT.under * loudest);
}

const isOfMains = (hz: number): boolean =>
  [50, 60].some((mains) => Math.abs(hz / mains - Math.round(hz / mains)) * mains < 0.5 + 0.004 * hz);

const isLowLine = ({ kind, frequencyHz }: Candidate): boolean => kind === 'steady' && frequencyHz < RUMBLE_HZ;

/** Sounds on both sides of a stronger line that is wholly inside, or right through two stronger ones. */
function isBackground(c: Candidate, all: readonly Candidate[]): boolean {
  let through = 0;
  for (const other of all) {
    if (other === c || other.weight <= c.weight) continue;
    const overlap = overlapS(c, other);
    if (overlap < 0.5) continue;
    if (c.startS < other.startS - 0.5 && c.endS > other.endS + 0.5) return true;
    if (overlap > 0.9 * (other.endS - other.startS)) through += 1;
  }
  return through >= 2;
}

/**
 * A mains line, no stronger than it always is, before the first or after the last band where the groove's noise, which every band has between its lines,
 * is missing: the needle is up. The hop's own spectrum does not part the mains' harmonics from 420 Hz on.
 */
function isHumInAir(c: Candidate, all: readonly Candidate[], kept: number, spectra: HopSpectra): boolean {
  const { frequencyHz } = c;
  if (c.kind === 'moving' || frequencyHz > 1300) return false;
  if (c.left + c.right > Math.min(LOUD_HUM, HUM_IN_AIR * kept)) return false;
  if (!isOfMains(frequencyHz) && frequencyHz < CROSSOVER_HZ) return false;
  const before = all.filter((d) => d !== c && d.endS < c.startS + 0.3);
  const after = all.filter((d) => d !== c && d.startS > c.endS - 0.3);
  const others = before.length === 0 ? after : after.length === 0 ? before : [];
  return others.length > 0 && floorDb(c, spectra) < median(others.map((d) => floorDb(d, spectra))) - 8;
}

/** dB, median of the floor between lines, 700 Hz to 11 kHz */
function floorDb({ fromHop, toHop }: Candidate, spectra: HopSpectra): number {
  const floors: number[] = [];
  for (let hop = fromHop + 1; hop < toHop - 1; hop++) {
    for (let o = 5; o <= 8; o++) floors.push(10 * Math.log10(spectra.octave(hop, o).floor + 1e-16));
  }
  return floors.length === 0 ? 0 : median(floors);
}

/**
 * A second line makes a two-tone when it starts and stops with the first and is no harmonic of it, nor a harmonic folded
 * at the rate that was looked at.
 */
function isPartner(p: Candidate, q: Candidate, spectra: HopSpectra): boolean {
  if (q.kind !== 'steady') return false;
  const duration = p.endS - p.startS;
  if (overlapS(p, q) < 0.8 * duration) return false;
  const atStart = p.startS < 0.1;
  const atEnd = p.endS > spectra.durationS - 0.1;
  // The slow spectrum takes what comes right after a low line for some more of it.
  const apartS = Math.min(p.frequencyHz, q.frequencyHz) < CROSSOVER_HZ ? 0.45 : 0.25;
  if (!atStart && Math.abs(q.startS - p.startS) > apartS) return false;
  if (!atEnd && Math.abs(q.endS - p.endS) > apartS) return false;
  const [low, high] = p.frequencyHz < q.frequencyHz ? [p, q] : [q, p];
  const under = 10 * Math.log10((p.left + p.right) / (q.left + q.right));
  if (under > 46) return false;
  // Flutter and hum put side lines about a tone.
  if (high.frequencyHz - low.frequencyHz < SIDE_LINES_HZ && Math.abs(under) > 12) return false;
  const ratio = high.frequencyHz / low.frequencyHz;
  const n = Math.round(ratio);
  const highUnder = 10 * Math.log10((low.left + low.right) / (high.left + high.right));
  const binHz = low.frequencyHz < CROSSOVER_HZ ? spectra.lowBinHz : spectra.mainBinHz;
  if (Math.abs(ratio / n - 1) < 0.005 + (0.3 * binHz) / high.frequencyHz && n <= 6)
    return highUnder < (n === 2 ? 3 : n === 3 ? 8 : 16);
  for (let k = 2; k <= 4; k++) {
    const folded = Math.abs(((k * low.frequencyHz + spectra.rateHz / 2) % spectra.rateHz) - spectra.rateHz / 2);
    if (Math.abs(folded / high.frequencyHz - 1) < 0.01 && highUnder > 15) return false;
  }
  return true;
}
