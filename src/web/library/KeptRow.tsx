/** One thing of a library in its list: change it, copy it, delete it after being asked once. */
import { useEffect, useRef, useState } from 'preact/hooks';
import { api, ServerSaid } from '../api.ts';

export interface KeptRowProps {
  /** the kind it is stored under */
  readonly kind: Parameters<typeof api.deletePart>[0];
  readonly id: string;
  readonly name: string;
  /** what sets it apart from the others */
  readonly mark?: string;
  readonly line: string;
  onChange(): void;
  onCopy(): void;
  /** left out: it is not exported alone */
  onExport?(): void;
  /** deleted: @returns what that means for the person */
  onDeleted(): string;
  onSaid(what: string): void;
}

export function KeptRow({ kind, id, name, mark, line, onDeleted, onSaid, ...asked }: KeptRowProps) {
  const [asking, setAsking] = useState(false);
  const cancel = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (asking) cancel.current?.focus();
  }, [asking]);
  const remove = async (): Promise<void> => {
    try {
      await api.deletePart(kind, id).catch((error) => {
        // what is gone already is what was asked for
        if (!(error instanceof ServerSaid && error.status === 404)) throw error;
      });
      onSaid(onDeleted());
    } catch (error) {
      setAsking(false);
      onSaid(`Not deleted: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const buttons = [
    { verb: 'Change', ask: asked.onChange },
    { verb: 'Copy', ask: asked.onCopy },
    ...(asked.onExport === undefined ? [] : [{ verb: 'Export', ask: asked.onExport }]),
    { verb: 'Delete', ask: () => setAsking(true) },
  ];
  return (
    <li>
      <div class="part-words">
        <b>{name}</b>
        {mark !== undefined && <span class="part-mark">{mark}</span>}
        <span class="soft small">{line}</span>
      </div>
      {asking ? (
        <div class="buttons">
          <span>Delete it for good?</span>
          <button
            type="button"
            class="button stop"
            aria-label={`Delete ${name} for good`}
            onClick={() => void remove()}
          >
            Delete
          </button>
          <button type="button" class="button" ref={cancel} onClick={() => setAsking(false)}>
            Cancel
          </button>
        </div>
      ) : (
        <div class="buttons">
          {buttons.map(({ verb, ask }) => (
            <button key={verb} type="button" class="button plain" aria-label={`${verb} ${name}`} onClick={ask}>
              {verb}
            </button>
          ))}
        </div>
      )}
    </li>
  );
}
