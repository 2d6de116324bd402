import type { Code, ValuesOfCode } from '../../words/catalogue.ts';
import { say } from '../../words/statement.ts';

/** A field that is one of a few: what it asks and what each value is called, declared once for page, schema and what is told of it. */
export interface Chosen<Value extends string = string> {
  readonly label: string;
  /** what each value is called, in the order shown */
  readonly options: Readonly<Record<Value, string>>;
}

/** One of a few that each need a line of explanation: a statement without values for each. */
export interface Explained<Value extends string = string> extends Chosen<Value> {
  readonly means: Readonly<Record<Value, PlainCode>>;
}

/** Of a statement that needs no values. */
type PlainCode = { [C in Code]: keyof ValuesOfCode<C> extends never ? C : never }[Code];

export const chosen = <const Value extends string>(
  label: string,
  options: Readonly<Record<Value, string>>,
): Chosen<Value> => ({ label, options });

export const explained = <const Value extends string>(
  label: string,
  options: Readonly<Record<Value, string>>,
  means: Explained<Value>['means'],
): Explained<Value> => ({ label, options, means });

export const valuesOf = <Value extends string>({ options }: Chosen<Value>): readonly Value[] =>
  Object.keys(options) as Value[];

/** As a row of buttons or a list takes them. */
export const optionsOf = <Value extends string>({
  options,
}: Chosen<Value>): readonly { readonly value: Value; readonly label: string }[] =>
  Object.entries<string>(options).map(([value, label]) => ({ value: value as Value, label }));

/** The same with what each means. */
export const explainedOptionsOf = <Value extends string>(
  of: Explained<Value>,
): readonly { readonly value: Value; readonly label: string; readonly says: string }[] =>
  optionsOf(of).map((one) => ({ ...one, says: say({ code: of.means[one.value], values: {} }) }));
