/** Response over stated spans as people read it: a line for each span instead of three findings, whose span it is beside it. */
import type { JudgedFinding } from '../advise/document.ts';
import { quantityTitle } from '../words/quantities.ts';
import { sayAll } from '../words/statement.ts';

export interface SpanLine {
  /** e.g. "100 Hz to 10 kHz" */
  readonly span: string;
  /** which bands they were read from, 0 the first */
  readonly bands: readonly number[];
  readonly left?: JudgedFinding;
  readonly right?: JudgedFinding;
  readonly difference?: JudgedFinding;
  /** whose span it is */
  readonly whose: string;
}

export interface SpansApart {
  readonly spans: readonly SpanLine[];
  /** all other findings, in their order */
  readonly rest: readonly JudgedFinding[];
}

const OVER_A_SPAN = /^(frequency-response-deviation|channel-difference)-\d+-\d+$/;
const WHOSE = ['span-by-din', 'span-by-house'];

/** @checked spanLines.test.ts */
export function spanLines(findings: readonly JudgedFinding[]): SpansApart {
  const spans = new Map<string, SpanLine>();
  const rest: JudgedFinding[] = [];
  for (const finding of findings) {
    const { quantity, channel, bands, notes = [] } = finding;
    const span = quantityTitle(quantity).split(', ').at(-1) ?? '';
    const key = `${span} ${bands.join(' ')}`;
    const column = quantity.startsWith('channel-difference') ? 'difference' : channel;
    const line = spans.get(key) ?? { span, bands, whose: sayAll(notes.filter(({ code }) => WHOSE.includes(code))) };
    if (!OVER_A_SPAN.test(quantity) || column === undefined || line[column] !== undefined) rest.push(finding);
    else spans.set(key, { ...line, [column]: finding });
  }
  return { spans: [...spans.values()], rest };
}
