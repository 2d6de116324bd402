/**
 * The verdict on a figure: JCGM 106, simple acceptance with a guard band as wide as the uncertainty. Inside a limit by the
 * whole uncertainty is good; outside by it adjust or bad; astride of what lies between adjust and bad is adjust; all else is undecided,
 * with what would decide it. The limits themselves are data (deckClasses.ts, limitsFile.ts).
 *
 * @source JCGM 106:2012, guarded acceptance (clause from memory)
 */

import type { Finding } from '../measure/finding.ts';
import { quantities } from '../words/quantities.ts';
import { type Statement, say, statement } from '../words/statement.ts';
import { ASSUMED } from './budget/defaults.ts';
import { DECK_CLASSES } from './deckClasses.ts';
import { type JudgedFinding, toldFinding, type Verdict } from './document.ts';

/** A figure is good up to `good`, worth adjusting up to `bad`, and bad beyond. */
export interface Limit {
  readonly good: number;
  readonly bad: number;
  /** `below`: the figure's size must stay under the limits; `above`: it must stay over them */
  readonly sense: 'below' | 'above';
  readonly source: string;
}

export type Limits = Readonly<Record<string, Limit>>;

export const DEFAULT_LIMITS: Limits = DECK_CLASSES.shop;

/** What a figure may truly be. */
interface Interval {
  readonly low: number;
  readonly high: number;
}

/** 95 %: the figure's own interval where it has one, else value ± uncertainty, else the value. */
function intervalOf({ value, uncertainty, low, high }: Judgeable): Interval {
  const at = value as number;
  if (low !== undefined && high !== undefined) return { low, high: high ?? Number.POSITIVE_INFINITY };
  return { low: at - (uncertainty ?? 0), high: at + (uncertainty ?? 0) };
}

/** Of a figure's size. */
const sizeOf = ({ low, high }: Interval): Interval => ({
  low: low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high)),
  high: Math.max(Math.abs(low), Math.abs(high)),
});

/** Zones in the order good, adjust, bad, each up to its edge; the figure counts upwards from good to bad. */
function zoneOf({ low, high }: Interval, good: number, bad: number): Verdict {
  if (high <= good) return 'good';
  if (low > bad) return 'bad';
  return low > good ? 'adjust' : 'undecided';
}

/** What a verdict rests on. */
type Judgeable = Omit<Finding, 'notes' | 'budget' | 'repeats'>;

function judgeNumber(finding: Judgeable, limit: Limit): Verdict {
  const interval = intervalOf(finding);
  if (limit.sense === 'below') return zoneOf(sizeOf(interval), limit.good, limit.bad);
  return zoneOf({ low: -interval.high, high: -interval.low }, -limit.good, -limit.bad);
}

/** The deck's wow is judged with the record's hole taken out; as heard it is for information. */
const AS_HEARD: ReadonlySet<string> = new Set(['wow-flutter-weighted']);

/** The limits that a figure is judged by: none, one, or one for either end of the range that it is wanted in. */
export function limitsOn(quantity: string, limits: Limits): readonly Limit[] {
  if (AS_HEARD.has(quantity)) return [];
  const named = Object.hasOwn(quantities, quantity) ? quantities[quantity].limit : undefined;
  return [named ?? quantity].flat().flatMap((name) => (Object.hasOwn(limits, name) ? [limits[name]] : []));
}

/** Gravest first: one end that is passed for certain decides, whatever the other end leaves open. */
const GRAVEST: readonly Verdict[] = ['bad', 'adjust', 'undecided', 'good'];

/** The verdict on one finding. Text findings are judged by their word; what has no limit is for information. */
export function verdictOn(finding: Judgeable, limits: Limits = DEFAULT_LIMITS): Verdict {
  const { quantity, value } = finding;
  if (typeof value === 'string') {
    if (value === 'in-phase' || value === 'normal') return 'good';
    return value === 'antiphase' || value === 'swapped' ? 'bad' : 'info';
  }
  const verdicts = limitsOn(quantity, limits).map((limit) => judgeNumber(finding, limit));
  return GRAVEST.find((verdict) => verdicts.includes(verdict)) ?? 'info';
}

/** Of the hole and what is judged without it. */
const DECIDES_HOLE: Readonly<Record<string, Statement>> = {
  [ASSUMED.radius.of.code]: statement('decide-by-exact-radii'),
  [ASSUMED.warp.of.code]: statement('decide-by-flat-record'),
};

/** Of everything else, whatever the figure. */
const DECIDES: Readonly<Record<string, Statement>> = {
  signal: statement('decide-by-recording'),
  'phase-of-leaks': statement('decide-by-phase'),
  [ASSUMED.equalisation.of.code]: statement('decide-by-equalisation'),
  [ASSUMED.recordVelocity.of.code]: statement('decide-by-level'),
  [ASSUMED.recordBalance.of.code]: statement('decide-by-other-record'),
  [ASSUMED.recordVerticalAngle.of.code]: statement('decide-by-cut-angle'),
  [ASSUMED.cutResponse.of.code]: statement('decide-by-cut-response'),
};

/** What would decide a verdict that this uncertainty leaves open: the largest part of it, made smaller. */
function decidedBy({ quantity, budget }: Pick<JudgedFinding, 'quantity' | 'budget'>): Statement {
  const [first] = budget ?? [];
  // a document of an earlier version names its sources in words alone
  const largest = first?.of?.code ?? first?.source ?? 'signal';
  // shapes of the weighting that keep to the same corners and slopes
  if (quantity === 'rumble-weighted' && largest === 'method') return statement('decide-by-weighting');
  if (quantity === 'rumble-unweighted' && largest === 'method') return statement('decide-by-rumble-meter');
  const decides = DECIDES[largest];
  if (decides !== undefined) return decides;
  if (quantity === 'eccentricity' || quantity === 'wow-flutter-weighted-deck') {
    return DECIDES_HOLE[largest] ?? statement('decide-by-radii');
  }
  return quantity === 'speed-error' ? statement('decide-by-strobe') : statement('decide-by-record');
}

/** `decidedBy` in words and as a statement. */
export function whatDecides(finding: Pick<JudgedFinding, 'quantity' | 'budget'>) {
  const decides = decidedBy(finding);
  return { decidedBy: say(decides), decides };
}

/** The finding with this verdict; undecided with what would decide it. */
export function withVerdict(finding: Finding, verdict: Verdict): JudgedFinding {
  if (verdict !== 'undecided') return toldFinding(finding, verdict);
  const told = toldFinding(finding, verdict);
  return { ...told, ...whatDecides(told) };
}

/** Adds the verdict. */
export function judge(finding: Finding, limits: Limits = DEFAULT_LIMITS): JudgedFinding {
  return withVerdict(finding, verdictOn(finding, limits));
}

/**
 * For a forecast, which is no measurement: the verdict of its value, with a note where the limit lies within what the parts'
 * tolerances allow.
 */
export function judgeForecast(finding: Finding, limits: Limits): JudgedFinding {
  const verdict = verdictOn({ ...finding, uncertainty: null, low: undefined, high: undefined }, limits);
  const edges = limitsOn(finding.quantity, limits).flatMap(({ good, bad }) => [good, bad]);
  if (edges.length === 0 || typeof finding.value !== 'number' || finding.uncertainty === null) {
    return toldFinding(finding, verdict);
  }
  const near = edges.find(
    (edge) => Math.abs(Math.abs(finding.value as number) - edge) < (finding.uncertainty as number),
  );
  const notes =
    near === undefined
      ? finding.notes
      : [...finding.notes, statement('limit-within', { limit: near, unit: finding.unit })];
  return toldFinding({ ...finding, notes }, verdict);
}
