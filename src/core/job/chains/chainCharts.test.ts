import { describe, expect, test } from 'vitest';
import type { ReadFigure } from './chain.ts';
import { chainCharts } from './chainCharts.ts';
import { alarmSentence } from './chainWords.ts';
import { calm, dayAt, look, reading, shewhart, speed, speeds, testChain, testRecord } from './readings.fixture.ts';

const figureOf = (values: readonly number[]) => chainCharts(look(speeds(values))).figures[0];

describe('one figure', () => {
  test('the chart of eight readings: points, limits by their scatter, and that the last lies within', () => {
    const values = calm(8);
    const { centre, low, high, meanRange, rangeLimit } = shewhart(values);
    const charts = chainCharts(look(speeds(values)));
    expect(charts).toEqual({
      chain: testChain,
      record: testRecord,
      method: '7',
      records: [testRecord],
      figures: [
        {
          quantity: 'speed-error',
          unit: '%',
          points: values.map((value, day) => ({
            reading: `r${day}`,
            at: dayAt(day),
            value,
            uncertainty: 0.02,
            signal: null,
          })),
          gap: null,
          limits: {
            centre: expect.closeTo(centre, 9),
            low: expect.closeTo(low, 3),
            high: expect.closeTo(high, 3),
            meanRange: expect.closeTo(meanRange, 9),
            rangeLimit: expect.closeTo(rangeLimit, 3),
          },
          behind: 8,
          says: 'The last reading lies within its limits; 8 readings are behind them.',
        },
      ],
      says: [],
      alarms: [],
    });
  });

  test('fewer readings have no limits yet, and readings that are all alike have none', () => {
    expect(figureOf(calm(7))).toMatchObject({
      limits: null,
      behind: 0,
      says: 'No limits yet: 7 of the 8 readings that they need.',
    });
    const alike = 'No limits: the readings so far are all alike, so nothing tells how far they scatter.';
    expect(figureOf(Array.from({ length: 8 }, () => 0.2)).says).toBe(alike);
    expect(figureOf(Array.from({ length: 9 }, () => 0.2)).says).toBe(alike);
  });

  test('a channel stands beside its quantity', () => {
    const figures = [speed(0.1), speed(30, { quantity: 'hum', unit: 'dB', channel: 'left' })];
    const charts = chainCharts(look([reading(0, figures)]));
    expect(charts.figures.map(({ quantity, channel, unit }) => [quantity, channel, unit])).toEqual([
      ['speed-error', undefined, '%'],
      ['hum', 'left', 'dB'],
    ]);
    expect(charts.figures[0]).not.toHaveProperty('channel');
  });
});

describe('which figures', () => {
  const one = (quantity: string, more: Partial<ReadFigure> = {}) => speed(1, { quantity, ...more });

  test('in the order in which a chain is watched, channels and units apart, by name where they share a place', () => {
    const readings = [
      reading(0, [one('noise-a-weighted'), one('hum', { channel: 'right' }), one('hum', { channel: 'left' })]),
      reading(1, [one('speed-error'), one('hum', { channel: 'left' }), one('hum', { channel: 'left', unit: 'dB' })]),
    ];
    const { figures } = chainCharts(look(readings));
    expect(figures.map(({ quantity, channel, unit, points }) => [quantity, channel, unit, points.length])).toEqual([
      ['speed-error', undefined, '%', 1],
      ['hum', 'left', '%', 2],
      ['hum', 'left', 'dB', 1],
      ['hum', 'right', '%', 1],
      ['noise-a-weighted', undefined, '%', 1],
    ]);
  });

  test('a quantity whose name begins with another’s is not taken for it', () => {
    const figures = [one('wow-flutter-weighted-deck'), one('wow-flutter-weighted')];
    expect(chainCharts(look([reading(0, figures)])).figures.map(({ quantity }) => quantity)).toEqual([
      'wow-flutter-weighted',
      'wow-flutter-weighted-deck',
    ]);
  });

  test('a figure that a recording holds twice is none of it', () => {
    const readings = [
      reading(0, [speed(0.1), speed(0.2), one('hum', { channel: 'left' }), one('hum', { channel: 'right' })]),
      reading(1, [speed(0.3)]),
    ];
    const { figures } = chainCharts(look(readings));
    expect(figures.map(({ quantity, points }) => [quantity, points.map(({ reading }) => reading)])).toEqual([
      ['speed-error', ['r1']],
      ['hum', ['r0']],
      ['hum', ['r0']],
    ]);
  });
});

describe('what left its limits', () => {
  test('beyond them: by how much, against the readings before it, and where it lies', () => {
    const values = [...calm(10), 0.9];
    const { figures, alarms } = chainCharts(look(speeds(values)));
    const { centre, low, high, rangeLimit } = shewhart(values.slice(0, 10));
    const { sentence, ...told } = alarms[0];
    expect(told).toEqual({
      chain: { id: 'c1', name: 'studio 2' },
      quantity: 'speed-error',
      unit: '%',
      kind: 'beyond',
      at: dayAt(10),
      knownAt: '2026-03-11T07:00:00.000Z',
      value: 0.9,
      uncertainty: 0.02,
      low: expect.closeTo(low, 3),
      high: expect.closeTo(high, 3),
      by: expect.closeTo(0.9 - high, 3),
      behind: 10,
      method: '7',
      record: testRecord,
      expired: false,
      source: { root: '/archive', path: 'side-10.wav' },
    });
    expect(sentence).toBe(alarmSentence(told, { before: values[9], centre, most: rangeLimit }));
    expect(alarms).toHaveLength(1);
    expect(figures[0].points.map(({ signal }) => signal)).toEqual([...calm(10).map(() => null), 'beyond']);
    expect(figures[0].says).toBe(sentence);
    const [below] = chainCharts(look(speeds([...calm(10), -0.9]))).alarms;
    expect(below.by).toBeCloseTo(low + 0.9, 3);
  });

  test('at most 25 readings stand behind limits', () => {
    expect(chainCharts(look(speeds([...calm(25), 0.9]))).alarms[0].behind).toBe(25);
    expect(chainCharts(look(speeds([...calm(40), 0.9]))).alarms[0].behind).toBe(25);
    expect(chainCharts(look(speeds([...calm(24), 0.9]))).alarms[0].behind).toBe(24);
  });

  test('a step between two readings that both lie within, and eight on one side', () => {
    const stepped = [...calm(30), -0.2, 0.25];
    const [jump] = chainCharts(look(speeds(stepped))).alarms;
    expect(jump).toMatchObject({ kind: 'jump', value: 0.25, by: 0 });
    expect(jump.sentence).toContain('went from −0.200 % to +0.250 ±');
    const drifted = [...calm(25), ...Array.from({ length: 8 }, () => 0.06)];
    const { alarms, figures } = chainCharts(look(speeds(drifted)));
    expect(alarms.map(({ kind, at, by }) => [kind, at, by])).toEqual([['run', dayAt(32), 0]]);
    expect(figures[0].says).toBe(alarms[0].sentence);
  });

  test('what was told once is not what the last reading says', () => {
    const { alarms, figures } = chainCharts(look(speeds([...calm(10), 0.9, 0])));
    expect(alarms).toHaveLength(1);
    expect(figures[0].says).toBe('The last reading lies within its limits; 12 readings are behind them.');
  });

  test('a channel is told, and the newest alarms stand first whichever figure they are of', () => {
    const hum = (value: number) => speed(value, { quantity: 'hum', channel: 'left' });
    const readings = calm(12).map((value, day) =>
      reading(day, [speed(day === 9 ? 0.9 : value), hum(day === 10 ? 0.9 : day === 8 ? -0.9 : value)]),
    );
    const { alarms } = chainCharts(look(readings));
    expect(alarms.map(({ quantity, channel, at }) => [quantity, channel, at])).toEqual([
      ['hum', 'left', dayAt(10)],
      ['speed-error', undefined, dayAt(9)],
      ['hum', 'left', dayAt(8)],
    ]);
    expect(alarms[1]).not.toHaveProperty('channel');
  });

  test('alarms of one moment stand in the order of the figures', () => {
    const hum = (value: number) => speed(value, { quantity: 'hum' });
    const readings = [...calm(10), 0.9].map((value, day) => reading(day, [hum(value), speed(value)]));
    expect(chainCharts(look(readings)).alarms.map(({ quantity }) => quantity)).toEqual(['speed-error', 'hum']);
  });
});

describe('readings that are not drawn', () => {
  /** up by a step that only the gap explains */
  const values = [...calm(30), -0.2, 0.25];

  test('a step over them is none', () => {
    expect(chainCharts(look(speeds(values), { gap: 30 })).alarms.map(({ kind }) => kind)).toEqual(['jump']);
    const { alarms, figures } = chainCharts(look(speeds(values), { gap: 31 }));
    expect(alarms).toEqual([]);
    expect(figures[0].gap).toBe(31);
  });

  test('the gap stands before the first reading of the figure after it; where all come after it there is none', () => {
    const some = calm(10).map((value, day) =>
      reading(day, [
        ...(day === 4 || day === 5 ? [] : [speed(value)]),
        ...(day < 5 ? [] : [speed(value, { quantity: 'hum' })]),
        ...(day > 3 ? [] : [speed(value, { quantity: 'noise-a-weighted' })]),
      ]),
    );
    const gaps = (gap: number | null) => chainCharts(look(some, { gap })).figures.map((figure) => figure.gap);
    expect(gaps(5)).toEqual([4, null, null]);
    expect(gaps(7)).toEqual([5, 2, null]);
    expect(gaps(null)).toEqual([null, null, null]);
  });
});
