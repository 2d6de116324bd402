/** Where one part of the page fails the rest goes on, and the person is told. */
import type { ComponentChildren } from 'preact';
import { useErrorBoundary } from 'preact/hooks';
import { say, statement } from '../../core/words/statement.ts';

export interface GuardedProps {
  /** what could not be drawn, as a sentence's beginning: "This station" */
  readonly what: string;
  readonly children: ComponentChildren;
}

export function Guarded({ what, children }: GuardedProps) {
  const [error, again] = useErrorBoundary();
  if (error === undefined) return <>{children}</>;
  return (
    <div class="notice bad" role="alert">
      <p>
        <b>{say(statement('not-drawn', { what }))}</b> {say(statement('nothing-is-lost'))}
      </p>
      <p>
        <button type="button" class="button" onClick={again}>
          Draw it again
        </button>
      </p>
    </div>
  );
}
