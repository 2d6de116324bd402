/**
 * The curves of a document as a chart: which share one, what its axes say, how its lines are told apart. Left is solid and right
 * dashed, never by colour alone.
 */
import { small } from '../../words/capital.ts';
import { unitSign } from '../../words/figure.ts';
import { curveTitles, quantityTitle } from '../../words/quantities.ts';

/** As documents hold them; x and y equally long. */
export interface DrawnCurve {
  readonly quantity: string;
  readonly channel?: 'left' | 'right';
  readonly name?: string;
  readonly band?: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly xUnit: string;
  readonly yUnit: string;
}

export interface CurveGroup<Curve extends DrawnCurve = DrawnCurve> {
  readonly quantity: string;
  readonly band: number | null;
  readonly curves: readonly Curve[];
}

export type LineStyle = 'left' | 'right' | 'accent' | 'soft' | 'plain' | 'points';

/** Strokes of the styles in an SVG; undefined is solid. */
export const dashes: Readonly<Record<LineStyle, string | undefined>> = {
  left: undefined,
  right: '6 4',
  accent: undefined,
  soft: '2 3',
  plain: undefined,
  points: undefined,
};

export interface Series {
  readonly name: string;
  /** ascending */
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly style?: LineStyle;
}

export interface Chart {
  readonly title: string;
  readonly series: readonly Series[];
  readonly xLabel: string;
  readonly yLabel: string;
  /** signs: "Hz", "°" */
  readonly xUnit: string;
  readonly yUnit: string;
  readonly xLog: boolean;
  /** x is the platter's angle, counted on from turn to turn: drawn as rings (polar.ts) */
  readonly polar: boolean;
}

/** quantities of which a sweep of one wall tells one channel: two such share a chart */
const ONE_WALL_EACH = new Set(['frequency-response', 'separation', 'separation-phase']);

/** Curves of one quantity and band share a chart when their units agree; so do left and right that were swept one after the other. */
export function groupCurves<Curve extends DrawnCurve>(curves: readonly Curve[]): CurveGroup<Curve>[] {
  const groups = new Map<string, Curve[]>();
  for (const curve of curves) {
    if (curve.x.length < 2) continue;
    const key = [curve.quantity, curve.band ?? '', curve.xUnit, curve.yUnit].join(' ');
    groups.set(key, [...(groups.get(key) ?? []), curve]);
  }
  const all = [...groups.values()].map((list) => ({
    quantity: list[0].quantity,
    band: list[0].band ?? null,
    curves: list,
  }));
  return paired(all);
}

/** The first left and the first right that each have a chart to themselves go together. */
function paired<Curve extends DrawnCurve>(groups: readonly CurveGroup<Curve>[]): CurveGroup<Curve>[] {
  const out: CurveGroup<Curve>[] = [];
  for (const group of groups) {
    const [only, ...more] = group.curves;
    const partner = out.findIndex(
      ({ quantity, curves }) =>
        quantity === group.quantity &&
        ONE_WALL_EACH.has(quantity) &&
        more.length === 0 &&
        curves.length === 1 &&
        curves[0].channel !== undefined &&
        only.channel !== undefined &&
        curves[0].channel !== only.channel,
    );
    if (partner < 0) out.push(group);
    else out[partner] = { ...out[partner], band: null, curves: [...out[partner].curves, only] };
  }
  return out;
}

const xWords: Readonly<Record<string, string>> = {
  Hz: 'frequency',
  s: 'time',
  deg: 'tilt, clockwise positive',
  mm: 'radius',
};
const ownXWords: Readonly<Record<string, string>> = { 'speed-against-turn': 'angle of the platter' };
const yWords: Readonly<Record<string, string>> = {
  dB: 'level',
  '%': 'deviation',
  deg: 'angle',
  µs: 'lag',
  µm: 'radius',
};
const ownYWords: Readonly<Record<string, string>> = {
  'separation-against-tilt': 'separation',
  separation: 'separation',
  phase: 'phase',
  'separation-phase': 'phase',
};

/** of one channel into the other */
const LEAKS = new Set(['separation-against-tilt', 'separation', 'separation-phase']);

function channelName(quantity: string, channel: 'left' | 'right' | undefined): string | undefined {
  if (!LEAKS.has(quantity) || channel === undefined) return channel;
  return channel === 'left' ? 'left into right' : 'right into left';
}

/** a few readings are no line: nothing was heard between them */
const READINGS = new Set(['heard', 'mean of each tone']);
const FEW = 24;

function styleOf({ channel, name, x }: DrawnCurve, i: number): LineStyle {
  if (name !== undefined && READINGS.has(name) && x.length <= FEW) return 'points';
  return channel ?? (i === 0 ? 'plain' : 'soft');
}

/** Frequencies over more than a decade stand on a logarithmic axis. */
const LOG_SPAN = 12;

export function chartOf({ quantity, curves }: CurveGroup): Chart {
  const [first] = curves;
  const title = Object.hasOwn(curveTitles, quantity) ? curveTitles[quantity] : quantityTitle(quantity);
  const low = Math.min(...curves.map((curve) => curve.x.find((x) => x > 0) ?? Number.POSITIVE_INFINITY));
  const high = Math.max(...curves.map((curve) => curve.x.at(-1) ?? 0));
  return {
    title,
    series: curves.map((curve, i) => ({
      name: channelName(quantity, curve.channel) ?? curve.name ?? (curves.length > 1 ? `trace ${i + 1}` : small(title)),
      x: curve.x,
      y: curve.y,
      style: styleOf(curve, i),
    })),
    xLabel: ownXWords[quantity] ?? xWords[first.xUnit] ?? '',
    yLabel: ownYWords[quantity] ?? yWords[first.yUnit] ?? '',
    xUnit: unitSign(first.xUnit),
    yUnit: unitSign(first.yUnit),
    xLog: first.xUnit === 'Hz' && high / low > LOG_SPAN,
    polar: quantity === 'speed-against-turn',
  };
}
