/**
 * The tolerances behind every verdict, and nowhere else. A job may carry its own; these are the defaults, listed with
 * their sources in docs/verdicts.md.
 */
import type { Finding } from '../measure/finding.ts';
import { statement } from '../words/statement.ts';
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

const commonPractice = 'common practice';

export const DEFAULT_LIMITS: Limits = {
  'azimuth-error': { good: 0.25, bad: 3, sense: 'below', source: commonPractice },
  'separation-left-to-right': { good: 25, bad: 20, sense: 'above', source: 'good: common practice; bad: DIN 45500' },
  'separation-right-to-left': { good: 25, bad: 20, sense: 'above', source: 'good: common practice; bad: DIN 45500' },
  'channel-balance': { good: 1, bad: 2, sense: 'below', source: 'good: common practice; bad: DIN 45500' },
  'speed-error': { good: 0.3, bad: 1, sense: 'below', source: 'good: common practice; bad: DIN 45500 allows −1 %' },
  'wow-flutter-weighted': { good: 0.1, bad: 0.2, sense: 'below', source: 'good: common practice; bad: DIN 45500' },
  eccentricity: {
    good: 0.2,
    bad: 0.5,
    sense: 'below',
    source: 'good: IEC 98:1987 hole to groove; bad: common practice',
  },
  'rumble-unweighted': { good: 40, bad: 35, sense: 'above', source: 'good: ČSN 36 8401; bad: DIN 45500' },
  'rumble-weighted': { good: 55, bad: 50, sense: 'above', source: 'good: common practice; bad: DIN 45500' },
};

/** Bands rather than limits, Hz: good inside the first, bad outside the second. Common practice. */
const RESONANCE_BAND = { good: [8, 12], bad: [6, 15] } as const;

function judgeResonance(hz: number): Verdict {
  if (RESONANCE_BAND.good[0] <= hz && hz <= RESONANCE_BAND.good[1]) return 'good';
  return RESONANCE_BAND.bad[0] <= hz && hz <= RESONANCE_BAND.bad[1] ? 'adjust' : 'bad';
}

function judgeNumber(value: number, limit: Limit): Verdict {
  const size = Math.abs(value);
  if (limit.sense === 'below') return size <= limit.good ? 'good' : size <= limit.bad ? 'adjust' : 'bad';
  return value >= limit.good ? 'good' : value >= limit.bad ? 'adjust' : 'bad';
}

/** The verdict on one finding. Text findings are judged by their word; what has no limit is for information. */
export function verdictOn(finding: Finding, limits: Limits = DEFAULT_LIMITS): Verdict {
  const { quantity, value } = finding;
  if (typeof value === 'string') {
    if (value === 'in-phase' || value === 'normal') return 'good';
    return value === 'antiphase' || value === 'swapped' ? 'bad' : 'info';
  }
  if (quantity === 'arm-resonance-lateral' || quantity === 'arm-resonance-vertical') return judgeResonance(value);
  const limit = Object.hasOwn(limits, quantity) ? limits[quantity] : undefined;
  return limit === undefined ? 'info' : judgeNumber(value, limit);
}

/** Adds the verdict, and says so where the limit lies inside the figure's uncertainty. */
export function judge(finding: Finding, limits: Limits = DEFAULT_LIMITS): JudgedFinding {
  const verdict = verdictOn(finding, limits);
  const limit = Object.hasOwn(limits, finding.quantity) ? limits[finding.quantity] : undefined;
  if (limit === undefined || typeof finding.value !== 'number' || finding.uncertainty === null) {
    return toldFinding(finding, verdict);
  }
  const near = [limit.good, limit.bad].find(
    (edge) => Math.abs(Math.abs(finding.value as number) - edge) < (finding.uncertainty as number),
  );
  const notes =
    near === undefined
      ? finding.notes
      : [...finding.notes, statement('limit-within', { limit: near, unit: finding.unit })];
  return toldFinding({ ...finding, notes }, verdict);
}
