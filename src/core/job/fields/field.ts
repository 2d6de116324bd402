/** A field for a figure, declared once: page, command line, library and report read and name it from this. */
import type { BenchBound } from '../../units/benchBounds.ts';

export interface QuantityBounds {
  /** the unit that the figure is kept in; others are taken too and turned into it (core/units/typedQuantity.ts) */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  /** its own ± may stand behind the figure: `222 ± 0.5 mm` */
  readonly spread?: boolean;
}

export interface Field extends QuantityBounds {
  readonly label: string;
  /** what is meant, at most eight words */
  readonly help?: string;
  /** what is used while nothing is typed, and in words where it comes from */
  readonly usual?: { readonly value: number; readonly from: string };
}

/** Fields by name, in the order in which they are shown. */
export type Fields<Name extends string = string> = Readonly<Record<Name, Field>>;

/** A declaration: label, unit with bounds, help. */
export const fieldOf = (label: string, { unit, min, max }: BenchBound, help?: string): Field => ({
  label,
  unit,
  min,
  max,
  ...(help === undefined ? {} : { help }),
});
