import { expect, it } from 'vitest';
import type { JudgedFinding, Verdict } from '../../../advise/document.ts';
import { glanceOf } from './glance.ts';

const finding = (quantity: string, verdict: Verdict, value = 1, channel?: 'left' | 'right'): JudgedFinding => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty: 0.1,
  bands: [0],
  note: '',
  verdict,
  ...(channel === undefined ? {} : { channel }),
});

it('a group shows its worst verdict, and of each quantity the worst, at most two', () => {
  const glance = glanceOf([
    finding('hum', 'good', 60, 'left'),
    finding('hum', 'bad', 40, 'right'),
    finding('noise-a-weighted', 'info'),
    finding('rumble-weighted', 'undecided'),
    finding('speed-error', 'good'),
  ]);
  expect(glance.map(({ group, verdict }) => [group, verdict])).toEqual([
    ['speed', 'good'],
    ['noise', 'bad'],
  ]);
  const [, noise] = glance;
  expect(noise?.shown.map(({ quantity, channel }) => [quantity, channel])).toEqual([
    ['hum', 'right'],
    ['rumble-weighted', undefined],
  ]);
  expect(noise?.more).toBe(2);
});

it('keeps the order of figures with the same verdict, and knows groups that nobody named', () => {
  const [speed, other] = glanceOf([
    finding('wow-flutter-weighted-deck', 'good'),
    finding('something-new', 'info'),
    finding('speed-error', 'good'),
  ]);
  expect(speed?.shown.map(({ quantity }) => quantity)).toEqual(['wow-flutter-weighted-deck', 'speed-error']);
  expect(other?.group).toBe('other');
  expect(glanceOf([])).toEqual([]);
});

it('of several bands or channels with one verdict it shows the worst: most of a share, least of a distance', () => {
  const share = (value: number) => ({ ...finding('second-harmonic', 'info', value), unit: '%' });
  const all = glanceOf([
    ...[0.3, 1.2, 0.7].map(share),
    finding('hum', 'good', 61, 'left'),
    finding('hum', 'good', 58, 'right'),
    finding('frequency-response-deviation', 'adjust', 2.4, 'left'),
    finding('frequency-response-deviation', 'adjust', -3.1, 'right'),
    finding('frequency-response-deviation-40-12500', 'adjust', -2.9, 'right'),
    finding('channel-difference', 'info', 0.5),
  ]);
  expect(all.flatMap(({ shown }) => shown.map(({ quantity, value }) => [quantity, value]))).toEqual([
    ['frequency-response-deviation', -3.1],
    ['channel-difference', 0.5],
    ['second-harmonic', 1.2],
    ['hum', 58],
  ]);
});

it('levels that no limit judges are no group of their own; without a verdict one figure tells enough', () => {
  const glance = glanceOf([
    finding('reference-level', 'info', -15, 'left'),
    finding('second-harmonic', 'info', 2),
    finding('third-harmonic', 'info', 1),
  ]);
  expect(glance.map(({ group, shown }) => [group, shown.map(({ quantity }) => quantity)])).toEqual([
    ['distortion', ['second-harmonic']],
  ]);
  const [chain] = glanceOf([finding('reference-over-vu', 'adjust', 4)]);
  expect(chain?.group).toBe('chain');
});
