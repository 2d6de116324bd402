import { expect, test } from 'vitest';
import type { JudgedFinding, SideDocument } from '../../core/advise/document.ts';
import type { Curve } from '../../core/measure/finding.ts';
import type { Band } from '../../core/record/band.ts';
import { curvesFor } from './evidence.ts';

const band = (index: number, startS: number): Band => ({
  index,
  startS,
  endS: startS + 10,
  signal: 'tone',
  motion: 'lateral',
  frequencyHz: 3150,
  radiusMm: null,
  sheetBand: null,
});
const curve = (quantity: string, rest: Partial<Curve> = {}): Curve => ({
  quantity,
  x: [0, 5, 10, 15, 20, 25, 30],
  y: [1, 1, 1, 1, 1, 1, 1],
  xUnit: 's',
  yUnit: '%',
  ...rest,
});
const finding = (quantity: string, bands: number[]): JudgedFinding => ({
  quantity,
  value: 0.1,
  unit: '%',
  uncertainty: 0.01,
  bands,
  note: '',
  verdict: 'info',
});
const documentWith = (curves: Curve[]): SideDocument => ({
  schema: 1,
  capture: { file: 'x.wav', sampleRateHz: 48000, channels: 2, bitDepth: 24, durationS: 30, sha256: null },
  bands: [band(0, 2), band(1, 15)],
  findings: [],
  advice: [],
  problems: [],
  curves,
});
const said = (quantity: string, bands: number[], curves: Curve[]) =>
  curvesFor({ finding: finding(quantity, bands), document: documentWith(curves) }).map(
    (group) => `${group.quantity} ${group.band} ×${group.curves.length}`,
  );

test('a figure shows the curves of its kind from its own bands, both channels of one thing together', () => {
  const curves = [
    curve('speed-deviation', { band: 0 }),
    curve('speed-deviation', { band: 1 }),
    curve('spectrum', { band: 1, channel: 'left' }),
    curve('spectrum', { band: 1, channel: 'right' }),
  ];
  expect(said('speed-error', [1], curves)).toEqual(['speed-deviation 1 ×1']);
  expect(said('hum', [1], curves)).toEqual(['spectrum 1 ×2']);
});

test('without a curve of its kind the level over its bands is what there is to see', () => {
  const curves = [curve('level', { channel: 'left' }), curve('level', { channel: 'right' })];
  expect(said('wow-flutter-weighted', [1], curves)).toEqual(['level 1 ×2']);
  const [group] = curvesFor({ finding: finding('wow-flutter-weighted', [1]), document: documentWith(curves) });
  expect(group.curves[0].x).toEqual([15, 20, 25]);
});

test('a quantity without a place of its own shows the curve of its own name', () => {
  expect(said('something-new', [], [curve('something-new')])).toEqual(['something-new null ×1']);
});

test('separation over frequency tells of a separation at 1 kHz, whichever sweeps it was read from, both ways in one chart', () => {
  const swept = (channel: 'left' | 'right', band: number) =>
    curve('separation', { channel, band, xUnit: 'Hz', yUnit: 'dB' });
  expect(said('separation-left-to-right', [0], [swept('left', 3), swept('right', 4)])).toEqual(['separation null ×2']);
});
