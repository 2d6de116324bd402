/** Reference recordings and how long their certificates hold: listed, taken in, changed, removed after being asked once. */
import { useState } from 'preact/hooks';
import { apiPaths } from '../../core/job/api.ts';
import type { NewReference, ReferenceList } from '../../core/job/chains/chain.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api, ServerSaid } from '../api.ts';
import { Fold } from '../parts/Fold.tsx';
import { ScrollTable } from '../parts/ScrollTable.tsx';
import { storeTurn } from '../storeTurn.ts';
import { useAsked } from '../useAsked.ts';
import { ReferenceForm } from './ReferenceForm.tsx';

const stateWords = { holds: '✓ holds', soon: '△ ends within 30 days', expired: '✕ has run out' } as const;
type Reference = ReferenceList['references'][number];

/** The bench's own day. */
const today = (): string => new Date().toLocaleDateString('sv-SE');

export function ReferencesFold() {
  const [turn, setTurn] = useState(0);
  const [said, setSaid] = useState('');
  /** undefined: no form; null: of a new one */
  const [open, setOpen] = useState<NewReference | null | undefined>(undefined);
  const list = useAsked(() => api.references(), [storeTurn.value, turn]);
  if (list === null) return null;
  const { references } = list;
  const over = references.filter(({ state }) => state === 'expired').length;
  const gist = references.length === 0 ? 'none' : `${references.length}, ${over} run out`;
  const done = (text: string): void => {
    setSaid(text);
    setTurn(turn + 1);
  };
  return (
    <Fold title="Reference recordings" answer={gist}>
      {references.length === 0 ? (
        <p>{say(statement('no-references'))}</p>
      ) : (
        <ScrollTable
          name="Reference recordings"
          heads={[
            'Name',
            'Record file',
            'Certificate',
            'Until',
            'State',
            'Fingerprint',
            { unseen: 'Change or remove' },
          ]}
        >
          {references.map((one) => (
            <Row key={one.fingerprint} reference={one} onChange={setOpen} onSaid={done} />
          ))}
        </ScrollTable>
      )}
      <p role="status">{said}</p>
      {open === undefined ? (
        <div class="buttons">
          <button
            type="button"
            class="button"
            onClick={() => {
              setSaid('');
              setOpen(null);
            }}
          >
            Add a reference recording
          </button>
          <a class="button" href={`${apiPaths.references}.csv`} download="references.csv">
            Reference recordings as CSV
          </a>
        </div>
      ) : (
        <ReferenceForm
          key={open?.fingerprint ?? ''}
          from={open}
          known={references}
          today={today()}
          onKept={(text) => {
            setOpen(undefined);
            done(text);
          }}
          onCancel={() => setOpen(undefined)}
        />
      )}
    </Fold>
  );
}

interface RowProps {
  readonly reference: Reference;
  onChange(reference: NewReference): void;
  onSaid(text: string): void;
}

function Row({ reference, onChange, onSaid }: RowProps) {
  const { addedAt: _, state, ...kept } = reference;
  const { fingerprint, name, record, certificate, expires } = kept;
  const [asking, setAsking] = useState(false);
  const remove = async (): Promise<void> => {
    try {
      await api.removeReference(fingerprint).catch((error) => {
        // what is gone already is what was asked for
        if (!(error instanceof ServerSaid && error.status === 404)) throw error;
      });
      onSaid(say(statement('reference-removed', { name })));
    } catch (error) {
      setAsking(false);
      onSaid(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <tr>
      <th scope="row">{name}</th>
      <td>{record.name}</td>
      <td>{certificate}</td>
      <td>{expires}</td>
      <td>{stateWords[state]}</td>
      <td>{fingerprint.slice(0, 12)}…</td>
      <td>
        {asking ? (
          <div class="buttons">
            <span>{say(statement('reference-remove-ask'))}</span>
            <button
              type="button"
              class="button stop"
              aria-label={`Remove ${name} for good`}
              onClick={() => void remove()}
            >
              Remove
            </button>
            <button type="button" class="button" onClick={() => setAsking(false)}>
              Keep it
            </button>
          </div>
        ) : (
          <div class="buttons">
            <button type="button" class="button plain" aria-label={`Change ${name}`} onClick={() => onChange(kept)}>
              Change
            </button>
            <button type="button" class="button plain" aria-label={`Remove ${name}`} onClick={() => setAsking(true)}>
              Remove
            </button>
          </div>
        )}
      </td>
    </tr>
  );
}
