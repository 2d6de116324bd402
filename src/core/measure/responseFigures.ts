/**
 * Response of each channel against frequency, from sweeps or noise, with how far it strays from 1 kHz; the channels' difference, their phase, and the
 * separation against frequency.
 */

import type { Problem } from '../capture/problem.ts';
import type { ChainKnown } from './chainLevel.ts';
import { channelDifference } from './channelDifference.ts';
import { CHANNELS } from './channels.ts';
import type { Curve, Finding } from './finding.ts';
import { deviation } from './responseDeviation.ts';
import { channelResponse, type ResponseSource, responseSources } from './responseSources.ts';
import { separationCurves } from './separationCurves.ts';
import type { SideReadings } from './sideReadings.ts';

export interface ResponseFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  readonly curves: Curve[];
}

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
  channelDifference(sources, chain, found);
  // the whole of each before its spans
  const span = ({ quantity }: Finding): number => (/\d$/.test(quantity) ? 1 : 0);
  found.findings.sort((a, b) => span(a) - span(b));
  found.curves.push(...separationCurves(sources, chain), ...sources.flatMap(phaseCurve));
  return found;
}

function responseCurves(source: ResponseSource, chain: ChainKnown): Curve[] {
  return CHANNELS.filter((channel) => source.driven === 'both' || source.driven === channel).map((channel) => {
    const { hz, db } = channelResponse(source, channel, chain);
    return { quantity: 'frequency-response', channel, band: source.band, x: hz, y: db, xUnit: 'Hz', yUnit: 'dB' };
  });
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
