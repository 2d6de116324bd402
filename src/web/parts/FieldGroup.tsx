/** A group of declared fields, rendered from the declaration: one line of code for a form. */
import type { Fields } from '../../core/job/fields/field.ts';
import { type Fallback, FieldEntry } from './FieldEntry.tsx';

export interface FieldGroupProps<Name extends string> {
  readonly fields: Fields<Name>;
  /** which of them, in this order; all where left out */
  readonly names?: readonly NoInfer<Name>[];
  readonly typed: Readonly<Partial<Record<NoInfer<Name>, string>>> | undefined;
  onText(name: Name, text: string): void;
  /** what is used while nothing is typed */
  readonly fallback?: (name: Name) => Fallback | null;
  readonly hint?: (name: Name) => string | undefined;
  readonly legend?: string;
}

export function FieldGroup<Name extends string>(props: FieldGroupProps<Name>) {
  const { fields, names = Object.keys(fields) as Name[], typed, onText, fallback, hint, legend } = props;
  const entries = (
    <div class="fields">
      {names.map((name) => {
        const field = fields[name];
        const usual = field.usual === undefined ? null : field.usual;
        return (
          <FieldEntry
            key={name}
            field={field}
            text={typed?.[name]}
            onText={(text) => onText(name, text)}
            fallback={fallback?.(name) ?? usual}
            hint={hint?.(name)}
          />
        );
      })}
    </div>
  );
  if (legend === undefined) return entries;
  return (
    <fieldset>
      <legend>{legend}</legend>
      {entries}
    </fieldset>
  );
}
