import { expect, it } from 'vitest';
import { chartCsv } from './csv.ts';

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
