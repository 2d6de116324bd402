import { expect, test } from 'vitest';
import type { JudgedFinding } from '../../../advise/document.ts';
import { withheld } from '../../../capture/problem.ts';
import { statement } from '../../../words/statement.ts';
import { chainShare, exchangedLines } from './exchanged.ts';

const finding = (quantity: string, value: number | string, unit = 'dB'): JudgedFinding => ({
  quantity,
  value,
  unit,
  uncertainty: 0.1,
  repeatability: 0.05,
  bands: [0],
  note: '',
  verdict: 'info',
});
const recording = (id: string, balance: number, order: string) => ({
  id,
  findings: [finding('channel-balance', balance), finding('channel-order', order, '')],
});
const first = recording('a', 0.7, 'straight');
const second = recording('b', 0.3, 'swapped');
const both = { first: 'a', second: 'b' };

test('the share of the cartridge and of the chain, in that order', () => {
  // as captured: 0.7 and −0.3, so 0.5 is the cartridge’s and 0.2 the chain’s
  const lines = exchangedLines(both, [second, first]);
  expect(lines).toEqual([
    {
      label: 'Channel balance of the cartridge, left over right',
      text: expect.stringMatching(/^\+0\.50 ± 0\.\d+ dB; ± 0\.\d+ dB with this record$/),
    },
    { label: 'Channel balance of the chain, left over right', text: expect.stringMatching(/^\+0\.20 ± 0\.\d+ dB$/) },
  ]);
});

test('where they do not part it is said why', () => {
  const [line, ...more] = exchangedLines(both, [first, recording('b', 0.3, 'straight')]);
  expect(more).toEqual([]);
  expect(line.label).toBe('Recordings with the leads exchanged');
  expect(line.text).toMatch(/exchanged/);
});

test('nothing is told where none was named, or one of them is gone', () => {
  expect(exchangedLines(undefined, [first, second])).toEqual([]);
  expect(exchangedLines(both, [first])).toEqual([]);
  expect(exchangedLines(both, [second])).toEqual([]);
});

test('of what both tell only the two shares, or why they are withheld', () => {
  const parts = [finding('channel-balance-cartridge', 0.5), finding('channel-balance-chain', 0.2)];
  const other = withheld('hum', statement('no-balance-in-both'));
  expect(chainShare({ findings: [finding('hum', 60), ...parts], problems: [other], curves: [] })).toEqual({
    findings: parts,
    withheld: null,
  });
  const problem = withheld('channel-balance-chain', statement('no-balance-in-both'));
  expect(chainShare({ findings: [finding('hum', 60)], problems: [other, problem], curves: [] })).toEqual({
    findings: [],
    withheld: problem,
  });
});
