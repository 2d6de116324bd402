/** Chains as a terminal shows them, line by line. */
import { expect, it } from 'vitest';
import type { ChainCharts, ChainFigure, ChainHistory, ChainList } from '../core/job/chains/chain.ts';
import { alarmsText, chainChartsText, chainHistoryText, chainListText, referencesText } from './chainText.ts';

const chain = { id: 'c1', name: 'studio 2' };

it('a list of chains has their parts in columns, and says where there is none', () => {
  const chains: ChainList['chains'] = [
    { ...chain, parts: { deck: 'bench deck 3', bench: 'east' }, newest: '2026-03-30T06:00:00.000Z' },
    { id: 'c2', name: 's', parts: { cartridge: 'A' }, newest: null },
  ];
  expect(chainListText({ chains }).split('\n')).toEqual([
    '  chain     deck          cartridge  preamp  converter  bench  newest recording',
    '  studio 2  bench deck 3                                east   2026-03-30 06:00 UTC',
    '  s                       A',
    '',
  ]);
  expect(chainListText({ chains: [] })).toMatch(/^[A-Z].*\.\n$/);
});

it('alarms are their sentences, one a line, and what is to be said of all', () => {
  const alarm = { sentence: 'Speed\nleft its limits.' } as Parameters<typeof alarmsText>[0]['alarms'][number];
  expect(alarmsText({ since: '', alarms: [alarm], says: ['Since then.'] } as Parameters<typeof alarmsText>[0])).toBe(
    'Speed left its limits.\nSince then.\n',
  );
});

const point = (value: number) => ({
  ...{ reading: 'r', at: '2026-03-30T06:00:00.000Z', value, uncertainty: 0.02, signal: null },
});
const speed: ChainFigure = {
  quantity: 'speed-error',
  unit: '%',
  points: [point(1), point(0.1)],
  gap: null,
  limits: { centre: 0, low: -0.3, high: 0.3, meanRange: 0.1, rangeLimit: 0.3 },
  behind: 20,
  says: 'Within its limits.',
};

it('charts tell the last reading of each figure, its limits and how it stands', () => {
  const charts = {
    ...{ chain, record: { key: 'k', name: 'House side' }, method: '3' },
    figures: [
      speed,
      { ...speed, quantity: 'hum', channel: 'left', unit: 'dB', points: [point(60)], limits: null, says: '' },
    ],
    says: ['Two of three.'],
  } as unknown as ChainCharts;
  const lines = chainChartsText(charts).split('\n');
  expect(lines.slice(0, 2)).toEqual(['studio 2, House side, methods version 3', 'Two of three.']);
  expect(lines[2]).toMatch(/^ {2}figure +last +limits +readings$/);
  expect(lines[3]).toMatch(
    /^ {2}Speed error +\+0\.100 ± 0\.020 % {2}−0\.300 % to \+0\.300 % {2}2 +Within its limits\.$/,
  );
  expect(lines[4]).toMatch(/^ {2}Hum.*, left +60\.00 ± 0\.02 dB/);
  expect(lines[4]).toMatch(/ {2}none +1$/);
  expect(lines.slice(5)).toEqual(['']);
  const bare = { ...charts, record: null, method: null, figures: [], says: [] } as ChainCharts;
  expect(chainChartsText(bare)).toBe('studio 2\n');
});

it('a history has a line for each figure, its heading on the newest page alone', () => {
  const reading = {
    ...{ id: 'r', at: '2026-03-30T06:00:00.000Z', knownAt: '', fingerprint: null, certificateUntil: null },
    ...{ method: '3', record: null, reference: null, source: { root: 'archive', path: 'studio 2/1.wav' } },
    figures: [
      { quantity: 'speed-error', unit: '%', value: 0.1, uncertainty: 0.02 },
      { quantity: 'hum', channel: 'left' as const, unit: 'dB', value: 60, uncertainty: null },
    ],
  };
  const reference = { ...reading, reference: 'ours', record: { key: 'k', name: 'House side' } };
  const page: ChainHistory = { chain, readings: [reading, { ...reference, source: { job: 4, file: 'a.wav' } }] };
  const [head, ...rows] = chainHistoryText(page, true).trimEnd().split('\n');
  expect(head).toMatch(/^ {2}recorded +figure +read +methods +record file +where$/);
  expect(rows).toHaveLength(4);
  expect(rows[0]).toMatch(
    /^ {2}2026-03-30 06:00 UTC {2}Speed error +\+0\.100 ± 0\.020 % {2}version 3 {2}no record file {2}studio 2\/1\.wav$/,
  );
  expect(rows[1]).toMatch(/, left +60\.0 dB +version 3/);
  expect(rows[2]).toMatch(/version 3 {2}House side {6}job 4: a\.wav \(reference ours\)$/);
  const older = chainHistoryText(page, false);
  expect(older).toMatch(/^ {2}2026-03-30/);
  expect(older.trimEnd().split('\n')).toHaveLength(4);
  expect(chainHistoryText({ ...page, readings: [] }, true)).toMatch(/^studio 2: .+\n$/);
  expect(chainHistoryText({ ...page, readings: [] }, false)).toBe('');
});

it('references tell until when their certificate holds, and how that stands', () => {
  const one = {
    ...{ name: 'ours', record: { key: 'k', name: 'House side' }, certificate: '17', expires: '2027-03-01' },
    ...{ fingerprint: 'ab12', added: '' },
  };
  const references = (['holds', 'soon', 'expired'] as const).map((state) => ({ ...one, state }));
  const lines = referencesText({ references } as unknown as Parameters<typeof referencesText>[0]).split('\n');
  expect(lines[0]).toBe('  name  record file  certificate  until                            fingerprint');
  expect(lines.slice(1)).toEqual([
    '  ours  House side   17           2027-03-01  holds                ab12',
    '  ours  House side   17           2027-03-01  ends within 30 days  ab12',
    '  ours  House side   17           2027-03-01  has run out          ab12',
    '',
  ]);
  expect(referencesText({ references: [] } as unknown as Parameters<typeof referencesText>[0])).toMatch(
    /^No reference recording yet.*\n$/,
  );
});
