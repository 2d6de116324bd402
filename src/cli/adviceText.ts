/** Findings and advice as a readable page for a terminal. */
import type { Advice, JudgedFinding, Verdict } from '../core/advise/document.ts';
import { whyLeft } from '../core/advise/turn.ts';
import type { Problem } from '../core/capture/problem.ts';
import { shownProblems } from '../core/capture/shownProblems.ts';
import { HARMONICS, type HarmonicLine, harmonicLines, harmonicTitles } from '../core/job/harmonicLines.ts';
import { shownFigure, unitSign } from '../core/words/figure.ts';
import { figureLines } from '../core/words/figureLines.ts';
import { showNumber } from '../core/words/number.ts';
import { quantityTitle } from '../core/words/quantities.ts';

const COLOUR: Record<Verdict | 'error' | 'warning' | 'note', string> = {
  good: '32',
  adjust: '33',
  bad: '31',
  undecided: '35',
  info: '2',
  error: '31',
  warning: '33',
  note: '2',
};

function paint(text: string, kind: keyof typeof COLOUR, colour: boolean): string {
  return colour ? `\u001b[${COLOUR[kind]}m${text}\u001b[0m` : text;
}

/** "Second harmonic, left, band 2": bands counted from one; those of a figure for the whole side are not listed. */
function nameOf({ quantity, channel, bands }: JudgedFinding): string {
  const band = bands.length === 1 ? [`band ${bands[0] + 1}`] : [];
  return [quantityTitle(quantity), ...(channel === undefined ? [] : [channel]), ...band].join(', ');
}

/** Actions and directions of the documents, as a person says them. */
const ACTIONS: Readonly<Record<string, string>> = {
  tilt: 'turn the cartridge',
  'trial-tilt': 'turn the cartridge, as a trial',
  'leave-tilt': 'leave the tilt',
  speed: "set the deck's speed",
  'reverse-one-channel': 'exchange the two leads of one channel',
  'swap-channels': 'exchange left and right',
  'set-skating': 'set the anti-skating',
  'set-force': 'set the tracking force',
};
const DIRECTIONS: Readonly<Record<string, string>> = {
  'clockwise-from-front': 'clockwise, seen from its face',
  'anticlockwise-from-front': 'anticlockwise, seen from its face',
};
const said = (words: Readonly<Record<string, string>>, name: string): string =>
  Object.hasOwn(words, name) ? words[name] : name.replaceAll('-', ' ');

export function findingsText(findings: readonly JudgedFinding[], colour: boolean): string {
  const { lines, note, rest } = harmonicLines(findings);
  const rows = rest.map((finding) => {
    const [figure, record] = figureLines(finding);
    return { name: nameOf(finding), figure, record, finding };
  });
  const width = Math.max(0, ...rows.map((row) => row.name.length));
  const figureWidth = Math.max(0, ...rows.map((row) => row.figure.length));
  const plain = rows
    .map(({ name, figure, record, finding }) => {
      const verdict = paint(finding.verdict.padEnd(9), finding.verdict, colour);
      const said = [record === null ? '' : `${record}.`, finding.decidedBy ?? '', finding.note].filter((s) => s !== '');
      return `  ${name.padEnd(width)}  ${figure.padStart(figureWidth)}  ${verdict}  ${said.join(' ')}`.trimEnd();
    })
    .join('\n');
  if (lines.length === 0) return plain;
  return [plain, ...lines.map(harmonicText), `  Harmonics: ${note}`].filter((line) => line !== '').join('\n');
}

/** "Harmonics, band 2, left: second 0.036 ± 0.001 %, …" */
function harmonicText({ band, channel, figures }: HarmonicLine): string {
  const said = HARMONICS.flatMap((name) => {
    const finding = figures[name];
    if (finding === undefined) return [];
    return [`${harmonicTitles[name]} ${shownFigure(finding.value, finding.unit, finding.uncertainty)}`];
  });
  const where = [`band ${band + 1}`, ...(channel === undefined ? [] : [channel])].join(', ');
  return `  Harmonics, ${where}: ${said.join(', ')}`;
}

export function adviceText(advice: readonly Advice[]): string {
  return advice
    .map((move) => {
      const amount =
        move.amount === null
          ? said(ACTIONS, move.action)
          : `${said(ACTIONS, move.action)}: ${shownFigure(move.amount, move.unit, move.uncertainty ?? null)} ${said(DIRECTIONS, move.direction ?? '')}`;
      const predicts = move.predicts
        .map((p) => `${quantityTitle(p.quantity)} ${showNumber(p.value, p.unit === '%' ? 2 : 1)} ${unitSign(p.unit)}`)
        .join('; ');
      return [
        `  ${amount.trimEnd()}`,
        `    ${move.action === 'leave-tilt' ? whyLeft(move) : move.why}`,
        ...(predicts === '' ? [] : [`    then: ${predicts}`]),
        ...(move.caution === undefined ? [] : [`    caution: ${move.caution}`]),
      ].join('\n');
    })
    .join('\n');
}

function whenOf({ startS, endS }: Problem): string {
  if (startS === undefined) return '';
  const [start, end] = [startS.toFixed(1), (endS ?? startS).toFixed(1)];
  return start === end ? ` (at ${start} s)` : ` (${start} to ${end} s)`;
}

export function problemsText(problems: readonly Problem[], colour: boolean): string {
  return shownProblems(problems)
    .map(({ problem, more, lastS }) => {
      const when = whenOf(problem);
      const rest =
        more === 0
          ? ''
          : `\n    and ${more} more like it${lastS === null ? '' : `, the last until ${lastS.toFixed(1)} s`}`;
      return `  ${paint(problem.severity, problem.severity, colour)}: ${problem.message}${when}${rest}`;
    })
    .join('\n');
}
