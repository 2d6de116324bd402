import { expect, it } from 'vitest';
import type { JudgedFinding } from '../advise/document.ts';
import { statement } from '../words/statement.ts';
import { harmonicLines } from './harmonicLines.ts';

const found = (quantity: string, band: number, channel?: 'left' | 'right'): JudgedFinding => ({
  quantity,
  value: 0.5,
  unit: '%',
  uncertainty: 0.001,
  bands: [band],
  channel,
  verdict: 'info',
  note: 'said beside the statements',
  notes: [statement('harmonics-of', { hz: band === 1 ? 1002 : 3156, last: 5 }), statement('record-distortion-in-it')],
});

it('gathers harmonics by band and channel, says once what is common, and leaves everything else as it was', () => {
  const speed = found('speed-error', 4);
  const { lines, note, rest } = harmonicLines([
    found('second-harmonic', 1, 'left'),
    found('third-harmonic', 1, 'left'),
    speed,
    found('second-harmonic', 1, 'right'),
    found('total-harmonic-distortion', 4, 'left'),
  ]);
  expect(rest).toEqual([speed]);
  expect(note).toBe('The record’s own distortion is in it.');
  expect(lines.map(({ band, channel, figures }) => [band, channel, Object.keys(figures)])).toEqual([
    [1, 'left', ['second-harmonic', 'third-harmonic']],
    [1, 'right', ['second-harmonic']],
    [4, 'left', ['total-harmonic-distortion']],
  ]);
});

it('no harmonic is lost, nor counted twice', () => {
  const all = [1, 4, 9].flatMap((band) =>
    (['left', 'right'] as const).flatMap((channel) =>
      ['second-harmonic', 'third-harmonic', 'total-harmonic-distortion'].map((name) => found(name, band, channel)),
    ),
  );
  const { lines, rest } = harmonicLines(all);
  expect(rest).toEqual([]);
  expect(lines.flatMap(({ figures }) => Object.values(figures))).toHaveLength(all.length);
});

it('a harmonic of several bands, or in words, is none of a band', () => {
  const both = { ...found('second-harmonic', 1), bands: [1, 2] };
  const none = { ...found('second-harmonic', 1), bands: [] };
  const word = { ...found('second-harmonic', 1), value: 'odd' };
  expect(harmonicLines([both, none, word])).toEqual({ lines: [], note: '', rest: [both, none, word] });
});

it('what is common is said once, in the order it comes, of an earlier version as it stands', () => {
  const noted = (notes: JudgedFinding['notes'], note = '') => ({ ...found('second-harmonic', 1), notes, note });
  const said = (...findings: JudgedFinding[]) => harmonicLines(findings).note;
  expect(said(noted([statement('harmonic-of', { hz: 1000, order: 2 } as never)], 'whole'))).toBe('');
  expect(said(noted(undefined, 'One.'), noted(undefined, 'Two.'), noted(undefined, 'One.'), noted(undefined, ''))).toBe(
    'One. Two.',
  );
  expect(said()).toBe('');
});

it('a line has its band, its channel and each of its figures under its name', () => {
  const [second, all] = [found('second-harmonic', 3), found('total-harmonic-distortion', 3)];
  expect(harmonicLines([second, all]).lines).toEqual([
    { band: 3, channel: undefined, figures: { 'second-harmonic': second, 'total-harmonic-distortion': all } },
  ]);
});
