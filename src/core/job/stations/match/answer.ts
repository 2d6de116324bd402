/** Everything Match answers for what is picked and typed; nothing here is the page's own arithmetic. */

import type { JudgedFinding, SideDocument, Verdict } from '../../../advise/document.ts';
import type { Limits } from '../../../advise/limits.ts';
import { type MatchDocument, matchDocument } from '../../../advise/match.ts';
import type { MatchFigure, MatchInput } from '../../../advise/matchInput.ts';
import { pairOf } from '../../../advise/matchResonance.ts';
import { none } from '../../../words/found.ts';
import { type Statement, say } from '../../../words/statement.ts';
import type { TypicalClass } from '../../typicalClasses.ts';
import { refusal } from '../answer.ts';

export type MatchAnswered =
  | { readonly found: true; readonly document: MatchDocument }
  /** figures that contradict one another */
  | { readonly found: false; readonly why: Statement };

/** @param limits of the job */
export function answerMatch(input: MatchInput, limits?: Limits): MatchAnswered {
  try {
    return { found: true, document: matchDocument({ ...input, limits }) };
  } catch (error) {
    return none(refusal(error));
  }
}

export const findingOf = (document: MatchDocument, quantity: string): JudgedFinding | null =>
  document.findings.find((finding) => finding.quantity === quantity) ?? null;

/** Findings of these names, in this order, those that are there. */
export const findingsOf = (document: MatchDocument, quantities: readonly string[]): readonly JudgedFinding[] =>
  quantities.flatMap((quantity) => findingOf(document, quantity) ?? []);

/** A figure's number; null where it is not there. */
export function numberOf(document: MatchDocument, quantity: string): number | null {
  const value = findingOf(document, quantity)?.value;
  return typeof value === 'number' ? value : null;
}

const overLoad = ['load-peak', 'load-peak-frequency', 'load-deviation-20khz', 'load-corner'];

/** The document as the evidence dialog takes it: what rests on a curve carries that curve under its own name. */
export function evidenceDocument({ findings, advice, problems, curves }: MatchDocument): SideDocument {
  const response = curves.find((curve) => curve.quantity === 'load-response');
  const pull = curves.find((curve) => curve.quantity === 'skating-force');
  const named = [
    ...(response === undefined ? [] : overLoad.map((quantity) => ({ ...response, quantity }))),
    ...(pull === undefined
      ? []
      : ['skating-force-inner', 'skating-force-outer'].map((quantity) => ({ ...pull, quantity }))),
  ];
  return {
    schema: 1,
    capture: { file: '', sampleRateHz: 0, channels: 0, bitDepth: 0, durationS: 0, sha256: null },
    bands: [],
    findings,
    advice,
    problems,
    curves: [...curves, ...named],
  };
}

const weight: Readonly<Record<Verdict, number>> = { info: 0, good: 1, undecided: 2, adjust: 3, bad: 4 };

/** The gravest verdict; `info` where nothing could be judged. */
export const gravest = (findings: readonly JudgedFinding[]): Verdict =>
  findings.reduce<Verdict>((worst, { verdict }) => (weight[verdict] > weight[worst] ? verdict : worst), 'info');

export interface Reason {
  readonly why: string;
  readonly quantities: readonly string[];
}

/** What is withheld, one entry for each reason. */
export function withheldFor({ problems }: Pick<MatchDocument, 'problems'>): readonly Reason[] {
  const byWhy = new Map<string, string[]>();
  for (const { code, quantity, values } of problems) {
    if (code !== 'withheld' || quantity === undefined) continue;
    const why = typeof values?.why === 'object' && values.why !== null ? say(values.why) : '';
    byWhy.set(why, [...(byWhy.get(why) ?? []), quantity]);
  }
  return [...byWhy].map(([why, quantities]) => ({ why, quantities }));
}

/** Where the resonance may lie for any figure within the typical classes in use, Hz; null where none is in use. */
export function resonanceWithinClasses(
  input: MatchInput,
  classes: ReadonlyMap<MatchFigure, TypicalClass>,
): { readonly low: number; readonly high: number } | null {
  const moving = (['effectiveMassG', 'complianceUmPerMn'] as const).filter((figure) => classes.has(figure));
  if (moving.length === 0) return null;
  const corners = moving.reduce<readonly MatchInput[]>(
    (inputs, figure) => {
      const { from, to } = classes.get(figure) as TypicalClass;
      return inputs.flatMap((one) => [from, to].map((value) => ({ ...one, [figure]: value })));
    },
    [input],
  );
  const pairs = corners.map(pairOf);
  const spans = pairs.flatMap((pair) => (pair.found ? [pair.vertical.resonance] : []));
  if (spans.length === 0) return null;
  return { low: Math.min(...spans.map((span) => span.low)), high: Math.max(...spans.map((span) => span.high)) };
}
