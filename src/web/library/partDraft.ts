/** A part as it is being typed: one text for each field, and the way from and to a part. */

import { readQuantity } from '../../core/job/fields/quantity.ts';
import { checkPart, faultSentence } from '../../core/job/partFault.ts';
import { fieldsOf, type PartKind } from '../../core/job/partFields.ts';
import type { Part } from '../../core/job/parts.ts';
import { typedQuantity } from '../../core/units/typedQuantity.ts';
import { say, statement } from '../../core/words/statement.ts';

export interface PartDraft {
  readonly kind: PartKind;
  /** the part that is changed, as it stands on the shelf; null for a new one */
  readonly from: { readonly id: string; readonly revision: number; readonly part: Part } | null;
  readonly marked?: Part['marked'];
  readonly texts: Readonly<Record<string, string>>;
}

export const emptyDraft = (kind: PartKind): PartDraft => ({ kind, from: null, texts: {} });

/** The texts of a part, each as it was typed where that was kept. */
export function draftFrom(part: Part, from: PartDraft['from']): PartDraft {
  const values = part as unknown as Readonly<Record<string, string | number | undefined>>;
  const names = ['name', 'note', ...Object.keys(fieldsOf(part.kind))];
  return {
    kind: part.kind,
    from,
    ...(part.marked === undefined ? {} : { marked: part.marked }),
    texts: Object.fromEntries(
      names.flatMap((name) => {
        const value = values[name];
        return value === undefined ? [] : [[name, part.asTyped?.[name] ?? String(value)]];
      }),
    ),
  };
}

/** A copy is the person's own: another name, no mark, and no place on the shelf yet. */
export function copyOf(part: Part): PartDraft {
  const { marked: _mark, ...draft } = draftFrom(part, null);
  return { ...draft, texts: { ...draft.texts, name: `${part.name}, copy` } };
}

export type DraftRead =
  | { readonly part: Part }
  /** field by field, in the order of the form; `''` for the part as a whole */
  | { readonly faults: readonly { readonly field: string; readonly label: string; readonly why: string }[] };

/** The part that is typed, or everything that stands against it. */
export function partFrom({ kind, marked, texts }: Omit<PartDraft, 'from'>): DraftRead {
  const faults: { field: string; label: string; why: string }[] = [];
  const value: Record<string, unknown> = { schema: 1, kind };
  const asTyped: Record<string, string> = {};
  const name = (texts.name ?? '').trim();
  if (name === '') faults.push({ field: 'name', label: 'Name', why: say(statement('part-needs-name')) });
  else value.name = name;
  const note = (texts.note ?? '').trim();
  if (note !== '') value.note = note;
  if (marked !== undefined) value.marked = marked;
  for (const [field, about] of Object.entries(fieldsOf(kind))) {
    const text = (texts[field] ?? '').trim();
    if (text === '') continue;
    if (about.type !== 'number') {
      value[field] = text;
      continue;
    }
    const read = readQuantity(text, about);
    if ('wrong' in read) faults.push({ field, label: about.label, why: say(read.wrong) });
    if (!('value' in read)) continue;
    value[field] = read.value;
    // kept only where it says more than the number, and where a file's reader takes it for the same
    const again = typedQuantity(text, about.unit);
    if (String(read.value) !== text && again.found && again.value === read.value) asTyped[field] = text;
  }
  if (faults.length > 0) return { faults };
  if (Object.keys(asTyped).length > 0) value.asTyped = asTyped;
  const checked = checkPart(value, null);
  if (checked.found) return { part: checked.part };
  return {
    faults: checked.faults.map((one) => ({ field: one.column ?? '', label: '', why: `${faultSentence(one)}.` })),
  };
}
