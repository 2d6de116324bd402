/** What was done to the deck, each as one line with what it should bring and what came. */

import { mainReason } from '../core/advise/document.ts';
import { countingAdvice } from '../core/job/adviceHistory.ts';
import type { Job, PredictionCheck } from '../core/job/api.ts';
import { type MoveTold, movesMade } from '../core/job/movesMade.ts';
import { fittedKindWords } from '../core/job/recordingWords.ts';
import { stationTitles } from '../core/job/station.ts';
import type { JobTyped } from '../core/job/stations/stationModel.ts';
import { capital } from '../core/words/capital.ts';
import { shownFigure } from '../core/words/figure.ts';
import { isSigned, quantityTitle } from '../core/words/quantities.ts';
import { cameWords } from '../core/words/report.ts';
import { say, statement } from '../core/words/statement.ts';

/** "predicted 27.9 dB, measured 27.95 ± 0.15 dB ✓ as predicted", one a figure. */
export interface Came {
  readonly name: string;
  readonly predicted: string;
  /** null: not measured again */
  readonly measured: string | null;
  readonly came: string | null;
}

export const cameOf = ({ foretold, checks }: Pick<MoveTold, 'foretold' | 'checks'>): Came[] =>
  foretold.map(({ quantity, value, unit }) => {
    const check = checks.find((one) => one.quantity === quantity);
    const measured = check?.measured ?? null;
    return {
      name: quantityTitle(quantity),
      predicted: shownFigure(Number(value.toFixed(2)), unit, null, isSigned(quantity)),
      measured: check === undefined || measured === null ? null : measuredText(measured, check),
      came: check === undefined || measured === null ? null : cameWords[check.came],
    };
  });

/** Without an uncertainty of the deck it is what this record showed, and told so. */
function measuredText(measured: number, { unit, uncertainty }: PredictionCheck): string {
  const text = shownFigure(measured, unit, uncertainty);
  return uncertainty === null ? say(statement('read-with-record', { text })) : text;
}

export interface WorkLine {
  /** ISO time */
  readonly at: string;
  readonly text: string;
  readonly came: readonly Came[];
}

/** Fittings, moves and advice that was not followed, oldest first. */
export function workDone(job: Job, typed: JobTyped): readonly WorkLine[] {
  const advice = countingAdvice(job);
  const fittings = job.fittings.map(({ at, kind, name, was }) => {
    const what = capital(fittedKindWords[kind]);
    const told =
      was === ''
        ? statement('was-fitted', { kind: what, name })
        : statement('was-fitted-for', { kind: what, name, was });
    return { at, text: say(told), came: [] };
  });
  const moves = movesMade(typed, advice).map((move) => ({
    at: move.at,
    text: `${stationTitles[move.station].title}: ${move.did}.`,
    came: cameOf(move),
  }));
  const left = advice
    .filter(({ advice, outcome }) => outcome.did === 'not-done' && !advice.action.startsWith('leave-'))
    .map(({ advice, outcome, givenAt }) => ({
      at: outcome.at ?? givenAt,
      text: say(statement('advice-not-done', { why: mainReason(advice) })),
      came: [],
    }));
  return [...fittings, ...moves, ...left].sort((a, b) => a.at.localeCompare(b.at));
}
