/**
 * Which wall gives way first → anti-skating up or down; both too early → force up. What it should bring is foretold, so that the next
 * pass can say whether it came.
 *
 * A tip of force F with a side force S towards the spindle presses the inner wall (left) with (F + S)/√2 and the outer with (F − S)/√2, and what a
 * wall can accelerate is in proportion to what presses on it:
 *
 *   v_left / v_right = (F + S)/(F − S)      S/F = (v_left − v_right)/(v_left + v_right)
 *
 * Anti-skating that takes S away brings both to (v_left + v_right)/2; force that is raised by a share raises both by it.
 *
 * @checked trackingAdvice.test.ts, test/loops/tracking.test.ts
 */
import type { Finding } from '../measure/finding.ts';
import { type Statement, statement } from '../words/statement.ts';
import { type Advice, toldAdvice } from './document.ts';
import { FRICTION } from './matchLimits.ts';

/** mm of lateral groove amplitude that a sound cartridge tracks near 300 Hz; common practice, from memory */
const WANTED_MM = 0.06;
/** Hz, where an amplitude says what is wanted */
const WANTED_FROM_HZ = 200;
const WANTED_TO_HZ = 500;
/** of the force: makers' ranges seldom allow more. House guess */
const MOST_MORE = 0.2;
/** between the arm's line and the groove, usually */
const USUAL_THETA = (23 * Math.PI) / 180;

/** cm/s; infinite where a wall was tracked throughout */
interface Wall {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly uncertainty: number;
}

function wallOf(finding: Finding | undefined): Wall | null {
  if (finding === undefined || typeof finding.value !== 'number' || finding.low === undefined) return null;
  const { value, low, high, uncertainty } = finding;
  return { value, low, high: high ?? Number.POSITIVE_INFINITY, uncertainty: uncertainty ?? 0 };
}

const share = (left: number, right: number): number =>
  left === Number.POSITIVE_INFINITY ? 1 : right === Number.POSITIVE_INFINITY ? -1 : (left - right) / (left + right);

/** @param findings of the deck: `tracking-limit` of both walls */
export function adviseTracking(findings: readonly Finding[]): Advice[] {
  const of = (channel: 'left' | 'right'): Finding | undefined =>
    findings.find((f) => f.quantity === 'tracking-limit' && f.channel === channel);
  const [left, right] = [wallOf(of('left')), wallOf(of('right'))];
  const hz = hzOf(of('left'));
  if (left === null || right === null || hz === null) return [];
  const codes = (of('left')?.notes ?? []).map(({ code }) => code);
  if (codes.includes('walls-not-told')) return [];
  const [least, most] = [share(left.low, right.high), share(left.high, right.low)];
  if (least > 0 || most < 0) return [moveSkating(left, right, least, most)];
  const byBursts = codes.includes('left-lost-first') ? 'less' : codes.includes('right-lost-first') ? 'more' : null;
  if (byBursts !== null) return [skating(byBursts, null, null, [], statement('skating-by-bursts'))];
  return moreForce(left, right, hz);
}

/** Of the steps; told in the figure's own note. */
function hzOf(finding: Finding | undefined): number | null {
  const hz = finding?.notes.map(({ values }) => values?.hz).find((value) => typeof value === 'number');
  return typeof hz === 'number' ? hz : null;
}

/** The walls' limits are apart by more than their steps leave open. */
function moveSkating(left: Wall, right: Wall, least: number, most: number): Advice {
  // S inwards positive: the outer wall gives way first
  const way = least > 0 ? 'more' : 'less';
  if (left.high === Number.POSITIVE_INFINITY || right.high === Number.POSITIVE_INFINITY) {
    // how far the better wall reaches nobody heard: at least this
    const bound = Math.min(Math.abs(least), Math.abs(most));
    return skating(way, null, null, [], statement('skating-at-least', { percent: 100 * bound }));
  }
  const at = Math.abs(share(left.value, right.value));
  const within = Math.max(Math.abs(least), Math.abs(most)) - at;
  const both = {
    quantity: 'tracking-limit',
    value: (left.value + right.value) / 2,
    unit: 'cm/s',
    uncertainty: Math.hypot(left.uncertainty, right.uncertainty) / 2,
  };
  const marks = at / (FRICTION.usual * Math.tan(USUAL_THETA));
  const says = statement('skating-by-share', { percent: 100 * at, marks: 100 * marks });
  return skating(way, 100 * at, 100 * within, [both], says);
}

function skating(
  way: 'more' | 'less',
  amount: number | null,
  uncertainty: number | null,
  predicts: Advice['predicts'],
  says: Statement,
): Advice {
  return toldAdvice({
    action: 'set-skating',
    amount,
    unit: amount === null ? '' : '%',
    uncertainty,
    direction: way,
    predicts,
    reasons: [statement(way === 'more' ? 'skating-more' : 'skating-less'), says, statement('tracking-else')],
    cautions: [statement('caution-skating')],
  });
}

/** Both walls give way alike: too early where even the better one does not reach what is usual. */
function moreForce(left: Wall, right: Wall, hz: number): Advice[] {
  if (hz < WANTED_FROM_HZ || hz > WANTED_TO_HZ) return [];
  const wanted = 2 * Math.PI * hz * WANTED_MM * 0.1;
  const high = Math.max(left.high, right.high);
  if (!(high < wanted)) return [];
  const value = (left.value + right.value) / 2;
  const spread = Math.max(left.uncertainty, right.uncertainty);
  const needed = wanted / value - 1;
  const by = Math.min(MOST_MORE, needed);
  const predicted = {
    quantity: 'tracking-limit',
    value: value * (1 + by),
    unit: 'cm/s',
    uncertainty: spread * (1 + by),
  };
  return [
    toldAdvice({
      action: 'set-force',
      amount: 100 * by,
      unit: '%',
      direction: 'more',
      predicts: [predicted],
      reasons: [
        statement('force-more', { percent: 100 * by, wanted, um: 1000 * WANTED_MM, hz }),
        ...(needed > MOST_MORE ? [statement('force-not-enough')] : []),
        statement('tracking-else'),
      ],
      cautions: [statement('caution-force')],
    }),
  ];
}
