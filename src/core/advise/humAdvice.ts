/**
 * Hum → where it comes in and what usually causes it, told by which state and which channel it stands in and by which of its lines are strong.
 * Common practice of the bench; each is a thing to try, not a finding.
 */
import type { Finding } from '../measure/finding.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, toldAdvice } from './document.ts';
import { type Limits, verdictOn } from './limits.ts';

/** one state hums louder than another, one channel than the other, dB */
const LOUDER_DB = 3;
const ONE_CHANNEL_DB = 10;
/** a fundamental with less than this share of the power: a buzz, %. */
const BUZZ_PERCENT = 40;

type Place = 'hum' | 'hum-tip-up' | 'hum-motor-off';

/** @param findings of the deck */
export function adviseHum(findings: readonly Finding[], limits: Limits): Advice[] {
  const worst = (place: Place): Finding | null =>
    findings
      .filter((f) => f.quantity === place && f.high !== null)
      .reduce<Finding | null>((a, b) => (a === null || (b.value as number) < (a.value as number) ? b : a), null);
  const air = worst('hum-tip-up');
  const groove = worst('hum');
  const loud = [air, groove].filter(
    (f): f is Finding => f !== null && ['adjust', 'bad'].includes(verdictOn(f, limits)),
  );
  const [first] = loud.sort((a, b) => (a.value as number) - (b.value as number));
  if (first === undefined) return [];
  const level = (f: Finding | null): number => (f === null ? Number.POSITIVE_INFINITY : (f.value as number));
  const reasons: Statement[] = [statement('hum-loud', { level: first.value as number })];
  const isHeardUp = findings.some((f) => f.quantity === 'hum-tip-up');
  const off = findings.filter((f) => f.quantity === 'hum-motor-off').map((f) => f.value as number);
  if (isHeardUp && level(air) - level(groove) > LOUDER_DB) {
    reasons.push(statement('hum-through-groove'));
  } else {
    if (off.length > 0 && Math.min(...off) - level(air) > LOUDER_DB) reasons.push(statement('hum-of-motor'));
    reasons.push(electrical(findings, first));
    if (!isHeardUp) reasons.push(statement('hum-try-tip-up'));
  }
  return [
    toldAdvice({
      action: 'hum',
      amount: null,
      unit: '',
      direction: null,
      predicts: [],
      reasons,
      cautions: [statement('hum-caution')],
    }),
  ];
}

/** One channel, or both; a clean fundamental, or a buzz. */
function electrical(findings: readonly Finding[], loudest: Finding): Statement {
  const of = (channel: 'left' | 'right'): number | undefined =>
    findings.find((f) => f.quantity === loudest.quantity && f.channel === channel)?.value as number | undefined;
  const [left, right] = [of('left'), of('right')];
  if (left !== undefined && right !== undefined && Math.abs(left - right) > ONE_CHANNEL_DB) {
    return statement('hum-one-channel', { channel: left < right ? 'left' : 'right' });
  }
  return statement(isBuzz(loudest) ? 'hum-buzz' : 'hum-both');
}

/** The strongest line is a multiple, or the power is spread over many. */
function isBuzz({ notes }: Finding): boolean {
  const family = notes.find(({ code }) => code === 'hum-family')?.values;
  if (family === undefined) return false;
  const { hz, strongestHz, percent } = family as Record<string, number>;
  return strongestHz > 1.5 * hz || percent < BUZZ_PERCENT;
}
