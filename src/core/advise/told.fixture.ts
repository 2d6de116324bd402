/** What findings, advice and notes say, short enough to be held whole against a table. */
import type { Statement } from '../words/statement.ts';
import type { Advice, JudgedFinding } from './document.ts';

/** A statement's code with its values: numbers to so many places, texts as they are. */
export const told = ({ code, values }: Statement, places = 4): string =>
  [
    code,
    ...Object.entries(values).map(
      ([name, value]) => `${name}=${typeof value === 'number' ? short(value, places) : shown(value)}`,
    ),
  ].join(' ');

const short = (value: number, places: number): number => Number(value.toFixed(places)) + 0;
const shown = (value: Statement | string | null): string =>
  typeof value === 'string' || value === null ? `${value}` : value.code;

/** `quantity verdict: codes of the notes` */
export const verdicts = (findings: readonly JudgedFinding[]): string[] =>
  findings.map(({ quantity, verdict, notes = [] }) =>
    [`${quantity} ${verdict}`, notes.map(({ code }) => code).join(' ')].join(': ').trim(),
  );

/** `action direction amount unit: codes of the reasons / codes of the cautions` */
export const moves = (advice: readonly Advice[], places = 4): string[] =>
  advice.map(({ action, direction, amount, unit, reasons = [], cautions = [] }) =>
    [
      `${action} ${direction} ${amount === null ? null : short(amount, places)} ${unit}`.trim(),
      `: ${reasons.map(({ code }) => code).join(' ')}`,
      cautions.length === 0 ? '' : ` / ${cautions.map(({ code }) => code).join(' ')}`,
    ].join(''),
  );
