/** A table that scrolls by itself where it is wider than its place, by keyboard too. */
import type { ComponentChildren } from 'preact';

export interface ScrollTableProps {
  /** what a screen reader calls it */
  readonly name: string;
  /** of its columns; one that needs no word to be seen is `unseen` */
  readonly heads: readonly (string | { readonly unseen: string })[];
  readonly class?: string;
  /** its rows */
  readonly children: ComponentChildren;
}

export function ScrollTable({ name, heads, class: own = 'rows', children }: ScrollTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a stretch that scrolls must be reachable by keyboard
    <section class="scroll-x" tabIndex={0} aria-label={`${name}, table`}>
      <table class={own}>
        <thead>
          <tr>
            {heads.map((head) =>
              typeof head === 'string' ? (
                <th key={head} scope="col">
                  {head}
                </th>
              ) : (
                <th key={head.unseen} scope="col">
                  <span class="unseen">{head.unseen}</span>
                </th>
              ),
            )}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </section>
  );
}
