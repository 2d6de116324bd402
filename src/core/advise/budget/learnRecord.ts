/**
 * The house record, learned: the same record on n decks tells its own leaks, for the cartridges' own leaks and tilts average out.
 * A record's error is what all decks have in common:
 *
 *   mean over the decks of c = x + d   →   d,   variance of the mean s²/n · (t_{n−1}/2)²
 *
 * Decks further than 3.5 robust spreads from the median are left out (a cartridge mounted askew says little of the record). It
 * assumes that cartridges' own leaks have no phase in common; where they have, that part is taken for the record's.
 *
 * @checked learnRecord.test.ts
 */

import type { ComplexLeaks } from '../../measure/tilt.ts';
import { coverageFactor, median } from '../../signal/robust.ts';
import type { Complex } from '../../units/complex.ts';
import { type Statement, statement } from '../../words/statement.ts';
import { LEAST_DECKS, type LearnedFigure, type LearnedRecord } from './learnedRecord.ts';

/** What one deck, as found, read of the record; what it could not read is left out. */
export interface DeckReading {
  readonly leaks?: ComplexLeaks;
  readonly balanceDb?: number;
  readonly speedPercent?: number;
}

interface ReadFinding {
  readonly quantity: string;
  readonly value: number | string;
  readonly asHeard?: number;
  readonly complex?: Complex;
}

/** The readings that a document's findings hold. */
export function deckReading(findings: readonly ReadFinding[]): DeckReading {
  const of = (quantity: string) => findings.find((f) => f.quantity === quantity);
  const heard = (quantity: string): number | undefined => {
    const finding = of(quantity);
    return finding?.asHeard ?? (typeof finding?.value === 'number' ? finding.value : undefined);
  };
  const leftIntoRight = of('separation-left-to-right')?.complex;
  const rightIntoLeft = of('separation-right-to-left')?.complex;
  const balanceDb = heard('channel-balance');
  const speedPercent = heard('speed-error');
  return {
    ...(leftIntoRight === undefined || rightIntoLeft === undefined ? {} : { leaks: { leftIntoRight, rightIntoLeft } }),
    ...(balanceDb === undefined ? {} : { balanceDb }),
    ...(speedPercent === undefined ? {} : { speedPercent }),
  };
}

const FURTHEST = 3.5;
/** of the normal distribution */
const PER_MEDIAN_DEVIATION = 1.4826;

/** Which of these values belong together. */
function kept(values: readonly number[]): boolean[] {
  const middle = median(values);
  const spread = PER_MEDIAN_DEVIATION * median(values.map((v) => Math.abs(v - middle)));
  return values.map((v) => !(Math.abs(v - middle) > FURTHEST * Math.max(spread, 1e-12)));
}

/** Mean, its variance with Student's t in it (k = 2 then covers), and the spread between decks. */
function meanOf(values: readonly number[]) {
  const n = values.length;
  const mean = values.reduce((sum, v) => sum + v, 0) / n;
  const spread = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (n - 1));
  return { mean, spread, variance: (spread ** 2 / n) * (coverageFactor(n - 1) / 2) ** 2 };
}

function figureOf(values: readonly number[]): LearnedFigure | undefined {
  const is = kept(values);
  const used = values.filter((_, i) => is[i]);
  if (used.length < LEAST_DECKS) return undefined;
  const { mean, spread, variance } = meanOf(used);
  return { mean, uncertainty: 2 * Math.sqrt(variance), spread, decks: used.length };
}

function leaksOf(all: readonly ComplexLeaks[]) {
  const parts: readonly ((leaks: ComplexLeaks) => number)[] = [
    ({ leftIntoRight: a, rightIntoLeft: b }) => (b.re - a.re) / 2,
    ({ leftIntoRight: a, rightIntoLeft: b }) => (b.re + a.re) / 2,
    ({ leftIntoRight }) => leftIntoRight.im,
    ({ rightIntoLeft }) => rightIntoLeft.im,
  ];
  const keeps = parts.map((part) => kept(all.map(part)));
  const used = all.filter((_, i) => keeps.every((keep) => keep[i]));
  if (used.length < LEAST_DECKS) return undefined;
  const [tilt, common, left, right] = parts.map((part) => meanOf(used.map(part)));
  return {
    decks: used.length,
    mean: {
      leftIntoRight: { re: common.mean - tilt.mean, im: left.mean },
      rightIntoLeft: { re: common.mean + tilt.mean, im: right.mean },
    },
    variance: {
      tilt: tilt.variance,
      common: common.variance,
      quadrature: (left.variance + right.variance) / 2,
    },
    spread: {
      tilt: tilt.spread,
      common: common.spread,
      quadrature: Math.sqrt((left.spread ** 2 + right.spread ** 2) / 2),
    },
  };
}

export const tooFew = (decks: number): Statement => statement('learned-too-few', { decks, least: LEAST_DECKS });

/** @param decks one reading of each deck, as found */
export function learnRecord(
  record: LearnedRecord['record'],
  decks: readonly DeckReading[],
): { readonly ok: true; readonly learned: LearnedRecord } | { readonly ok: false; readonly why: Statement } {
  const given = <T>(of: (deck: DeckReading) => T | undefined): T[] => decks.flatMap((deck) => of(deck) ?? []);
  const found = leaksOf(given((d) => d.leaks));
  const balanceDb = figureOf(given((d) => d.balanceDb));
  const speedPercent = figureOf(given((d) => d.speedPercent));
  if (found === undefined && balanceDb === undefined && speedPercent === undefined) {
    return {
      ok: false,
      why: tooFew(decks.length),
    };
  }
  const used = found?.decks ?? Math.max(balanceDb?.decks ?? 0, speedPercent?.decks ?? 0);
  return {
    ok: true,
    learned: {
      schema: 1,
      kind: 'learned-record',
      record,
      decks: used,
      ...(found === undefined ? {} : { leaks: found }),
      ...(balanceDb === undefined ? {} : { balanceDb }),
      ...(speedPercent === undefined ? {} : { speedPercent }),
    },
  };
}
