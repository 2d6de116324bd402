import { expect, test } from 'vitest';
import type { DrawnCurve } from './curves.ts';
import { picture, pictureOfNothing } from './picture.fixture.ts';
import { curvesSvg } from './svg.ts';

const curves: readonly DrawnCurve[] = [
  // 0 Hz is drawn nowhere, and the axis begins at the first frequency above it
  { quantity: 'spectrum', channel: 'left', x: [0, 20, 200, 20_000], y: [9, -3, 0, 3], xUnit: 'Hz', yUnit: 'dB' },
  { quantity: 'spectrum', channel: 'right', x: [-5, 20, 200, 20_000], y: [0, -4, 1, 2], xUnit: 'Hz', yUnit: 'dB' },
  { quantity: 'tracking-error', name: 'heard', band: 2, x: [62, 104], y: [0.1, -0.8], xUnit: 'mm', yUnit: 'deg' },
  { quantity: 'tracking-error', name: 'A & "B" <C>', band: 2, x: [62, 104], y: [0.2, -0.6], xUnit: 'mm', yUnit: 'deg' },
  {
    quantity: 'speed-against-turn',
    x: [0, 90, 180, 270, 360, 450],
    y: [0.1, 0, -0.1, 0, 0.2, 0],
    xUnit: 'deg',
    yUnit: '%',
  },
  // one place only: the axis is given room about it
  { quantity: 'spectrum', band: 0, x: [50, 50], y: [1, 1], xUnit: 'V', yUnit: '' },
  // nothing above 0 Hz, so there is nothing to draw
  { quantity: 'phase', x: [1, 100], y: [], xUnit: 'Hz', yUnit: 'deg' },
];

test('every chart of a document, one under the other, line for line', () => {
  expect(curvesSvg(curves).split('\n')).toEqual(picture.slice(1).split('\n'));
});

test('a document without curves is an empty sheet of one chart’s height', () => {
  expect(curvesSvg([]).split('\n')).toEqual(pictureOfNothing.slice(1).split('\n'));
});

test('charts are as high together as each is alone', () => {
  const height = (of: readonly DrawnCurve[]) => Number(/ height="(\d+)"/.exec(curvesSvg(of))?.[1]);
  expect([curves.slice(0, 2), curves.slice(4, 5), curves.slice(0, 5)].map(height)).toEqual([280, 320, 880]);
});
