/**
 * Response of each channel against frequency, from sweeps or noise, with how far it strays from 1 kHz; the channels' difference, their phase, and the
 * separation against frequency.
 */

import { type Problem, withheld } from '../capture/problem.ts';
import { type Statement, statement } from '../words/statement.ts';
import { withBudget } from './budget.ts';
import { type ChainKnown, holdsEqualisation } from './chainLevel.ts';
import { CHANNELS, type Channel } from './channels.ts';
import type { Curve, Finding } from './finding.ts';
import { type ChannelResponse, channelResponse, type ResponseSource, responseSources } from './responseSources.ts';
import type { SideReadings } from './sideReadings.ts';

export interface ResponseFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  readonly curves: Curve[];
}

/** no level is read better than this, dB: hum that is passed, clicks, wow */
const LEAST_SPREAD_DB = 0.02;
/** what is heard, Hz */
const FROM_HZ = 20;
const TO_HZ = 20_000;
/** a span shorter than this says little, octaves */
const LEAST_OCTAVES = 2;
/** octaves over which a deviation is a mean */
const SMOOTH_OCTAVES = 1 / 12;

/** @param flat captured without playback equalisation */
export function responseFigures(side: SideReadings, flat: boolean): ResponseFigures {
  const chain: ChainKnown = { flat, preamp: side.preamp, record: side.recordResponse };
  const all = responseSources(side, chain);
  // noise where there is no sweep: a sweep tells more of a channel
  const sweeps = all.filter(({ kind }) => kind === 'sweep');
  const sources = sweeps.length > 0 ? sweeps : all;
  const found: ResponseFigures = { findings: [], problems: [], curves: [] };
  for (const channel of CHANNELS) deviation(channel, sources, side, chain, found);
  found.curves.push(...all.flatMap((source) => responseCurves(source, chain)));
  difference(sources, chain, found);
  found.curves.push(...separations(sources, chain), ...sources.flatMap(phaseCurve));
  return found;
}

/** One wall alone has no leak of the other in it. */
function sourcesOf(channel: Channel, sources: readonly ResponseSource[]): ResponseSource[] {
  const own = sources.filter(({ driven }) => driven === channel);
  return own.length > 0 ? own : sources.filter(({ driven }) => driven === 'both');
}

interface Joined {
  readonly hz: readonly number[];
  readonly db: readonly number[];
  readonly spreadDb: readonly number[];
}

/** Several sweeps of one channel in one, each against its own 1 kHz; ascending, smoothed. */
function joined(responses: readonly ChannelResponse[]): Joined {
  const points = responses
    .filter(({ anchored }) => anchored)
    .flatMap(({ hz, db, spreadDb }) => hz.map((f, i) => ({ hz: f, db: db[i], spread: spreadDb[i] })))
    .sort((a, b) => a.hz - b.hz);
  const smooth = points.map((p) => {
    const near = points.filter((q) => Math.abs(Math.log2(q.hz / p.hz)) <= SMOOTH_OCTAVES / 2);
    return near.reduce((sum, q) => sum + q.db, 0) / near.length;
  });
  return { hz: points.map((p) => p.hz), db: smooth, spreadDb: points.map((p) => p.spread) };
}

function deviation(
  channel: Channel,
  sources: readonly ResponseSource[],
  side: SideReadings,
  chain: ChainKnown,
  { findings, problems }: ResponseFigures,
): void {
  const quantity = 'frequency-response-deviation';
  const used = sourcesOf(channel, sources);
  if (used.length === 0) return;
  const { hz, db, spreadDb } = joined(used.map((source) => channelResponse(source, channel, chain)));
  const inside = hz.flatMap((f, i) => (f >= FROM_HZ * 0.98 && f <= TO_HZ * 1.02 ? [i] : []));
  const span = inside.length === 0 ? 0 : Math.log2(hz[inside[inside.length - 1]] / hz[inside[0]]);
  if (span < LEAST_OCTAVES) {
    if (!problems.some((p) => p.quantity === quantity))
      problems.push(withheld(quantity, statement('no-1khz-in-sweep')));
    return;
  }
  const high = inside.reduce((a, b) => (db[b] > db[a] ? b : a));
  const low = inside.reduce((a, b) => (db[b] < db[a] ? b : a));
  const most = Math.abs(db[high]) >= Math.abs(db[low]) ? high : low;
  const { cutResponse, equalisation } = side.assumed;
  findings.push(
    withBudget(
      {
        quantity,
        value: Math.abs(db[most]),
        unit: 'dB',
        channel,
        bands: used.map(({ band }) => band),
        notes: [
          statement('response-span', {
            fromHz: hz[inside[0]],
            toHz: hz[inside[inside.length - 1]],
            highDb: db[high],
            highHz: hz[high],
            lowDb: db[low],
            lowHz: hz[low],
          }),
          ...whereItStrays(db[most], hz[most]),
          ...used.flatMap(lawNotes).slice(0, 1),
          ...chainNotes(chain),
        ],
      },
      2 * Math.hypot(spreadDb[most], LEAST_SPREAD_DB),
      [...(chain.record === null ? [cutResponse] : []), ...(flatOrMeasured(chain) ? [] : [equalisation])],
    ),
  );
}

const flatOrMeasured = ({ flat, preamp }: ChainKnown): boolean => flat || preamp !== null;

/** Hz: beyond these it is the arm's resonance, or the tip's, the coil's and the load's */
const BOTTOM_HZ = 50;
const TOP_HZ = 5000;

function whereItStrays(db: number, hz: number): Statement[] {
  if (hz > TOP_HZ) return [statement(db > 0 ? 'response-top-up' : 'response-top-down')];
  if (hz < BOTTOM_HZ) return [statement(db > 0 ? 'response-bottom-up' : 'response-bottom-down')];
  return [statement('response-middle')];
}

const lawNotes = ({ law, lawStated }: ResponseSource): Statement[] =>
  lawStated ? [] : [statement(law === 'riaa' ? 'sweep-taken-for-riaa' : 'sweep-taken-for-constant-velocity')];

function chainNotes({ flat, preamp, record }: ChainKnown): Statement[] {
  return [
    ...(preamp === null
      ? []
      : [statement(flat || holdsEqualisation(preamp) ? 'preamp-response-whole' : 'preamp-response-beside-riaa')]),
    ...(record === null ? [] : [statement('record-response-removed')]),
  ];
}

function responseCurves(source: ResponseSource, chain: ChainKnown): Curve[] {
  return CHANNELS.filter((channel) => source.driven === 'both' || source.driven === channel).map((channel) => {
    const { hz, db } = channelResponse(source, channel, chain);
    return { quantity: 'frequency-response', channel, band: source.band, x: hz, y: db, xUnit: 'Hz', yUnit: 'dB' };
  });
}

/** Left over right against its value at 1 kHz, from a sweep that drives both, else from a pair. */
function difference(
  sources: readonly ResponseSource[],
  chain: ChainKnown,
  { findings, curves }: ResponseFigures,
): void {
  const both = sources.filter(({ driven }) => driven === 'both');
  const used = both.length > 0 ? both : sources.filter(({ driven }) => driven !== 'both');
  const of = (channel: Channel): Joined =>
    joined(
      used
        .filter(({ driven }) => driven === 'both' || driven === channel)
        .map((source) => channelResponse(source, channel, chain)),
    );
  const [left, right] = [of('left'), of('right')];
  const x: number[] = [];
  const y: number[] = [];
  const spread: number[] = [];
  left.hz.forEach((hz, i) => {
    const at = valueAt(right, hz);
    if (at === null || hz < FROM_HZ * 0.98 || hz > TO_HZ * 1.02) return;
    x.push(hz);
    y.push(left.db[i] - at.db);
    // noise of one sweep is each channel's own
    spread.push(Math.hypot(left.spreadDb[i], at.spread));
  });
  if (x.length < 10 || Math.log2(x[x.length - 1] / x[0]) < LEAST_OCTAVES) return;
  const most = y.reduce((best, v, i) => (Math.abs(v) > Math.abs(y[best]) ? i : best), 0);
  const bands = used.map(({ band }) => band);
  curves.push({ quantity: 'channel-difference', x, y, xUnit: 'Hz', yUnit: 'dB' });
  findings.push({
    quantity: 'channel-difference',
    value: Math.abs(y[most]),
    unit: 'dB',
    uncertainty: 2 * Math.hypot(spread[most], LEAST_SPREAD_DB),
    bands,
    notes: [
      statement('difference-span', { fromHz: x[0], toHz: x[x.length - 1], db: y[most], hz: x[most] }),
      statement(x[most] > TOP_HZ ? 'difference-at-top' : 'difference-below'),
    ],
  });
}

/** Straight between two neighbours over the logarithm; null beyond the ends. */
function valueAt({ hz, db, spreadDb }: Joined, at: number): { db: number; spread: number } | null {
  for (let i = 1; i < hz.length; i++) {
    if (at < hz[i - 1] * 0.995 || at > hz[i] * 1.005) continue;
    const whole = Math.log(hz[i] / hz[i - 1]);
    const share = whole > 0 ? Math.min(1, Math.max(0, Math.log(at / hz[i - 1]) / whole)) : 0;
    return { db: db[i - 1] + share * (db[i] - db[i - 1]), spread: Math.max(spreadDb[i - 1], spreadDb[i]) };
  }
  return null;
}

const MOST_DB = 80;

/** Leak under the driven channel, gains removed where both walls are swept. */
function separations(sources: readonly ResponseSource[], chain: ChainKnown): Curve[] {
  return CHANNELS.flatMap((driven) =>
    sources
      .filter((source) => source.driven === driven)
      .map((source): Curve => {
        const other = driven === 'left' ? 'right' : 'left';
        const pair = sources.find((one) => one.driven === other);
        const gain = pair === undefined ? null : gainOver(source, pair, driven, other, chain);
        const leaks = leaksOf(source, driven);
        return {
          quantity: 'separation',
          channel: driven,
          band: source.band,
          x: leaks.map(({ hz }) => hz),
          y: leaks.map(({ hz, power }) => Math.min(MOST_DB, -10 * Math.log10(power) - (gain?.(hz) ?? 0))),
          xUnit: 'Hz',
          yUnit: 'dB',
        };
      }),
  );
}

/** octaves over which a leak is averaged with its phase, and power over what noise alone would leave that counts */
const LEAK_OCTAVES = 1 / 6;
const LEAST_OVER_NOISE = 3;

/** What moves with the driven channel alone; where noise hides it there is no point. */
function leaksOf({ points }: ResponseSource, driven: Channel): { hz: number; power: number }[] {
  const of = points.filter((p) => p[driven] > 0);
  return of.flatMap(({ hz }) => {
    let [re, im, weight, noise] = [0, 0, 0, 0];
    for (const p of of) {
      if (Math.abs(Math.log2(p.hz / hz)) > LEAK_OCTAVES / 2) continue;
      // each as a ratio, by how many spectra tell it
      re += (p.spectra * p.re) / p[driven];
      im += (p.spectra * p.im) / p[driven];
      noise += (p.spectra * p.noise) / p[driven];
      weight += p.spectra;
    }
    const power = (re * re + im * im) / weight ** 2;
    const byNoise = noise / weight ** 2;
    return power > LEAST_OVER_NOISE * byNoise ? [{ hz, power: power - byNoise }] : [];
  });
}

/** dB by which the driven channel is louder than the other one on its own wall, over frequency. */
function gainOver(
  source: ResponseSource,
  pair: ResponseSource,
  driven: Channel,
  other: Channel,
  chain: ChainKnown,
): (hz: number) => number {
  const own = channelResponse(source, driven, chain);
  const its = channelResponse(pair, other, chain);
  const level = own.levelDb - source.cutDb - (its.levelDb - pair.cutDb);
  const own_: Joined = own;
  return (hz) => level + (valueAt(own_, hz)?.db ?? 0) - (valueAt(its, hz)?.db ?? 0);
}

/** Phase of right against left where both are driven, a vertical cut's half turn taken off. */
function phaseCurve({ driven, antiphase, band, points }: ResponseSource): Curve[] {
  if (driven !== 'both') return [];
  const sign = antiphase ? -1 : 1;
  return [
    {
      quantity: 'phase',
      band,
      x: points.map((p) => p.hz),
      y: points.map((p) => (Math.atan2(sign * p.im, sign * p.re) * 180) / Math.PI),
      xUnit: 'Hz',
      yUnit: 'deg',
    },
  ];
}
