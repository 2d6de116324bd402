/** Findings and advice as a readable page for a terminal. */
import type { Advice, JudgedFinding, Verdict } from '../core/advise/document.ts';
import type { Problem } from '../core/capture/problem.ts';
import { shownFigure } from '../core/job/shownFigure.ts';
import { fixed } from './numbers.ts';

const COLOUR: Record<Verdict | 'error' | 'warning' | 'note', string> = {
  good: '32',
  adjust: '33',
  bad: '31',
  info: '2',
  error: '31',
  warning: '33',
  note: '2',
};

export function paint(text: string, kind: keyof typeof COLOUR, colour: boolean): string {
  return colour ? `\u001b[${COLOUR[kind]}m${text}\u001b[0m` : text;
}

export function findingsText(findings: readonly JudgedFinding[], colour: boolean): string {
  const rows = findings.map((finding) => ({
    name: finding.channel === undefined ? finding.quantity : `${finding.quantity} (${finding.channel})`,
    figure: shownFigure(finding.value, finding.unit, finding.uncertainty),
    finding,
  }));
  const width = Math.max(0, ...rows.map((row) => row.name.length));
  const figureWidth = Math.max(0, ...rows.map((row) => row.figure.length));
  return rows
    .map(({ name, figure, finding }) => {
      const verdict = paint(finding.verdict.padEnd(6), finding.verdict, colour);
      return `  ${name.padEnd(width)}  ${figure.padStart(figureWidth)}  ${verdict}  ${finding.note}`.trimEnd();
    })
    .join('\n');
}

export function adviceText(advice: readonly Advice[]): string {
  return advice
    .map((move) => {
      const amount =
        move.amount === null
          ? move.action
          : `${move.action}: ${shownFigure(move.amount, move.unit, move.uncertainty ?? null)} ${move.direction ?? ''}`;
      const predicts = move.predicts.map((p) => `${p.quantity} ${fixed(p.value, 1)} ${p.unit}`).join(', ');
      return [
        `  ${amount.trimEnd()}`,
        `    ${move.why}`,
        ...(predicts === '' ? [] : [`    then: ${predicts}`]),
        ...(move.caution === undefined ? [] : [`    caution: ${move.caution}`]),
      ].join('\n');
    })
    .join('\n');
}

export function problemsText(problems: readonly Problem[], colour: boolean): string {
  return problems
    .map((problem) => {
      const when =
        problem.startS === undefined
          ? ''
          : ` (${problem.startS.toFixed(1)}${problem.endS === undefined ? '' : ` to ${problem.endS.toFixed(1)}`} s)`;
      return `  ${paint(problem.severity, problem.severity, colour)}: ${problem.message}${when}`;
    })
    .join('\n');
}
