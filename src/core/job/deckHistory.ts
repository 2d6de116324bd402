/**
 * A deck's figures over its jobs: how it came, how it left, and what drifted between leaving and coming back. Only figures
 * of one cartridge are held against each other; what was done between two readings of one job is no drift.
 */
import { z } from 'zod';
import { type Limits, limitsOn } from '../advise/limits.ts';
import { csvText } from '../words/csv.ts';
import { type ComparedCapture, type Held, held, singleNames } from './beforeAfter.ts';

const readingSchema = z.object({
  /** number of the job */
  job: z.number(),
  at: z.string(),
  when: z.enum(['received', 'left']),
  value: z.union([z.number(), z.string()]),
  /** k = 2, in the figure's unit */
  uncertainty: z.number().nullable(),
  /** k = 2, in the figure's unit, with the record that it was read with */
  repeatability: z.number().nullable().optional(),
  /** 95 %, of what is an interval; `high` null: open */
  low: z.number().optional(),
  high: z.number().nullable().optional(),
  verdict: z.string(),
  /** key of the record file; absent: none */
  record: z.string().optional(),
  /** the cartridge by its name; '' where nobody said */
  cartridge: z.string(),
  /**
   * Of a reading as received: this minus the last reading of the job before, with its uncertainty (k = 2, both independent).
   * `beyond`: larger than that uncertainty. Null where there is none, or another cartridge was on the deck.
   */
  drift: z
    .object({ change: z.number(), uncertainty: z.number().nullable(), beyond: z.boolean().nullable() })
    .nullable(),
});

const figureSchema = z.object({
  quantity: z.string(),
  channel: z.enum(['left', 'right']).optional(),
  unit: z.string(),
  /** good up to, or from, and bad beyond; null where the figure has no limit */
  limit: z.object({ good: z.number(), bad: z.number(), sense: z.enum(['above', 'below']) }).nullable(),
  /** oldest first */
  readings: z.array(readingSchema),
});

export const deckHistorySchema = z.object({
  deck: z.object({ id: z.string(), name: z.string(), description: z.string() }),
  /** oldest first */
  jobs: z.array(z.object({ id: z.string(), number: z.number(), title: z.string(), begun: z.string() })),
  /** older jobs of the deck that were not gone through */
  older: z.number(),
  figures: z.array(figureSchema),
});
export type DeckHistory = z.infer<typeof deckHistorySchema>;
export type DeckFigure = z.infer<typeof figureSchema>;
export type DeckReading = z.infer<typeof readingSchema>;

export interface HeardCapture extends ComparedCapture {
  /** ISO time */
  readonly heardAt: string;
  readonly record?: { readonly key: string };
}

/** What a job tells of its deck. */
export interface DeckVisit {
  readonly number: number;
  /** cartridge on the deck as it came, and as it left; '' where nobody said */
  readonly cartridge: { readonly received: string; readonly left: string };
  /** recordings that count, in the order heard */
  readonly received: readonly HeardCapture[];
  readonly since: readonly HeardCapture[];
}

/** Names of one cartridge; '' where nobody said, and then it may be any. */
export const alike = (a: string, b: string): boolean => {
  const [one, other] = [a, b].map((name) => name.trim().toLowerCase());
  return one === '' || other === '' || one === other;
};

type Found = Map<string, Held<HeardCapture>>;
interface Standing {
  readonly reading: DeckReading;
  readonly sha256: string | null;
}

/** What drifted since the deck left last, as far as that may be said. */
function driftOf({ finding, capture }: Held<HeardCapture>, cartridge: string, last: Standing | undefined) {
  if (last === undefined || !alike(last.reading.cartridge, cartridge)) return null;
  if (capture.sha256 !== null && capture.sha256 === last.sha256) return null;
  if (typeof finding.value !== 'number' || typeof last.reading.value !== 'number') return null;
  const change = finding.value - last.reading.value;
  const uncertainty =
    finding.uncertainty === null || last.reading.uncertainty === null
      ? null
      : Math.hypot(finding.uncertainty, last.reading.uncertainty);
  return { change, uncertainty, beyond: uncertainty === null ? null : Math.abs(change) > uncertainty };
}

/**
 * @param visits oldest first
 * @param limits by quantity
 * @returns figures in the order in which the newest visit that holds them lists them
 */
export function deckFigures(visits: readonly DeckVisit[], limits: Limits): readonly DeckFigure[] {
  const single = singleNames(visits.flatMap(({ received, since }) => [...received, ...since]));
  const figures = new Map<string, DeckFigure>();
  const last = new Map<string, Standing>();
  for (const { number, cartridge, received, since } of visits) {
    const both: readonly (readonly ['received' | 'left', Found])[] = [
      ['received', held(received, single)],
      ['left', held([...since].reverse(), single)],
    ];
    for (const [when, found] of both) {
      for (const [key, one] of found) {
        const { quantity, channel, unit, value, uncertainty, repeatability, low, high, verdict } = one.finding;
        const before = last.get(key);
        const reading: DeckReading = {
          job: number,
          at: one.capture.heardAt,
          when,
          value,
          uncertainty,
          ...(repeatability === undefined ? {} : { repeatability }),
          ...(low === undefined ? {} : { low }),
          ...(high === undefined ? {} : { high }),
          verdict,
          ...(one.capture.record === undefined ? {} : { record: one.capture.record.key }),
          cartridge: cartridge[when],
          drift: when === 'received' && before?.reading.job !== number ? driftOf(one, cartridge[when], before) : null,
        };
        const edges = limitsOn(quantity, limits);
        const limit = edges.length === 1 ? edges[0] : null;
        const figure = figures.get(key) ?? {
          quantity,
          ...(channel === undefined ? {} : { channel }),
          unit,
          limit: limit === null ? null : { good: limit.good, bad: limit.bad, sense: limit.sense },
          readings: [],
        };
        figures.set(key, { ...figure, readings: [...figure.readings, reading] });
        last.set(key, { reading, sha256: one.capture.sha256 });
      }
    }
  }
  return [...figures.values()];
}

/** One row a reading. */
export const deckHistoryCsv = ({ deck, figures }: DeckHistory): string =>
  csvText([
    [
      'deck',
      'quantity',
      'channel',
      'unit',
      'good',
      'bad',
      'job',
      'at',
      'when',
      'value',
      'uncertainty',
      'verdict',
    ].concat(['cartridge', 'drift', 'drift_uncertainty', 'drift_beyond_uncertainty', 'low', 'high']),
    ...figures.flatMap(({ quantity, channel, unit, limit, readings }) =>
      readings.map(({ job, at, when, value, uncertainty, low, high, verdict, cartridge, drift }) => [
        deck.name,
        quantity,
        channel ?? '',
        unit,
        limit?.good ?? null,
        limit?.bad ?? null,
        job,
        at,
        when,
        value,
        uncertainty,
        verdict,
        cartridge,
        drift?.change ?? null,
        drift?.uncertainty ?? null,
        drift === null || drift.beyond === null ? '' : drift.beyond ? 'yes' : 'no',
        low ?? null,
        high ?? null,
      ]),
    ),
  ]);
