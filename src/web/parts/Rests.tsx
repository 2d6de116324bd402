/** Where the figures of a card come from: what went in, from where, and the page that tells the method. */
import type { ComponentChildren } from 'preact';
import type { Facts } from '../../core/job/fields/benchFacts.ts';
import { type FactName, factFields } from '../../core/job/fields/factFields.ts';
import { forceWords } from '../../core/job/fields/force.ts';
import { quantityText } from '../../core/job/fields/quantity.ts';
import { docsPath } from '../route.ts';

export interface RestsProps {
  readonly known: Facts;
  readonly names: readonly FactName[];
  readonly page: string;
  readonly pageTitle: string;
  readonly children?: ComponentChildren;
}

export function Rests({ known, names, page, pageTitle, children }: RestsProps) {
  const used = names.filter((name) => known[name] !== undefined);
  return (
    <details class="rests">
      <summary>What this rests on</summary>
      {used.length > 0 && (
        <ul class="small">
          {used.map((name) => {
            const { value, uncertainty, from } = known[name] ?? { value: 0, from: '' };
            const { label, unit } = factFields[name];
            const figure = unit === 'mN' ? forceWords(value) : quantityText(value, unit);
            const within = uncertainty === undefined ? '' : ` ± ${quantityText(uncertainty, unit)}`;
            return (
              <li key={name}>
                {label}: {figure}
                {within}, {from}
              </li>
            );
          })}
        </ul>
      )}
      <div class="small">{children}</div>
      <p class="small">
        <a href={docsPath(page)}>{pageTitle}: formula, source and limits</a>
      </p>
    </details>
  );
}
