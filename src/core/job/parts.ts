/** A part that a person keeps: deck, arm, cartridge, preamp, cable, headshell, counterweight or set of hardware. */
import { z } from 'zod';
import { parseResponse } from '../measure/responseCsv.ts';
import { wordsWithin } from './fields/wording.ts';
import {
  type ChoiceField,
  fieldsOf,
  type NumberField,
  type PartField,
  type PartKind,
  type partFields,
  partKinds,
  partWordings,
} from './partFields.ts';

export { type PartKind, partKinds } from './partFields.ts';

type ValueOf<Field> = Field extends NumberField ? number : Field extends ChoiceField<infer Option> ? Option : string;

/**
 * The written specification of one part. `asTyped` keeps the person's own text of a number where it says more than the
 * number does (`1.50`, `1.8 g`); `marked` tells invented demo parts and typical classes from the person's own.
 */
export type PartOf<Kind extends PartKind> = {
  readonly schema: 1;
  readonly kind: Kind;
  readonly name: string;
  readonly note?: string;
  readonly marked?: 'demo' | 'common-practice';
  readonly asTyped?: Readonly<Record<string, string>>;
} & { readonly [Name in keyof (typeof partFields)[Kind]]?: ValueOf<(typeof partFields)[Kind][Name]> };

export type Part = { [Kind in PartKind]: PartOf<Kind> }[PartKind];

/** characters of a response's CSV: 2000 rows of three figures and more */
export const LONGEST_RESPONSE = 100_000;
const response = z
  .string()
  .max(LONGEST_RESPONSE)
  .refine((csv) => parseResponse(csv, '').ok, 'a response as CSV');

function fieldSchema(field: PartField): z.ZodType {
  if (field.type === 'response') return response;
  if (field.type === 'choice') return z.enum(field.options as [string, ...string[]]);
  if (field.type === 'text') return wordsWithin(field).min(1);
  return z.number().min(field.min).max(field.max);
}

function kindSchema(kind: PartKind) {
  const fields = Object.entries(fieldsOf(kind)).map(([name, field]) => [name, fieldSchema(field).optional()] as const);
  return z.strictObject({
    schema: z.literal(1),
    kind: z.literal(kind),
    name: z
      .string()
      .max(partWordings.name.most)
      .refine((name) => name.trim() !== '', 'a name'),
    note: wordsWithin(partWordings.note).min(1).optional(),
    marked: z.enum(['demo', 'common-practice']).optional(),
    asTyped: z.record(z.string(), z.string().max(200)).optional(),
    ...Object.fromEntries(fields),
  });
}

const schemas = Object.fromEntries(partKinds.map((kind) => [kind, kindSchema(kind)])) as unknown as {
  readonly [Kind in PartKind]: z.ZodType<PartOf<Kind>>;
};

/** Schema of one kind of part. */
export const partSchemaOf = <Kind extends PartKind>(kind: Kind): z.ZodType<PartOf<Kind>> =>
  schemas[kind] as z.ZodType<PartOf<Kind>>;
