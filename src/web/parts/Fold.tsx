/** What is wanted only now and then: folded away, with its answer in one line beside its name. */
import type { ComponentChildren } from 'preact';

export interface FoldProps {
  readonly title: string;
  /** what is inside, in one line: read without opening it */
  readonly answer?: ComponentChildren;
  /** links to it open it */
  readonly id?: string;
  /** how it is drawn at first; the person opens and shuts it from there */
  readonly open?: boolean;
  readonly children: ComponentChildren;
}

export function Fold({ title, answer, id, open = false, children }: FoldProps) {
  return (
    // only the attribute of the first drawing counts: what the person opened stays open however often it is drawn again
    <details
      class="fold"
      id={id}
      ref={(element) => {
        if (element === null || element.dataset.drawn !== undefined) return;
        element.dataset.drawn = '';
        element.open = open;
      }}
    >
      <summary>
        <h3>{title}</h3> {answer !== undefined && <span class="soft">{answer}</span>}
      </summary>
      <div class="stack">{children}</div>
    </details>
  );
}
