import { expect, test } from 'vitest';
import { chartOf, type DrawnCurve, dashes, groupCurves } from './curves.ts';

const curve = (more: Partial<DrawnCurve> = {}): DrawnCurve => ({
  quantity: 'spectrum',
  x: [20, 20_000],
  y: [1, 2],
  xUnit: 'Hz',
  yUnit: 'dB',
  ...more,
});

const chart = (...curves: DrawnCurve[]) => chartOf({ quantity: curves[0].quantity, band: null, curves });

test('curves of one quantity, band and pair of units share a chart; a single point is no curve', () => {
  const curves = [
    curve({ name: 'a' }),
    curve({ name: 'b', band: 0 }),
    curve({ name: 'c' }),
    curve({ name: 'd', xUnit: 's' }),
    curve({ name: 'e', yUnit: '%' }),
    curve({ name: 'f', quantity: 'phase' }),
    curve({ name: 'g', band: 0 }),
    curve({ name: 'h', x: [20], y: [1] }),
  ];
  expect(
    groupCurves(curves).map(({ quantity, band, curves }) => [quantity, band, curves.map(({ name }) => name).join('')]),
  ).toEqual([
    ['spectrum', null, 'ac'],
    ['spectrum', 0, 'bg'],
    ['spectrum', null, 'd'],
    ['spectrum', null, 'e'],
    ['phase', null, 'f'],
  ]);
  expect(groupCurves([])).toEqual([]);
});

test('of quantities that a sweep of one wall tells, the first left goes with the first right, and only those', () => {
  const grouped = (...list: (Partial<DrawnCurve> & { of?: string })[]) =>
    groupCurves(list.map(({ of = 'separation', ...more }, band) => curve({ quantity: of, band, ...more }))).map(
      ({ band, curves }) => [band, curves.map(({ channel, band }) => `${channel ?? '-'}${band}`).join(' ')],
    );
  const [left, right] = [{ channel: 'left' }, { channel: 'right' }] as const;
  expect(grouped(left, right)).toEqual([[null, 'left0 right1']]);
  expect(grouped(right, left)).toEqual([[null, 'right0 left1']]);
  expect(grouped(left, left, right, right)).toEqual([
    [null, 'left0 right2'],
    [null, 'left1 right3'],
  ]);
  expect(grouped(left, right, left)).toEqual([
    [null, 'left0 right1'],
    [2, 'left2'],
  ]);
  expect(grouped(left, {})).toEqual([
    [0, 'left0'],
    [1, '-1'],
  ]);
  expect(grouped({}, right)).toEqual([
    [0, '-0'],
    [1, 'right1'],
  ]);
  // one that already holds two lines takes no third, and goes to none
  expect(grouped({ ...left, band: 7 }, { ...right, band: 7 }, { ...right, band: 8 })).toEqual([
    [7, 'left7 right7'],
    [8, 'right8'],
  ]);
  expect(grouped({ ...right, band: 8 }, { ...left, band: 7 }, { ...right, band: 7 })).toEqual([
    [8, 'right8'],
    [7, 'left7 right7'],
  ]);
  for (const [of, charts] of [
    ['frequency-response', 1],
    ['separation', 1],
    ['separation-phase', 1],
    ['phase', 2],
  ] as const) {
    expect(grouped({ ...left, of }, { ...right, of }), of).toHaveLength(charts);
  }
  expect(grouped({ ...left, of: 'separation' }, { ...right, of: 'frequency-response' })).toHaveLength(2);
});

test('a chart, whole', () => {
  expect(chart(curve({ channel: 'left' }), curve({ channel: 'right', y: [3, 4] }))).toEqual({
    title: 'Spectrum',
    series: [
      { name: 'left', x: [20, 20_000], y: [1, 2], style: 'left' },
      { name: 'right', x: [20, 20_000], y: [3, 4], style: 'right' },
    ],
    xLabel: 'frequency',
    yLabel: 'level',
    xUnit: 'Hz',
    yUnit: 'dB',
    xLog: true,
    polar: false,
  });
});

test('only speed around the platter is drawn as rings', () => {
  expect(chart(curve({ quantity: 'speed-against-turn', xUnit: 'deg', yUnit: '%' }))).toMatchObject({
    xLabel: 'angle of the platter',
    yLabel: 'deviation',
    xUnit: '°',
    polar: true,
    xLog: false,
  });
});

test('axes are named by their quantity, else by their unit, else not at all', () => {
  const named = (quantity: string, xUnit: string, yUnit: string) => {
    const { xLabel, yLabel } = chart(curve({ quantity, xUnit, yUnit }));
    return [xLabel, yLabel];
  };
  expect(named('spectrum', 's', '%')).toEqual(['time', 'deviation']);
  expect(named('spectrum', 'mm', 'deg')).toEqual(['radius', 'angle']);
  expect(named('spectrum', 'deg', 'µs')).toEqual(['tilt, clockwise positive', 'lag']);
  expect(named('spectrum', 'V', 'µm')).toEqual(['', 'radius']);
  expect(named('spectrum', 'Hz', 'V')).toEqual(['frequency', '']);
  expect(named('separation', 'Hz', 'dB')).toEqual(['frequency', 'separation']);
  expect(named('separation-against-tilt', 'deg', 'dB')).toEqual(['tilt, clockwise positive', 'separation']);
  expect(named('separation-phase', 'Hz', 'deg')).toEqual(['frequency', 'phase']);
  expect(named('phase', 'Hz', 'deg')).toEqual(['frequency', 'phase']);
});

test('a line is named by its channel, else its own name, else by number or by its chart', () => {
  const names = (...curves: DrawnCurve[]) => chart(...curves).series.map(({ name }) => name);
  expect(names(curve({ channel: 'left', name: 'x' }), curve({ name: 'y' }), curve())).toEqual(['left', 'y', 'trace 3']);
  expect(names(curve())).toEqual(['spectrum']);
  for (const quantity of ['separation', 'separation-phase', 'separation-against-tilt']) {
    const of = (channel?: 'left' | 'right') => curve({ quantity, channel });
    expect(names(of('left'), of('right'), of())).toEqual(['left into right', 'right into left', 'trace 3']);
  }
});

test('a channel has its stroke; of other lines the first is plain, the rest are soft; a few readings are points', () => {
  const many = (n: number) => Array.from({ length: n }, (_, i) => i + 1);
  const styles = (...curves: DrawnCurve[]) => chart(...curves).series.map(({ style }) => style);
  expect(styles(curve(), curve(), curve({ channel: 'right' }))).toEqual(['plain', 'soft', 'right']);
  for (const name of ['heard', 'mean of each tone']) {
    expect(styles(curve({ name, x: many(24), y: many(24) }))).toEqual(['points']);
    expect(styles(curve({ name, x: many(25), y: many(25) }))).toEqual(['plain']);
  }
  expect(styles(curve({ name: 'fitted' }), curve({ channel: 'left', name: 'heard' }))).toEqual(['plain', 'points']);
  expect(dashes).toEqual({
    left: undefined,
    right: '6 4',
    accent: undefined,
    soft: '2 3',
    plain: undefined,
    points: undefined,
  });
});

test('frequencies over more than a twelvefold span stand on a logarithmic axis, 0 Hz left out of account', () => {
  const log = (...xs: number[][]) => chart(...xs.map((x) => curve({ x, y: x }))).xLog;
  expect(log([1, 12])).toBe(false);
  expect(log([1, 12.1])).toBe(true);
  expect(log([0, 1, 12])).toBe(false);
  expect(log([0, 1, 12.1])).toBe(true);
  expect(log([4, 13], [1, 3])).toBe(true);
  expect(log([4, 12], [1, 3])).toBe(false);
  expect(log([0, 0])).toBe(false);
  expect(chart(curve({ xUnit: 's' })).xLog).toBe(false);
});
