import { expect, it } from 'vitest';
import type { JudgedFinding, SideDocument } from '../advise/document.ts';
import { withSwappedLeads } from './withSwappedLeads.ts';

const finding = (quantity: string, value: number | string, more: Partial<JudgedFinding> = {}): JudgedFinding => ({
  quantity,
  value,
  unit: 'dB',
  uncertainty: 0.3,
  repeatability: 0.02,
  bands: [0],
  note: '',
  verdict: 'info',
  ...more,
});
const side = (findings: JudgedFinding[], curves: SideDocument['curves'] = []): SideDocument =>
  ({ schema: 1, bands: [], findings, advice: [], problems: [], curves }) as unknown as SideDocument;
const value = (document: SideDocument, quantity: string) =>
  document.findings.find((one) => one.quantity === quantity)?.value;
const cartridge = 0.8;
const chain = -0.3;

it('parts cartridge and chain, the swap as captured', () => {
  const of = withSwappedLeads(
    side([finding('channel-balance', cartridge + chain)]),
    side([finding('channel-balance', -cartridge + chain)]),
  );
  expect(value(of, 'channel-balance-cartridge')).toBeCloseTo(cartridge, 9);
  expect(value(of, 'channel-balance-chain')).toBeCloseTo(chain, 9);
  // the record drops out of the chain's part and stays in the cartridge's
  expect(of.findings.find((f) => f.quantity === 'channel-balance-chain')?.uncertainty).toBeCloseTo(0.0141, 3);
  expect(of.findings.find((f) => f.quantity === 'channel-balance-cartridge')?.uncertainty).toBeCloseTo(0.3, 2);
});

it('a swap that the record file showed and undid counts the same, and no swap at all is refused', () => {
  const first = side([finding('channel-balance', cartridge + chain), finding('channel-order', 'normal')]);
  const second = (order: string, balance: number) =>
    side([finding('channel-balance', balance), finding('channel-order', order)]);
  const of = withSwappedLeads(first, second('swapped', cartridge - chain));
  expect(value(of, 'channel-balance-chain')).toBeCloseTo(chain, 9);
  const none = withSwappedLeads(first, second('normal', cartridge + chain));
  expect(value(none, 'channel-balance-chain')).toBeUndefined();
  expect(none.problems.at(-1)).toMatchObject({ code: 'withheld', values: { why: { code: 'leads-not-exchanged' } } });
});

it('parts the response too, where both hold one', () => {
  const curve = (channel: 'left' | 'right', y: number[]) => ({
    quantity: 'frequency-response',
    channel,
    x: [100, 1000, 10_000],
    y,
    xUnit: 'Hz',
    yUnit: 'dB',
  });
  const of = withSwappedLeads(
    side([finding('channel-balance', 0)], [curve('left', [0, 0, 2]), curve('right', [0, 0, 0])]),
    side([finding('channel-balance', 0)], [curve('left', [0, 0, 0]), curve('right', [0, 0, 1])]),
  );
  expect(of.curves.find(({ quantity }) => quantity === 'channel-difference-cartridge')?.y).toEqual([0, 0, 1.5]);
  expect(of.curves.find(({ quantity }) => quantity === 'channel-difference-chain')?.y).toEqual([0, 0, 0.5]);
});
