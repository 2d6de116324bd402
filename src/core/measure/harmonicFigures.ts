/**
 * Second to fifth harmonic and all of them together, per band and driven channel, in the groove's velocity:
 *
 *   D_k = |h_k| / |h_1| · H(f) / H(kf)     H the playback equalisation; 1 for a capture without it
 */

import { type Statement, statement } from '../words/statement.ts';
import type { Finding } from './finding.ts';
import type { ChannelHarmonics } from './harmonics.ts';
import { playbackGain } from './playbackEqualisation.ts';
import type { ToneBand } from './sideReadings.ts';

export function harmonicFigures(tones: readonly ToneBand[], flat: boolean): Finding[] {
  const equalisation = statement(flat ? 'recorded-flat' : 'equalisation-undone');
  return tones.flatMap((tone) =>
    (tone.reading.harmonics ?? []).flatMap((of) => figuresOf(tone, undone(of, tone.meanHz, flat), equalisation)),
  );
}

function undone(of: ChannelHarmonics, hz: number, flat: boolean): ChannelHarmonics {
  if (flat) return of;
  return {
    channel: of.channel,
    orders: of.orders.map(({ order, ratio, spread, phasor }) => {
      const factor = playbackGain(hz) / playbackGain(order * hz);
      return { order, ratio: ratio * factor, spread: spread * factor, phasor };
    }),
  };
}

function figuresOf(tone: ToneBand, { channel, orders }: ChannelHarmonics, equalisation: Statement): Finding[] {
  if (orders.length === 0) return [];
  const figure = (quantity: string, ratio: number, spread: number, note: Statement): Finding => ({
    quantity,
    value: 100 * ratio,
    unit: '%',
    uncertainty: 200 * spread,
    bands: [tone.band.index],
    notes: [note, equalisation, statement('record-distortion-in-it')],
    channel,
  });
  const findings: Finding[] = [];
  for (const [order, quantity] of [
    [2, 'second-harmonic'],
    [3, 'third-harmonic'],
    [4, 'fourth-harmonic'],
    [5, 'fifth-harmonic'],
  ] as const) {
    const of = orders.find((o) => o.order === order);
    if (of !== undefined)
      findings.push(figure(quantity, of.ratio, of.spread, statement('harmonic-of', { hz: tone.meanHz })));
  }
  const total = Math.sqrt(orders.reduce((sum, o) => sum + o.ratio ** 2, 0));
  // each order counts by its share of the total; where that is nothing, all alike
  const spread =
    total > 0
      ? Math.sqrt(orders.reduce((sum, o) => sum + (o.ratio * o.spread) ** 2, 0)) / total
      : Math.sqrt(orders.reduce((sum, o) => sum + o.spread ** 2, 0));
  const last = orders[orders.length - 1].order;
  findings.push(
    figure('total-harmonic-distortion', total, spread, statement('harmonics-of', { hz: tone.meanHz, last })),
  );
  return findings;
}
