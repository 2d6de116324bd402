import { expect, it } from 'vitest';
import { readCsv } from '../../words/csv.ts';
import { chartCsv, curvesCsv } from './csv.ts';

const chart = {
  title: 'Noise',
  xLabel: 'frequency',
  yLabel: 'level',
  xUnit: 'Hz',
  yUnit: 'dB',
  xLog: true,
  polar: false,
};

it('has a heading with units and a row for every x of any line', () => {
  const csv = chartCsv({
    ...chart,
    series: [
      { name: 'left', x: [20, 40], y: [-50.25, -60] },
      { name: 'right', x: [40, 80], y: [-61, -70] },
    ],
  });
  expect(csv).toBe('frequency (Hz),left (dB),right (dB)\r\n20,-50.25,\r\n40,-60,-61\r\n80,,-70\r\n');
});

it('quotes names that would break a row', () => {
  const csv = chartCsv({ ...chart, yUnit: '', series: [{ name: 'left, "new"', x: [1], y: [2] }] });
  expect(csv.split('\r\n')[0]).toBe('frequency (Hz),"left, ""new"""');
});

it('holds every point of every curve, and reads back as it was', () => {
  const units = { xUnit: 'Hz', yUnit: 'dB' };
  const csv = curvesCsv([
    { quantity: 'frequency-response', channel: 'left', band: 3, x: [20, 1000], y: [-0.25, 0], ...units },
    { quantity: 'resonance-lateral', name: 'fitted', x: [9.5], y: [6], ...units },
  ]);
  expect(readCsv(csv).lines.map(({ cells }) => cells)).toEqual([
    ['quantity', 'channel', 'line', 'band', 'x', 'x_unit', 'y', 'y_unit'],
    ['frequency-response', 'left', '', '3', '20', 'Hz', '-0.25', 'dB'],
    ['frequency-response', 'left', '', '3', '1000', 'Hz', '0', 'dB'],
    ['resonance-lateral', '', 'fitted', '', '9.5', 'Hz', '6', 'dB'],
  ]);
});
