import { expect, test } from 'vitest';
import type { JudgedFinding, Verdict } from '../../../advise/document.ts';
import { byGroup, glanceOf } from './glance.ts';

const figure = (quantity: string, verdict: Verdict, value: number | string = 1, unit = 'dB'): JudgedFinding => ({
  quantity,
  value,
  unit,
  uncertainty: 0.1,
  bands: [],
  note: '',
  verdict,
});
const shown = (...findings: JudgedFinding[]) =>
  glanceOf(findings).flatMap(({ shown }) => shown.map(({ quantity, value }) => [quantity, value]));

test('groups in the order in which a bench works, whatever the order of the figures', () => {
  const findings = [
    'something-new',
    'reference-level',
    'hum',
    'second-harmonic',
    'frequency-response-deviation',
    'overhang-heard',
    'arm-resonance-lateral',
    'polarity',
    'speed-error',
  ].map((quantity) => figure(quantity, 'good'));
  const groups = ['speed', 'channels', 'resonance', 'geometry', 'response', 'distortion', 'noise', 'chain', 'other'];
  expect(byGroup(findings).map(({ group }) => group)).toEqual(groups);
  expect(byGroup(findings).map((one) => one.findings)).toEqual([...findings].reverse().map((one) => [one]));
  expect(glanceOf(findings).map(({ group, more }) => [group, more])).toEqual(groups.map((group) => [group, 0]));
  expect(glanceOf(findings)[0]).toEqual({
    group: 'speed',
    title: 'Speed, wow and flutter',
    verdict: 'good',
    shown: [findings[8]],
    more: 0,
  });
  expect(byGroup([])).toEqual([]);
});

test('the worst verdict first: bad, adjust, undecided, good, without one', () => {
  const all = (['info', 'good', 'undecided', 'adjust', 'bad'] as const).map((verdict, i) =>
    figure(['hum', 'rumble-weighted', 'rumble-unweighted', 'noise-a-weighted', 'clicks-per-minute'][i], verdict),
  );
  for (const [least, verdict] of (['info', 'good', 'undecided', 'adjust', 'bad'] as const).entries()) {
    const [glance] = glanceOf(all.slice(0, least + 1));
    expect(glance.verdict).toBe(verdict);
    expect(glance.shown.map(({ quantity }) => quantity)).toEqual(
      all
        .slice(Math.max(0, least - 1), least + 1)
        .map(({ quantity }) => quantity)
        .reverse(),
    );
    expect(glance.more).toBe(Math.max(0, least - 1));
  }
});

test('a milder verdict is not shown in place of a graver one, however large its figure', () => {
  expect(shown(figure('speed-error', 'good', 9, '%'), figure('speed-error', 'bad', 0.5, '%'))).toEqual([
    ['speed-error', 0.5],
  ]);
});

test('by its size where a limit lies above it or it is a share, whichever its sign; by how little where it lies below', () => {
  const response = ['frequency-response-deviation', 'dB'] as const;
  const bads = (quantity: string, unit: string, ...values: (number | string)[]) =>
    shown(...values.map((value) => figure(quantity, 'bad', value, unit)))[0][1];
  expect(bads('speed-error', '%', 0.5, -0.9, 0.7)).toBe(-0.9);
  expect(bads(...response, 2, -4, 3)).toBe(-4);
  expect(bads('hum', 'dB', 50, 40, 45)).toBe(40);
  expect(bads('second-harmonic', '%', 1, -3, 2)).toBe(-3);
  // without a limit and no share: the first of them
  expect(bads('reference-over-vu', 'dB', 1, 5, -7)).toBe(1);
  expect(bads('polarity', '', 'in-phase', 'reversed')).toBe('in-phase');
});

test('a figure over a span tells the same as the whole', () => {
  const of = (quantity: string) => figure(quantity, 'bad');
  expect(
    shown(
      of('frequency-response-deviation-40-12500'),
      of('frequency-response-deviation'),
      of('channel-difference'),
    ).map(([quantity]) => quantity),
  ).toEqual(['frequency-response-deviation-40-12500', 'channel-difference']);
});

test('levels are told once any of them has a verdict, without one they are left out', () => {
  const level = figure('reference-level', 'info');
  expect(glanceOf([level, figure('channel-balance-chain', 'info')])).toEqual([]);
  expect(glanceOf([level, figure('channel-balance-chain', 'good')]).map(({ group }) => group)).toEqual(['chain']);
});
