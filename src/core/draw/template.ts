/** What is printed on a template, and what it returns. */
import { type ArmFigures, usualLoudness } from '../geometry/distortion.ts';
import type { GrooveSpan } from '../geometry/span.ts';
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

const two = (value: number): string => value.toFixed(2);

/** The numbers that a template was drawn for. */
export function templateNumbers({
  figures,
  span,
  criterion,
  rpm = usualLoudness.rpm,
}: TemplateRequest): readonly string[] {
  const nulls = figures.nullPointsMm.map(two).join(' and ');
  return [
    `Drawn for: ${criterion}. Grooves from ${span.inner} to ${span.outer} mm radius (${span.name}).`,
    [
      figures.spindleToPivotMm === null ? '' : `Spindle to pivot ${two(figures.spindleToPivotMm)} mm,`,
      figures.effectiveLengthMm === null ? '' : `effective length ${two(figures.effectiveLengthMm)} mm,`,
      `overhang ${two(figures.overhangMm)} mm, offset ${two(figures.offsetDeg)}°.`,
      `Null points at ${nulls} mm.`,
      `Second harmonic at most ${two(figures.peakDistortionPercent)} % for 10 cm/s peak lateral at ${speedWords(rpm)} rpm.`,
    ]
      .filter((part) => part !== '')
      .join(' '),
  ];
}
