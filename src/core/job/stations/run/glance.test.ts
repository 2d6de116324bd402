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
