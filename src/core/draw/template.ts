/** What is printed on a template, and what it returns. */

import { type ArmFigures, usualLoudness } from '../geometry/distortion.ts';
import type { GrooveSpan } from '../geometry/span.ts';
import { say, sayAll, statement } from '../words/statement.ts';
import type { Crossing } from './grid.ts';
import { type PaperName, speedWords } from './paper.ts';
import type { Drawing } from './shape.ts';

export interface TemplateRequest {
  readonly figures: ArmFigures;
  readonly span: GrooveSpan;
  /** what the arm was solved for, in words: `Löfgren A: equal peaks` */
  readonly criterion: string;
  /** speed that the distortion holds for, rpm; 33⅓ where left out */
  readonly rpm?: number;
  readonly paper: PaperName;
  /** what the printer made of 100 mm, across and down the paper; null where not measured */
  readonly measured: readonly [number, number] | null;
}

/** A place on one of the sheets, mm, as drawn (before the printer's scale is taken out). */
export interface Place {
  readonly sheet: number;
  readonly x: number;
  readonly y: number;
}

export interface Template {
  readonly sheets: readonly Drawing[];
  readonly spindle: Place;
  readonly pivot: Place | null;
  readonly points: readonly (Place & { readonly radius: number; readonly crossing: Crossing })[];
}

/** @param count of null points on the sheet @param i from the inner one */
export const pointName = (i: number, count: number): string =>
  say(statement(count === 1 ? 'null-point' : i === 0 ? 'null-point-inner-at' : 'null-point-outer-at'));

/** The numbers that a template was drawn for. */
export function templateNumbers({
  figures,
  span,
  criterion,
  rpm = usualLoudness.rpm,
}: TemplateRequest): readonly string[] {
  const { spindleToPivotMm: pivotMm, effectiveLengthMm: lengthMm, overhangMm, offsetDeg } = figures;
  const [innerMm, outerMm] = figures.nullPointsMm;
  return [
    say(statement('drawn-for', { criterion, innerMm: span.inner, outerMm: span.outer, span: span.name })),
    sayAll([
      pivotMm === null || lengthMm === null
        ? statement('drawn-tangential', { overhangMm, offsetDeg })
        : statement('drawn-arm', { pivotMm, lengthMm, overhangMm, offsetDeg }),
      ...(innerMm === undefined
        ? []
        : outerMm === undefined
          ? [statement('drawn-null', { mm: innerMm })]
          : [statement('drawn-nulls', { innerMm, outerMm })]),
      statement('drawn-harmonic', { percent: figures.peakDistortionPercent, speed: speedWords(rpm) }),
    ]),
  ];
}
