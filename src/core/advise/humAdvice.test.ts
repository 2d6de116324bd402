import { expect, it } from 'vitest';
import type { Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';
import { adviseHum } from './humAdvice.ts';
import { DEFAULT_LIMITS } from './limits.ts';

const hum = (quantity: string, channel: 'left' | 'right', value: number, strongestHz = 50, percent = 90): Finding => ({
  quantity,
  channel,
  value,
  unit: 'dB',
  uncertainty: 1,
  bands: [],
  notes: [statement('hum-family', { hz: 50, strongestHz, percent })],
});
const both = (quantity: string, value: number, strongestHz = 50, percent = 90): Finding[] => [
  hum(quantity, 'left', value, strongestHz, percent),
  hum(quantity, 'right', value + 1, strongestHz, percent),
];
const codes = (findings: Finding[]): string[] =>
  adviseHum(findings, DEFAULT_LIMITS).flatMap(({ reasons = [] }) => reasons.map(({ code }) => code));

it('a quiet chain needs no word about hum', () => {
  expect(adviseHum([...both('hum', 66), ...both('hum-tip-up', 68)], DEFAULT_LIMITS)).toEqual([]);
});

it('alike with the tip up and in the groove: wiring; by the strongest line earth lead or a second path', () => {
  expect(codes([...both('hum', 40), ...both('hum-tip-up', 40)])).toEqual(['hum-loud', 'hum-both']);
  expect(codes([...both('hum', 40, 150), ...both('hum-tip-up', 40, 150)])).toEqual(['hum-loud', 'hum-buzz']);
});

it('one channel alone: that channel, by name', () => {
  const [advice] = adviseHum([hum('hum-tip-up', 'left', 60), hum('hum-tip-up', 'right', 38)], DEFAULT_LIMITS);
  expect(advice?.why).toMatch(/right channel’s alone/);
});

it('louder in the groove than with the tip up: vibration, not wiring', () => {
  expect(codes([...both('hum', 40), ...both('hum-tip-up', 62)])).toEqual(['hum-loud', 'hum-through-groove']);
});

it('with the motor only: its field or earth', () => {
  expect(codes([...both('hum', 40), ...both('hum-tip-up', 40), ...both('hum-motor-off', 60)])).toContain(
    'hum-of-motor',
  );
});

it('never heard with the tip up: asks for it; every word of it warns of the protective earth', () => {
  expect(codes(both('hum', 40))).toContain('hum-try-tip-up');
  const [advice] = adviseHum(both('hum', 40), DEFAULT_LIMITS);
  expect(advice?.caution).toMatch(/Never take off a protective earth/);
});
