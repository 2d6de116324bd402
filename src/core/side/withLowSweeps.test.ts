import { expect, it } from 'vitest';
import type { SideDocument } from '../advise/document.ts';
import type { Band } from '../record/band.ts';
import type { RecordSheet } from '../record/sheet.ts';
import { withLowSweeps } from './withLowSweeps.ts';

const heard = (
  index: number,
  signal: Band['signal'],
  startS: number,
  endS: number,
  sheetBand: number | null,
): Band => ({
  index,
  startS,
  endS,
  signal,
  motion: signal === 'tone' ? 'lateral' : 'none',
  frequencyHz: signal === 'tone' ? 1000 : null,
  radiusMm: null,
  sheetBand,
});
const sweep = (motion: 'lateral' | 'vertical') =>
  ({ signal: 'sweep', motion, fromHz: 4, toHz: 30, law: 'log', radiusMm: 120 }) as const;
const sheet = {
  schema: 1,
  name: 'Low sweeps',
  rpm: 33.333,
  bands: [
    { signal: 'tone', motion: 'lateral', frequencyHz: 1000 },
    sweep('lateral'),
    sweep('vertical'),
    { signal: 'tone', motion: 'lateral', frequencyHz: 3150 },
  ],
} as unknown as RecordSheet;
const found = (sheetBand: number, startS: number, endS: number, of: string) => ({
  sheetBand,
  startS,
  endS,
  quantities: [`arm-resonance-${of}`, `arm-resonance-${of}-q`],
});
const documentOf = (bands: Band[]): SideDocument =>
  ({
    bands,
    findings: [
      { quantity: 'speed-error', bands: [bands.length - 1] },
      { quantity: 'arm-resonance-lateral', bands: [] },
      { quantity: 'arm-resonance-vertical', bands: [] },
    ],
    curves: [
      { quantity: 'speed', band: bands.length - 1, x: [], y: [] },
      { quantity: 'resonance-lateral', x: [], y: [] },
    ],
  }) as unknown as SideDocument;

it('one silence that holds both sweeps becomes two bands; what comes after moves on, and the findings with it', () => {
  const before = documentOf([
    heard(0, 'tone', 0, 3, 0),
    heard(1, 'silent-groove', 3.5, 40, null),
    heard(2, 'tone', 41, 46, 3),
  ]);
  const { document, placeOf } = withLowSweeps(
    before,
    [found(2, 23, 39.5, 'vertical'), found(1, 4, 21.5, 'lateral')],
    sheet,
  );
  expect(document.bands.map((b) => [b.index, b.signal, b.motion, b.startS, b.endS, b.sheetBand])).toEqual([
    [0, 'tone', 'lateral', 0, 3, 0],
    [1, 'sweep', 'lateral', 4, 21.5, 1],
    [2, 'sweep', 'vertical', 23, 39.5, 2],
    [3, 'tone', 'lateral', 41, 46, 3],
  ]);
  expect(document.bands[1]).toMatchObject({ fromHz: 4, toHz: 30, radiusMm: 120, frequencyHz: null });
  expect(document.findings.map(({ bands }) => bands)).toEqual([[3], [1], [2]]);
  expect(document.curves.map(({ band }) => band)).toEqual([3, undefined]);
  expect(placeOf(2)).toBe(3);
});

it('groove that is silent beside the sweep stays a band, and the longest piece what the record file has there', () => {
  const before = documentOf([heard(0, 'silent-groove', 0, 60, 7), heard(1, 'tone', 61, 65, 3)]);
  const { document } = withLowSweeps(before, [found(1, 12, 30, 'lateral')], sheet);
  expect(document.bands.map((b) => [b.signal, b.startS, b.endS, b.sheetBand])).toEqual([
    ['silent-groove', 0, 12, null],
    ['sweep', 12, 30, 1],
    ['silent-groove', 30, 60, 7],
    ['tone', 61, 65, 3],
  ]);
});

it('a document without such sweeps stays the same', () => {
  const before = documentOf([heard(0, 'tone', 0, 3, 0)]);
  expect(withLowSweeps(before, [], sheet).document).toBe(before);
});
