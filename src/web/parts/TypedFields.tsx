/** Declared fields in a row: each shows what is typed under its own name and changes nothing else. */
import type { Fields } from '../../core/job/fields/field.ts';
import { type Fallback, FieldEntry } from './FieldEntry.tsx';

export interface TypedFieldsProps<Name extends string> {
  readonly of: Fields<Name>;
  /** in the order shown */
  readonly names: readonly NoInfer<Name>[];
  readonly typed: { readonly [Key in NoInfer<Name>]?: string | undefined };
  set(patch: { [Key in NoInfer<Name>]?: string }): void;
  /** what is used while nothing is typed, over what the fields declare */
  readonly fallbacks?: { readonly [Key in NoInfer<Name>]?: Fallback | null };
}

export function TypedFields<Name extends string>({ of, names, typed, set, fallbacks = {} }: TypedFieldsProps<Name>) {
  return (
    <>
      {names.map((name) => (
        <FieldEntry
          key={name}
          field={of[name]}
          text={typed[name]}
          fallback={fallbacks[name] ?? of[name].usual ?? null}
          onText={(text) => set({ [name]: text } as { [Key in Name]?: string })}
        />
      ))}
    </>
  );
}
