/** Left over right against its value at 1 kHz, from a sweep that drives both, else from a pair. */
import { statement } from '../words/statement.ts';
import type { ChainKnown } from './chainLevel.ts';
import type { Channel } from './channels.ts';
import { type Joined, joined, SMOOTHED_POINTS, valueAt } from './joinedResponse.ts';
import { excessNote, largestAstray } from './largestAstray.ts';
import type { ResponseFigures } from './responseFigures.ts';
import { channelResponse, type ResponseSource } from './responseSources.ts';
import { LEAST_OCTAVES, LEAST_SPREAD_DB, pointsWithin, spansCovered, WHOLE } from './responseSpans.ts';

const QUANTITY = 'channel-difference';
const LEAST_POINTS = 10;
/** Hz: beyond it generators, tips and loads differ */
const TOP_HZ = 5000;

export function channelDifference(
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
  const { hz, db, spreadDb } = apart(of('left'), of('right'));
  if (hz.length < LEAST_POINTS || Math.log2(hz[hz.length - 1] / hz[0]) < LEAST_OCTAVES) return;
  const bands = used.map(({ band }) => band);
  curves.push({ quantity: QUANTITY, x: hz, y: db, xUnit: 'Hz', yUnit: 'dB' });
  const add = (quantity: string, points: readonly number[], more: (most: number) => ReturnType<typeof statement>) => {
    const { most, size, excess } = largestAstray(db, spreadDb, points, SMOOTHED_POINTS);
    findings.push({
      quantity,
      value: size,
      unit: 'dB',
      uncertainty: Math.hypot(2 * spreadDb[most], 2 * LEAST_SPREAD_DB, excess),
      bands,
      notes: [
        statement('difference-span', {
          fromHz: hz[points[0]],
          toHz: hz[points[points.length - 1]],
          db: db[most],
          hz: hz[most],
        }),
        ...excessNote(excess),
        more(most),
      ],
    });
  };
  add(
    QUANTITY,
    hz.map((_, i) => i),
    (most) => statement(hz[most] > TOP_HZ ? 'difference-at-top' : 'difference-below'),
  );
  for (const span of spansCovered(hz)) add(`${QUANTITY}-${span.name}`, pointsWithin(hz, span), () => span.by);
}

/** Left over right within what is heard; noise of one sweep is each channel's own. */
function apart(left: Joined, right: Joined): Joined {
  const points = pointsWithin(left.hz, WHOLE).flatMap((i) => {
    const at = valueAt(right, left.hz[i]);
    if (at === null) return [];
    return [{ hz: left.hz[i], db: left.db[i] - at.db, spreadDb: Math.hypot(left.spreadDb[i], at.spread) }];
  });
  return { hz: points.map((p) => p.hz), db: points.map((p) => p.db), spreadDb: points.map((p) => p.spreadDb) };
}
