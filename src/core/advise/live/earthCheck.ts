/**
 * Which earth joint is bad: the hum with nothing touched, and with a hand on each metal part in turn.
 *
 * A part that is earthed takes no notice of a hand. One whose metal floats does: the body shunts its hum away, or adds to it. Along
 * the arm's wire headshell → tube → earth terminal → preamp the bad joint lies just past the last part that takes notice.
 * Common practice of the bench; 3 dB is a house figure.
 *
 * @checked earthCheck.test.ts
 */
import { type Statement, statement } from '../../words/statement.ts';

/** from the preamp outwards, the chassis last */
export const TOUCHED_PARTS = ['arm-earth', 'arm', 'headshell', 'chassis'] as const;
export type TouchedPart = (typeof TOUCHED_PARTS)[number];

/** one second of hum */
interface Second {
  readonly db: number;
  readonly spreadDb: number;
  readonly rises: boolean;
}

export interface HumLevel {
  /** dB under a full-scale sine */
  readonly db: number;
  /** dB, k = 2: what the seconds scatter, or their own, whichever is more */
  readonly uncertaintyDb: number;
  readonly rises: boolean;
}

/** dB: a hand changes so much at least, and more than both uncertainties */
const CHANGES_DB = 3;
/** Student's factor of 95 % for 2 and 3 seconds, then near enough to 2 */
const STUDENT = [12.7, 4.3, 3.2, 2.8];

/** @param seconds two or more @throws RangeError for fewer */
export function humLevel(seconds: readonly Second[]): HumLevel {
  const n = seconds.length;
  if (!(n >= 2)) throw new RangeError(`seconds: ${n} given, expected 2 or more`);
  const db = seconds.reduce((sum, one) => sum + one.db, 0) / n;
  const scatter = Math.sqrt(seconds.reduce((sum, one) => sum + (one.db - db) ** 2, 0) / (n - 1) / n);
  const own = Math.sqrt(seconds.reduce((sum, one) => sum + one.spreadDb ** 2, 0)) / n;
  const factor = STUDENT[n - 2] ?? 2.5;
  return { db, uncertaintyDb: Math.max(factor * scatter, 2 * own), rises: seconds.some(({ rises }) => rises) };
}

/** Hum with a hand on it less hum without, dB, with k = 2. */
export function humChange(free: HumLevel, touched: HumLevel): { readonly db: number; readonly uncertaintyDb: number } {
  return { db: touched.db - free.db, uncertaintyDb: Math.hypot(free.uncertaintyDb, touched.uncertaintyDb) };
}

/** of the last part that takes notice */
const JOINT = {
  'arm-earth': 'earth-joint-arm-earth',
  arm: 'earth-joint-arm',
  headshell: 'earth-joint-headshell',
  chassis: 'earth-joint-chassis',
} as const;

const takesNotice = (free: HumLevel, touched: HumLevel): boolean => {
  const { db, uncertaintyDb } = humChange(free, touched);
  return Math.abs(db) >= Math.max(CHANGES_DB, uncertaintyDb);
};

/** @param touched the parts that were tried @returns one sentence */
export function earthVerdict(free: HumLevel, touched: Readonly<Partial<Record<TouchedPart, HumLevel>>>): Statement {
  if (!free.rises) return statement('earth-no-hum', { db: free.db });
  const notices = TOUCHED_PARTS.filter((part) => {
    const level = touched[part];
    return level !== undefined && takesNotice(free, level);
  });
  const left = TOUCHED_PARTS.filter((part) => touched[part] === undefined);
  const [first] = notices;
  // nearer to the preamp nothing may be left untried
  const isSure =
    first !== undefined && !left.some((part) => TOUCHED_PARTS.indexOf(part) < TOUCHED_PARTS.indexOf(first));
  if (isSure) return statement(JOINT[first]);
  return statement(left.length > 0 ? 'earth-go-on' : 'earth-all-joined');
}
