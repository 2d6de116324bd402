/** Readings of an invented chain, a day apart, for tests of its charts. */
import type { Alarm, Chain, ChainReading, ReadFigure } from './chain.ts';
import type { ChainLook } from './chainCharts.ts';

export const testChain: Chain = {
  id: 'c1',
  name: 'studio 2',
  parts: { deck: 'bench deck 3' },
  newest: null,
  states: [],
  jobs: [],
};
export const testRecord = { key: '0123456789abcdef', name: 'test record' };

/** A chain at rest: it scatters, and drifts nowhere. */
export const CALM = [0, 0.1, -0.1, 0.05, -0.05];
export const calm = (count: number): number[] => Array.from({ length: count }, (_, i) => CALM[i % CALM.length]);

/** At an hour of day 0 (1 March 2026) to 60. */
const hourAt = (day: number, hour: string): string => {
  const [month, place] = day < 31 ? ['03', day + 1] : ['04', day - 30];
  return `2026-${month}-${String(place).padStart(2, '0')}T${hour}:00:00.000Z`;
};
export const dayAt = (day: number): string => hourAt(day, '06');
const knownAt = (day: number): string => hourAt(day, '07');

export const speed = (value: number, more: Partial<ReadFigure> = {}): ReadFigure => ({
  quantity: 'speed-error',
  unit: '%',
  value,
  uncertainty: 0.02,
  ...more,
});

export const reading = (
  day: number,
  figures: readonly ReadFigure[],
  more: Partial<ChainReading> = {},
): ChainReading => ({
  id: `r${day}`,
  at: dayAt(day),
  knownAt: knownAt(day),
  source: { root: '/archive', path: `side-${day}.wav` },
  fingerprint: null,
  method: '7',
  record: testRecord,
  reference: null,
  certificateUntil: null,
  figures: [...figures],
  ...more,
});

/** A reading of the speed a day. */
export const speeds = (values: readonly number[]): ChainReading[] =>
  values.map((value, day) => reading(day, [speed(value)]));

export const look = (readings: readonly ChainReading[], more: Partial<ChainLook> = {}): ChainLook => ({
  chain: testChain,
  record: testRecord,
  method: '7',
  records: [testRecord],
  readings,
  gap: null,
  since: null,
  newest: { of: readings.length, otherMethods: 0, otherRecords: 0 },
  ...more,
});

/** Of a chart for individuals, as textbooks print it: mean ± 2.66 R̄, and 3.27 R̄ for the step between two. */
export function shewhart(values: readonly number[]) {
  const mean = (all: readonly number[]): number => all.reduce((sum, one) => sum + one, 0) / all.length;
  const centre = mean(values);
  const range = mean(values.slice(1).map((value, i) => Math.abs(value - values[i])));
  return {
    centre,
    low: centre - 2.66 * range,
    high: centre + 2.66 * range,
    meanRange: range,
    rangeLimit: 3.267 * range,
  };
}

export const alarm: Omit<Alarm, 'sentence'> = {
  chain: { id: 'c1', name: 'studio 2' },
  quantity: 'speed-error',
  unit: '%',
  kind: 'beyond',
  at: '2026-03-11T06:00:00.000Z',
  knownAt: '2026-03-11T07:00:00.000Z',
  value: 0.6,
  uncertainty: 0.02,
  low: -0.3,
  high: 0.3,
  by: 0.3,
  behind: 25,
  method: '7',
  record: testRecord,
  expired: false,
  source: { root: '/archive', path: 'side-10.wav' },
};
