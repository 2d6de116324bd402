/** A field that is one of a few: what it asks and what each value is called, declared once for page, schema and what is told of it. */
export interface Chosen<Value extends string = string> {
  readonly label: string;
  /** what each value is called, in the order shown */
  readonly options: Readonly<Record<Value, string>>;
}

export const chosen = <const Value extends string>(
  label: string,
  options: Readonly<Record<Value, string>>,
): Chosen<Value> => ({ label, options });

export const valuesOf = <Value extends string>({ options }: Chosen<Value>): readonly Value[] =>
  Object.keys(options) as Value[];

/** As a row of buttons or a list takes them. */
export const optionsOf = <Value extends string>({
  options,
}: Chosen<Value>): readonly { readonly value: Value; readonly label: string }[] =>
  Object.entries<string>(options).map(([value, label]) => ({ value: value as Value, label }));
