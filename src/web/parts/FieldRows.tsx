/** Declared fields as the columns of a table that is typed row by row. */
import type { Fields } from '../../core/job/fields/field.ts';
import { readQuantity } from '../../core/job/fields/quantity.ts';
import { unitSign } from '../../core/words/figure.ts';
import { say } from '../../core/words/statement.ts';

type Row<Name extends string> = { readonly [Key in Name]: string };

export interface FieldRowsProps<Name extends string> {
  /** what the table is of, for a screen reader */
  readonly name: string;
  readonly of: Fields<Name>;
  /** in the order shown */
  readonly names: readonly NoInfer<Name>[];
  readonly rows: readonly Row<NoInfer<Name>>[];
  setRows(rows: readonly Row<Name>[]): void;
}

export function FieldRows<Name extends string>({ name, of, names, rows, setRows }: FieldRowsProps<Name>) {
  const put = (place: number, column: Name, text: string): void =>
    setRows(rows.map((row, i) => (i === place ? { ...row, [column]: text } : row)));
  const called = (column: Name): string => `${of[column].label}, ${unitSign(of[column].unit)}`;
  const wrongIn = (row: Row<Name>, column: Name): string | null => {
    const read = readQuantity(row[column], of[column]);
    return 'wrong' in read ? say(read.wrong) : null;
  };
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
    <section class="field-rows scroll-x" tabIndex={0} aria-label={name}>
      <table>
        <thead>
          <tr>
            {names.map((column) => (
              <th scope="col" key={column}>
                {called(column)}
              </th>
            ))}
            <th scope="col">
              <span class="unseen">Take out</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <tr key={i}>
              {names.map((column) => {
                const wrong = wrongIn(row, column);
                return (
                  <td key={column}>
                    <input
                      type="text"
                      inputMode={of[column].min >= 0 ? 'decimal' : 'text'}
                      autoComplete="off"
                      spellcheck={false}
                      aria-label={`${called(column)}, row ${i + 1}`}
                      aria-invalid={wrong !== null}
                      title={wrong ?? undefined}
                      maxLength={60}
                      value={row[column]}
                      onInput={(event) => put(i, column, event.currentTarget.value)}
                    />
                  </td>
                );
              })}
              <td>
                <button
                  type="button"
                  class="button plain"
                  aria-label={`Take out row ${i + 1}`}
                  onClick={() => setRows(rows.filter((_row, k) => k !== i))}
                >
                  ✕
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
