/** How far a channel's response strays from its value at 1 kHz, over the whole of what is heard and over the stated spans. */
import { withheld } from '../capture/problem.ts';
import { type Statement, statement } from '../words/statement.ts';
import { withBudget } from './budget.ts';
import { type ChainKnown, holdsEqualisation } from './chainLevel.ts';
import type { Channel } from './channels.ts';
import type { Finding } from './finding.ts';
import { type Joined, joined, SMOOTHED_POINTS } from './joinedResponse.ts';
import { excessNote, largestAstray } from './largestAstray.ts';
import type { ResponseFigures } from './responseFigures.ts';
import { channelResponse, type ResponseSource } from './responseSources.ts';
import { LEAST_OCTAVES, LEAST_SPREAD_DB, pointsWithin, spansCovered, WHOLE } from './responseSpans.ts';
import type { SideReadings } from './sideReadings.ts';

const QUANTITY = 'frequency-response-deviation';

/** One wall alone has no leak of the other in it. */
function sourcesOf(channel: Channel, sources: readonly ResponseSource[]): ResponseSource[] {
  const own = sources.filter(({ driven }) => driven === channel);
  return own.length > 0 ? own : sources.filter(({ driven }) => driven === 'both');
}

export function deviation(
  channel: Channel,
  sources: readonly ResponseSource[],
  side: SideReadings,
  chain: ChainKnown,
  { findings, problems }: ResponseFigures,
): void {
  const used = sourcesOf(channel, sources);
  if (used.length === 0) return;
  const response = joined(used.map((source) => channelResponse(source, channel, chain)));
  const whole = pointsWithin(response.hz, WHOLE);
  const octaves = whole.length === 0 ? 0 : Math.log2(response.hz[whole[whole.length - 1]] / response.hz[whole[0]]);
  if (octaves < LEAST_OCTAVES) {
    if (!problems.some((p) => p.quantity === QUANTITY))
      problems.push(withheld(QUANTITY, statement('no-1khz-in-sweep')));
    return;
  }
  const { cutResponse, equalisation } = side.assumed;
  const doubts = [...(chain.record === null ? [cutResponse] : []), ...(flatOrMeasured(chain) ? [] : [equalisation])];
  const notes = [...used.flatMap(lawNotes).slice(0, 1), ...chainNotes(chain)];
  const bands = used.map(({ band }) => band);
  const add = (quantity: string, points: readonly number[], more: (most: number) => readonly Statement[]): void => {
    const span = spanOf(response, points);
    const { most, size, excess } = largestAstray(response.db, response.spreadDb, points, SMOOTHED_POINTS);
    const figure: Omit<Finding, 'uncertainty'> = {
      quantity,
      value: size,
      unit: 'dB',
      channel,
      bands,
      notes: [span, ...excessNote(excess), ...more(most), ...notes],
    };
    findings.push(withBudget(figure, Math.hypot(2 * response.spreadDb[most], 2 * LEAST_SPREAD_DB, excess), doubts));
  };
  add(QUANTITY, whole, (most) => whereItStrays(response.db[most], response.hz[most]));
  for (const span of spansCovered(response.hz))
    add(`${QUANTITY}-${span.name}`, pointsWithin(response.hz, span), () => [span.by]);
}

/** The span with both extremes in words, as heard. */
function spanOf({ hz, db }: Joined, points: readonly number[]): Statement {
  const high = points.reduce((a, b) => (db[b] > db[a] ? b : a));
  const low = points.reduce((a, b) => (db[b] < db[a] ? b : a));
  return statement('response-span', {
    fromHz: hz[points[0]],
    toHz: hz[points[points.length - 1]],
    highDb: db[high],
    highHz: hz[high],
    lowDb: db[low],
    lowHz: hz[low],
  });
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
