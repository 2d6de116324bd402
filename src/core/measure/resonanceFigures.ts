/**
 * Where the arm resonates on the stylus's spring, lateral and vertical, with Q: every way that the recording offers, one figure a direction from those
 * that agree.
 *
 * `resonanceWays.ts` holds the ways; here they are put together, each weighing 1/U².
 */
import { type Problem, withheld } from '../capture/problem.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Doubt, withBudget } from './budget.ts';
import type { Curve, Finding } from './finding.ts';
import { type FoundLowSweep, type ResonanceWay, resonanceWays } from './resonanceWays.ts';
import type { SideReadings } from './sideReadings.ts';
import { armTransfer } from './sweptArm.ts';

export interface ResonanceFigures {
  readonly findings: Finding[];
  readonly problems: Problem[];
  readonly curves: Curve[];
  readonly lowSweeps: readonly FoundLowSweep[];
}

/** @param flat captured without playback equalisation @param inverted one channel is upside down */
export function resonanceFigures(side: SideReadings, flat: boolean, inverted: boolean): ResonanceFigures {
  const found = resonanceWays(side, flat, inverted);
  const figures: ResonanceFigures = { findings: [], problems: [], curves: found.curves, lowSweeps: found.lowSweeps };
  for (const direction of ['lateral', 'vertical'] as const) {
    const quantity = `arm-resonance-${direction}`;
    const all = found.ways.filter((way) => way.direction === direction);
    const noise = all.find(({ way }) => way === 'noise');
    const ways = all.filter((way) => way !== noise);
    if (ways.length === 0) {
      const failed = found.failed.find((one) => one.direction === direction);
      if (failed !== undefined) figures.problems.push(withheld(quantity, failed.why));
      else if (noise !== undefined) {
        figures.problems.push(withheld(quantity, statement('resonance-noise-alone', { hz: noise.hz.value })));
      }
      continue;
    }
    const apart = side.assumed.agreement.resonances;
    if (contradict(ways, apart)) {
      figures.problems.push(withheld(quantity, statement('resonance-ways-disagree', { ways: listed(ways) })));
      continue;
    }
    figures.findings.push(...together(quantity, ways, noise, apart));
  }
  return figures;
}

const sizeOf = (own: number, doubts: readonly Doubt[]): number => Math.hypot(own, ...doubts.map(({ size }) => size));

/** @param apart times both uncertainties together */
function contradict(ways: readonly ResonanceWay[], apart: number): boolean {
  return ways.some((one, i) =>
    ways
      .slice(i + 1)
      .some(
        (other) =>
          Math.abs(one.hz.value - other.hz.value) >
          apart * Math.hypot(sizeOf(one.hz.own, one.hz.doubts), sizeOf(other.hz.own, other.hz.doubts)),
      ),
  );
}

const WAYS = { sweep: 'way-sweep', 'ring-down': 'way-ring-down', speed: 'way-speed', noise: 'way-noise' } as const;

function listed(ways: readonly ResonanceWay[]): Statement {
  const said = ways.map(({ way, hz }) => statement(WAYS[way], { hz: hz.value }));
  return said.slice(1).reduce((one, other) => statement('two-ways', { one, other }), said[0]);
}

/**
 * f₀ and Q, each from all ways by 1/U². Groove noise, which something else may colour, joins where it agrees and is told where it does not.
 * @param others that count by themselves
 */
function together(
  quantity: string,
  others: readonly ResonanceWay[],
  noise: ResonanceWay | undefined,
  apart: number,
): Finding[] {
  const joins = noise !== undefined && !contradict([...others, noise], apart);
  const ways = joins ? [...others, noise] : others;
  const bands = [...new Set(ways.flatMap((way) => way.bands))];
  const f0 = weighted(ways.map((way) => way.hz));
  const q = weighted(ways.map((way) => way.q));
  const many = ways.length > 1;
  const of = { bands, unit: 'Hz' as const };
  return [
    withBudget(
      {
        quantity,
        value: f0.value,
        ...of,
        notes: [
          ...ways.flatMap((way) => way.notes),
          statement(many ? 'resonance-ways-agree' : 'resonance-one-way', { ways: listed(ways) }),
          ...(noise === undefined || joins ? [] : [statement('resonance-noise-apart', { hz: noise.hz.value })]),
          peakOf(f0.value, q.value),
        ],
      },
      f0.own,
      f0.doubts,
    ),
    withBudget({ quantity: `${quantity}-q`, value: q.value, unit: '', bands, notes: [] }, q.own, q.doubts),
  ];
}

function weighted(values: readonly ResonanceWay['hz'][]) {
  const weights = values.map(({ own, doubts }) => 1 / Math.max(1e-12, sizeOf(own, doubts)) ** 2);
  const whole = weights.reduce((a, b) => a + b, 0);
  const share = weights.map((w) => w / whole);
  const doubts = new Map<string, Doubt>();
  values.forEach((value, i) => {
    for (const { of, size } of value.doubts) {
      // one cause moves all ways together
      doubts.set(of.code, { of, size: (doubts.get(of.code)?.size ?? 0) + share[i] * size });
    }
  });
  return {
    value: values.reduce((sum, { value }, i) => sum + share[i] * value, 0),
    own: Math.hypot(...values.map(({ own }, i) => share[i] * own)),
    doubts: [...doubts.values()],
  };
}

/** Of the model itself: below Q of 2 it is not 20 lg Q, below 0.71 there is none. */
function peakOf(hz: number, q: number): Statement {
  const inside = 1 - 1 / (2 * q * q);
  if (inside <= 0) return statement('resonance-no-peak');
  const peakHz = hz / Math.sqrt(inside);
  const { re, im } = armTransfer(peakHz, hz, q);
  return statement('resonance-peak', { peakDb: 20 * Math.log10(Math.hypot(re, im)), peakHz });
}
