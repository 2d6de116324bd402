/**
 * What is the cartridge's and what the chain's, from two recordings with the cartridge's leads exchanged left for right at the preamp between them.
 *
 *   as captured, left over right:   b₁ = cartridge + chain,   b₂ = −cartridge + chain
 *   cartridge = (b₁ − b₂)/2         chain = (b₁ + b₂)/2
 *
 * What depends on the other input's capacitance, and the chain's own crosstalk, do not part so.
 */
import type { JudgedFinding, SideDocument } from '../advise/document.ts';
import { judge } from '../advise/limits.ts';
import { withheld } from '../capture/problem.ts';
import type { Curve, Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';

/** What of a document is needed. */
export type Played = Pick<SideDocument, 'findings' | 'curves' | 'problems'>;

const find = (document: Played, quantity: string): JudgedFinding | undefined =>
  document.findings.find((finding) => finding.quantity === quantity);

/** @param second the same record and cartridge, leads exchanged */
export function withSwappedLeads<Document extends Played>(first: Document, second: Played): Document {
  const without = (why: Parameters<typeof withheld>[1]): Document => ({
    ...first,
    problems: [...first.problems, withheld('channel-balance-chain', why)],
  });
  const [one, two] = [find(first, 'channel-balance'), find(second, 'channel-balance')];
  if (typeof one?.value !== 'number' || typeof two?.value !== 'number') return without(statement('no-balance-in-both'));
  const orders = [first, second].map((document) => find(document, 'channel-order')?.value);
  const known = orders[0] !== undefined && orders[1] !== undefined;
  if (known && orders[0] === orders[1]) return without(statement('leads-not-exchanged'));
  // where the record file shows the swap, it is undone in the figures: as captured they are the other way round
  const raw = (of: JudgedFinding, order: unknown): number =>
    (of.asHeard ?? (of.value as number)) * (order === 'swapped' ? -1 : 1);
  const [b1, b2] = [raw(one, orders[0]), raw(two, orders[1])];
  const signal = Math.hypot(one.repeatability ?? one.uncertainty ?? 0, two.repeatability ?? two.uncertainty ?? 0) / 2;
  const part = (
    quantity: string,
    value: number,
    uncertainty: number,
    code: 'balance-of-cartridge' | 'balance-of-chain',
  ) =>
    judge({
      quantity,
      value,
      unit: 'dB',
      uncertainty,
      repeatability: signal,
      bands: one.bands,
      notes: [statement(code)],
    } satisfies Finding);
  // the record's own balance and tilt stay in what comes before the leads
  const ofRecord = Math.sqrt(Math.max(0, (one.uncertainty ?? 0) ** 2 - (one.repeatability ?? 0) ** 2));
  return {
    ...first,
    findings: [
      ...first.findings,
      part('channel-balance-cartridge', (b1 - b2) / 2, Math.hypot(signal, ofRecord), 'balance-of-cartridge'),
      part('channel-balance-chain', (b1 + b2) / 2, signal, 'balance-of-chain'),
    ],
    curves: [...first.curves, ...differences(first, second, orders)],
  };
}

/** Left over right against frequency, parted alike, where both recordings hold a response. */
function differences(first: Played, second: Played, orders: readonly unknown[]): Curve[] {
  const apart = (document: Played, order: unknown): ((hz: number) => number | null) | null => {
    const [left, right] = (['left', 'right'] as const).map((channel) =>
      document.curves.find((curve) => curve.quantity === 'frequency-response' && curve.channel === channel),
    );
    if (left === undefined || right === undefined) return null;
    const sign = order === 'swapped' ? -1 : 1;
    return (hz) => {
      const [l, r] = [at(left, hz), at(right, hz)];
      return l === null || r === null ? null : sign * (l - r);
    };
  };
  const [d1, d2] = [apart(first, orders[0]), apart(second, orders[1])];
  const grid = first.curves.find((curve) => curve.quantity === 'frequency-response' && curve.channel === 'left');
  if (d1 === null || d2 === null || grid === undefined) return [];
  const points = grid.x.flatMap((hz) => {
    const [a, b] = [d1(hz), d2(hz)];
    return a === null || b === null ? [] : [{ hz, a, b }];
  });
  if (points.length < 2) return [];
  const curve = (quantity: string, y: (p: { a: number; b: number }) => number): Curve => ({
    quantity,
    x: points.map(({ hz }) => hz),
    y: points.map(y),
    xUnit: 'Hz',
    yUnit: 'dB',
  });
  return [
    curve('channel-difference-cartridge', ({ a, b }) => (a - b) / 2),
    curve('channel-difference-chain', ({ a, b }) => (a + b) / 2),
  ];
}

/** Straight between points; null outside. */
function at({ x, y }: Curve, wanted: number): number | null {
  const i = x.findIndex((value) => value >= wanted);
  if (i < 0 || (i === 0 && x[0] !== wanted)) return null;
  if (x[i] === wanted) return y[i];
  return y[i - 1] + ((y[i] - y[i - 1]) * (wanted - x[i - 1])) / (x[i] - x[i - 1]);
}
