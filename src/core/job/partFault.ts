/** What is wrong with a part that was read: where, what was found, what was expected. */

import { shortJson } from '../units/shortJson.ts';
import { typedQuantity } from '../units/typedQuantity.ts';
import { isObject } from './json.ts';
import { fieldsOf, type PartField, type PartKind, partKinds } from './partFields.ts';
import { type Part, partSchemaOf } from './parts.ts';

export interface PartFault {
  /** counted from 1: the line's number in a CSV (its header is row 1), the part's place in a JSON list; null: the whole text */
  readonly row: number | null;
  /** the field; null: the whole row */
  readonly column: string | null;
  readonly found: string;
  readonly expected: string;
}

export interface PartsRead {
  readonly parts: readonly Part[];
  /** empty when everything was read; nothing is taken from a text that has faults */
  readonly faults: readonly PartFault[];
}

/** One sentence: "row 3, effectiveMassG: found 'heavy', expected a number from 0.5 to 300 g". */
export function faultSentence({ row, column, found, expected }: PartFault): string {
  const place = [row === null ? '' : `row ${row}`, column ?? ''].filter((text) => text !== '').join(', ');
  return `${place === '' ? '' : `${place}: `}found ${found}, expected ${expected}`;
}

export const quoted = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  if (typeof value !== 'string') return shortJson(value) ?? 'nothing';
  const text = `'${value}'`;
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
};

/** "a number from 0.5 to 300 g", "one of static, 10hz, 100hz", "text". */
export function expectedOf(field: PartField): string {
  if (field.type === 'choice') return `one of ${field.options.join(', ')}`;
  if (field.type === 'text') return 'text';
  if (field.type === 'response')
    return 'a response as CSV with the columns frequency_hz and db, or frequency_hz, left_db and right_db';
  return `a number from ${field.min} to ${field.max}${field.unit === '' ? '' : ` ${field.unit}`}`;
}

const ordinary: Readonly<Record<string, string>> = {
  schema: '1',
  name: 'a name of 1 to 200 characters',
  note: 'text of 1 to 20000 characters',
  marked: 'one of demo, common-practice',
  asTyped: 'the text as typed for each number',
};

export type PartChecked =
  | { readonly found: true; readonly part: Part }
  | { readonly found: false; readonly faults: readonly PartFault[] };

/** Checks one part against the schema of its kind, and says in words what does not fit. */
export function checkPart(value: unknown, row: number | null): PartChecked {
  const fault = (column: string | null, found: string, expected: string): PartChecked => ({
    found: false,
    faults: [{ row, column, found, expected }],
  });
  if (!isObject(value)) return fault(null, quoted(value), 'a part, an object with kind and name');
  const { kind } = value;
  if (!(typeof kind === 'string' && (partKinds as readonly string[]).includes(kind))) {
    return fault('kind', quoted(kind), `one of ${partKinds.join(', ')}`);
  }
  const fields = fieldsOf(kind as PartKind);
  const checked = partSchemaOf(kind as PartKind).safeParse(value);
  if (checked.success) {
    for (const [name, text] of Object.entries(checked.data.asTyped ?? {})) {
      const field = Object.hasOwn(fields, name) ? fields[name] : undefined;
      if (field?.type !== 'number') return fault('asTyped', quoted(name), `the name of a number of this ${kind}`);
      const typed = typedQuantity(text, field.unit);
      if (!(typed.found && typed.value === value[name])) {
        return fault('asTyped', `${name} ${quoted(text)}`, `text that means ${quoted(value[name])}`);
      }
    }
    return { found: true, part: checked.data as Part };
  }
  const faults = checked.error.issues.flatMap((issue): PartFault[] => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({
        row,
        column: key,
        found: `a field that no ${kind} has`,
        expected: `one of ${['name', 'note', ...Object.keys(fields)].join(', ')}`,
      }));
    }
    const column = String(issue.path[0] ?? '');
    const expected = Object.hasOwn(fields, column) ? expectedOf(fields[column]) : (ordinary[column] ?? issue.message);
    return [{ row, column: column === '' ? null : column, found: quoted(value[column]), expected }];
  });
  return { found: false, faults };
}
