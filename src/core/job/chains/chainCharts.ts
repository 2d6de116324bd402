/** A chain's readings as control charts, figure by figure, and what they tell. */
import { chainQuantities } from '../../advise/repeat/chainFigures.ts';
import { BASELINE, LEAST_FOR_LIMITS, type WatchedFigure, watchedFigure } from '../../advise/repeat/watchedFigure.ts';
import { say, statement } from '../../words/statement.ts';
import type { Alarm, Chain, ChainCharts, ChainFigure, ChainReading, ChainRecord, ReadFigure } from './chain.ts';
import { alarmSentence, recordedOn } from './chainWords.ts';

/** What was read of a chain for its charts: of one record file and one version of the methods. */
export interface ChainLook {
  readonly chain: Chain;
  readonly record: ChainRecord;
  readonly method: string | null;
  readonly records: ChainCharts['records'];
  /** oldest first */
  readonly readings: readonly ChainReading[];
  /** place of the first reading after others that were not read; null: all were */
  readonly gap: number | null;
  /** ISO; null: since there are readings */
  readonly since: string | null;
  /** of the newest recordings of the chain, so many were looked at, and so many have figures of other methods or other record files only */
  readonly newest: { readonly of: number; readonly otherMethods: number; readonly otherRecords: number };
}

interface Read {
  readonly reading: ChainReading;
  readonly figure: ReadFigure;
}

const keyOf = ({ quantity, channel, unit }: ReadFigure): string => `${quantity} ${channel ?? ''} ${unit}`;

const isExpired = ({ at, certificateUntil }: ChainReading): boolean =>
  certificateUntil !== null && at.slice(0, 10) > certificateUntil;

/** Figures that a recording holds once. */
function singles(figures: readonly ReadFigure[]): readonly ReadFigure[] {
  const times = new Map<string, number>();
  for (const figure of figures) times.set(keyOf(figure), (times.get(keyOf(figure)) ?? 0) + 1);
  return figures.filter((figure) => times.get(keyOf(figure)) === 1);
}

function byFigure(readings: readonly ChainReading[]): ReadonlyMap<string, readonly Read[]> {
  const found = new Map<string, Read[]>();
  for (const reading of readings)
    for (const figure of singles(reading.figures)) {
      const read = found.get(keyOf(figure)) ?? [];
      read.push({ reading, figure });
      found.set(keyOf(figure), read);
    }
  const place = ([key]: readonly [string, unknown]): number =>
    chainQuantities.findIndex((quantity) => key.startsWith(`${quantity} `));
  return new Map([...found].sort((a, b) => place(a) - place(b) || (a[0] < b[0] ? -1 : 1)));
}

/** The readings of one figure, held against its limits. */
function held(chain: Chain, read: readonly Read[], firstAfterGap: string | null) {
  const values = read.map(({ figure }) => figure.value);
  const place = firstAfterGap === null ? -1 : read.findIndex(({ reading }) => reading.at >= firstAfterGap);
  const gap = place <= 0 ? null : place;
  const watched = watchedFigure(values, gap);
  /** What the reading at `i` is told for; null where it is not. */
  const alarmAt = (i: number): Alarm | null => {
    const { signal, limits: against } = watched.told[i];
    if (signal === null || against === null) return null;
    const { reading, figure } = read[i];
    const { quantity, channel, unit, value, uncertainty } = figure;
    const { low, high } = against;
    const alarm: Omit<Alarm, 'sentence'> = {
      chain: { id: chain.id, name: chain.name },
      quantity,
      ...(channel === undefined ? {} : { channel }),
      unit,
      kind: signal,
      at: reading.at,
      knownAt: reading.knownAt,
      value,
      uncertainty,
      low,
      high,
      by: signal === 'beyond' ? Math.max(low - value, value - high) : 0,
      behind: Math.min(i, BASELINE),
      method: reading.method,
      record: reading.record,
      expired: isExpired(reading),
      source: reading.source,
    };
    // limits rest on readings before it, so there is one
    const { centre, rangeLimit: most } = against;
    return { ...alarm, sentence: alarmSentence(alarm, { before: values[i - 1], centre, most }) };
  };
  return { ...watched, gap, alarmAt };
}

const saysOfLimits = (count: number, { limits, behind }: Pick<WatchedFigure, 'limits' | 'behind'>): string =>
  limits !== null
    ? say(statement('chain-within', { count: behind }))
    : count < LEAST_FOR_LIMITS
      ? say(statement('chain-few', { count, least: LEAST_FOR_LIMITS }))
      : say(statement('chain-alike'));

function charted(chain: Chain, read: readonly Read[], firstAfterGap: string | null) {
  const { limits, behind, told, gap, alarmAt } = held(chain, read, firstAfterGap);
  const { quantity, channel, unit } = read[0].figure;
  const all = read.map((_, i) => alarmAt(i));
  const figure: ChainFigure = {
    quantity,
    ...(channel === undefined ? {} : { channel }),
    unit,
    points: read.map(({ reading, figure: { value, uncertainty } }, i) => ({
      reading: reading.id,
      at: reading.at,
      value,
      uncertainty,
      signal: told[i].signal,
    })),
    gap,
    limits:
      limits === null
        ? null
        : {
            centre: limits.centre,
            low: limits.low,
            high: limits.high,
            meanRange: limits.meanRange,
            rangeLimit: limits.rangeLimit,
          },
    behind,
    says: all.at(-1)?.sentence ?? saysOfLimits(read.length, { limits, behind }),
  };
  return { figure, alarms: all.filter((alarm) => alarm !== null) };
}

function saysOf({ readings, gap, since, newest, method, record }: ChainLook): string[] {
  if (readings.length === 0) return [say(statement('chain-no-readings'))];
  const late = readings.filter(isExpired);
  const { of, otherMethods, otherRecords } = newest;
  return [
    ...(since === null ? [] : [statement('chain-since', { when: recordedOn(since) })]),
    ...(late.length === 0 || record === null
      ? []
      : [
          statement('chain-expired', {
            record: record.name,
            expires: late[0].certificateUntil as string,
            count: late.length,
          }),
        ]),
    ...(record === null ? [statement('chain-no-record')] : []),
    ...(otherMethods === 0
      ? []
      : [statement('chain-other-methods', { of, count: otherMethods, method: method as string })]),
    ...(otherRecords === 0 ? [] : [statement('chain-other-records', { of, count: otherRecords })]),
    ...(gap === null ? [] : [statement('chain-gap', { first: gap, recent: readings.length - gap })]),
  ].map(say);
}

const afterGap = ({ readings, gap }: ChainLook): string | null => (gap === null ? null : readings[gap].at);

/** What the charts tell of readings that became known from a time on, without the charts. @param since ISO time */
export function chainAlarms(look: ChainLook, since: string): readonly Alarm[] {
  return [...byFigure(look.readings).values()].flatMap((read) => {
    const { alarmAt } = held(look.chain, read, afterGap(look));
    return read.flatMap(({ reading }, i) => (reading.knownAt < since ? [] : (alarmAt(i) ?? [])));
  });
}

/** Charts of every figure that the chain is watched by, and what they tell, the newest first. */
export function chainCharts(look: ChainLook): ChainCharts {
  const { chain, record, method, records, readings } = look;
  const all = [...byFigure(readings).values()].map((read) => charted(chain, read, afterGap(look)));
  return {
    chain,
    record,
    method,
    records,
    figures: all.map(({ figure }) => figure),
    says: saysOf(look),
    alarms: all.flatMap(({ alarms }) => alarms).sort((a, b) => (a.at === b.at ? 0 : a.at < b.at ? 1 : -1)),
  };
}
