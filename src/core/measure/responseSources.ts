/**
 * The sweeps and noises that tell a response, channels put right, what cut and chain make of their level taken off.
 */

import { median } from '../signal/robust.ts';
import { type ChainKnown, expectedDb, type SweepLaw } from './chainLevel.ts';
import type { Channel } from './channels.ts';
import type { SideReadings } from './sideReadings.ts';
import type { SweepPoint } from './sweepEstimator.ts';

export interface ResponseSource {
  readonly band: number;
  readonly kind: 'sweep' | 'noise';
  /** wall that is cut */
  readonly driven: Channel | 'both';
  /** the channels are in antiphase where both are driven */
  readonly antiphase: boolean;
  readonly law: SweepLaw;
  /** the record file says so; else it is what the levels look like */
  readonly lawStated: boolean;
  /** dB of both channels as captured, by which stated levels differ */
  readonly cutDb: number;
  readonly seconds: number;
  readonly points: readonly SweepPoint[];
}

const LEAST_POINTS = 10;
const dB = (power: number): number => 10 * Math.log10(Math.max(power, 1e-30));

export function responseSources(side: SideReadings, chain: ChainKnown): ResponseSource[] {
  return (side.passages ?? []).flatMap(({ passage, readings }): ResponseSource[] => {
    const { band } = passage;
    const kind = readings.sweep !== undefined ? 'sweep' : 'noise';
    const heard = readings.sweep?.points ?? readings.noiseResponse ?? [];
    if (band === null || heard.length < LEAST_POINTS) return [];
    const swapped = side.order === 'swapped';
    const points = swapped ? heard.map(exchanged) : heard;
    const cut = band.sheetBand === null ? undefined : side.sheet?.bands[band.sheetBand];
    const heardMotion = swapped ? ({ left: 'right', right: 'left' } as Record<string, string>)[band.motion] : undefined;
    const driven = drivenBy(heardMotion ?? band.motion, points);
    const law = cut === undefined ? likelyLaw(points, driven, chain) : (cut.cut ?? 'riaa');
    return [
      {
        band: band.index,
        kind,
        driven,
        antiphase: points.reduce((sum, p) => sum + p.re / (p.left + p.right), 0) < 0,
        law,
        lawStated: cut?.cut !== undefined,
        cutDb: 20 * Math.log10(cut?.peakVelocityCmS ?? 1) + (cut?.levelCorrectionDb ?? 0),
        seconds: passage.endS - passage.startS,
        points,
      },
    ];
  });
}

const exchanged = (p: SweepPoint): SweepPoint => ({ ...p, left: p.right, right: p.left, im: -p.im });

/** so much louder is the wall that is cut, dB, where nobody says which */
const ONE_SIDED_DB = 8;

function drivenBy(motion: string, points: readonly SweepPoint[]): Channel | 'both' {
  if (motion === 'left' || motion === 'right') return motion;
  if (motion === 'lateral' || motion === 'vertical') return 'both';
  const apart = median(points.map((p) => dB(p.left) - dB(p.right)));
  return Math.abs(apart) < ONE_SIDED_DB ? 'both' : apart > 0 ? 'left' : 'right';
}

/** The law under which the response is flatter: the two differ by 40 dB. */
function likelyLaw(points: readonly SweepPoint[], driven: Channel | 'both', chain: ChainKnown): SweepLaw {
  const channel = driven === 'right' ? 'right' : 'left';
  const unrest = (law: SweepLaw): number => {
    const off = points.map((p) => dB(p[channel]) - expectedDb(law, chain, channel, p.hz));
    const middle = median(off);
    return median(off.map((v) => Math.abs(v - middle)));
  };
  return unrest('constant-velocity') < unrest('riaa') ? 'constant-velocity' : 'riaa';
}

/** Response of one channel, cut and chain taken off. */
export interface ChannelResponse {
  readonly hz: readonly number[];
  /** re 1 kHz where `anchored`, else re its own middle */
  readonly db: readonly number[];
  /** standard, of each point against 1 kHz */
  readonly spreadDb: readonly number[];
  /** as captured, at 1 kHz or in the middle, dB */
  readonly levelDb: number;
  readonly anchored: boolean;
}

/** octaves about 1 kHz whose mean is the reference */
const ANCHOR_OCTAVES = 1 / 6;

export function channelResponse(source: ResponseSource, channel: Channel, chain: ChainKnown): ChannelResponse {
  const of = source.points.filter((p) => p[channel] > 0);
  const hz = of.map((p) => p.hz);
  const level = of.map((p) => dB(p[channel]) - expectedDb(source.law, chain, channel, p.hz));
  const near = of.flatMap((p, i) => (Math.abs(Math.log2(p.hz / 1000)) <= ANCHOR_OCTAVES ? [i] : []));
  const anchored = near.length > 0;
  const levelDb = anchored ? near.reduce((sum, i) => sum + level[i], 0) / near.length : median(level);
  const anchor = anchored ? Math.hypot(...near.map((i) => of[i].spreadDb)) / near.length : 0;
  return {
    hz,
    db: level.map((v) => v - levelDb),
    spreadDb: of.map((p) => Math.hypot(p.spreadDb, anchor)),
    levelDb,
    anchored,
  };
}
