/** Where the figures of a card come from: what went in, from where, and the page that tells the method. */
import type { ComponentChildren } from 'preact';
import { tidy } from '../../library/quantity.ts';
import { docsPath } from '../../route.ts';
import { type FactName, type Facts, facts } from './facts.ts';
import { forceWords } from './force.ts';

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
            const { value, from } = known[name] ?? { value: 0, from: '' };
            const { field } = facts[name];
            const figure =
              field.unit === 'mN'
                ? forceWords(value)
                : `${tidy(value)}${field.unit === 'deg' ? '°' : ` ${field.unit}`}`;
            return (
              <li key={name}>
                {field.label}: {figure}, {from.startsWith('typed') ? from : `from ${from}`}
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
