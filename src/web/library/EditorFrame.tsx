/** The form around one thing of a library that is being written down: its heading, what stands against it, save and cancel. */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { say, statement } from '../../core/words/statement.ts';

export interface EditorFrameProps {
  /** `keep` true once it is in the library; false where a field was changed in another window and is still to be chosen */
  readonly of: { readonly id: string; keep(): Promise<boolean>; leave(): void };
  readonly heading: string;
  readonly hint: ComponentChildren;
  /** what it will be called; undefined while `faults` stand against it */
  readonly name: string | undefined;
  readonly faults: readonly { readonly label: string; readonly why: string }[];
  /** closed; `said` is what was done, for the person to read */
  onClose(said: string): void;
  /** @param tried it was to be saved once: what is wrong is said at its field */
  children(tried: boolean): ComponentChildren;
}

export function EditorFrame({ of, heading, hint, name, faults, onClose, children }: EditorFrameProps) {
  const title = useRef<HTMLHeadingElement>(null);
  const [tried, setTried] = useState(false);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  useEffect(() => {
    title.current?.focus({ preventScroll: true });
    title.current?.scrollIntoView({ block: 'nearest' });
  }, [of.id]);
  const save = async (event: Event): Promise<void> => {
    event.preventDefault();
    setTried(true);
    setRefused(null);
    if (name === undefined) return;
    setBusy(true);
    try {
      if (await of.keep()) {
        of.leave();
        onClose(say(statement('part-is-kept', { name })));
      } else setRefused(say(statement('changed-meanwhile')));
    } catch (error) {
      setRefused(say(statement('not-saved', { why: error instanceof Error ? error.message : String(error) })));
    } finally {
      setBusy(false);
    }
  };
  const cancel = (): void => {
    of.leave();
    onClose('');
  };
  return (
    <form class="card part-editor" onSubmit={(event) => void save(event)} aria-labelledby="part-editor-name">
      <h3 class="strong" id="part-editor-name" tabIndex={-1} ref={title}>
        {heading}
      </h3>
      <p class="soft small">{hint}</p>
      {children(tried)}
      {tried && faults.length > 0 && (
        <div class="notice bad" role="alert">
          <p>
            <b>Not kept yet.</b>
          </p>
          {faults.map(({ label, why }) => (
            <p key={`${label} ${why}`}>{label === '' ? why : `${label}: ${why}`}</p>
          ))}
        </div>
      )}
      {refused !== null && (
        <div class="notice bad" role="alert">
          <p>{refused}</p>
        </div>
      )}
      <div class="buttons">
        <button type="submit" class="button main" disabled={busy}>
          Save
        </button>
        <button type="button" class="button" onClick={cancel}>
          Cancel
        </button>
      </div>
    </form>
  );
}
