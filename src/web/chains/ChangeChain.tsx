/** What a chain is made of, changed from now on; a new chain where none is named. */
import { useMemo, useState } from 'preact/hooks';
import { type ChainPartName, chainPartNames } from '../../core/job/chains/chain.ts';
import { MOST_LINE, type Wording } from '../../core/job/fields/wording.ts';
import { capital } from '../../core/words/capital.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { Fold } from '../parts/Fold.tsx';
import { TextField } from '../parts/TextField.tsx';
import { chainPath, go } from '../route.ts';

const nameWording: Wording = { label: 'Name of the chain', most: MOST_LINE };
const whyWording: Wording = { label: 'Why', most: MOST_LINE, help: 'such as: worn tip, new belt' };
const partWording = (part: ChainPartName): Wording => ({ label: capital(part), most: MOST_LINE });

interface ChangeChainProps {
  /** null: a new one is made */
  readonly chain: { readonly name: string; readonly parts: Readonly<Record<string, string>> } | null;
}

export function ChangeChain({ chain }: ChangeChainProps) {
  const [name, setName] = useState('');
  const [typed, setTyped] = useState<Partial<Record<ChainPartName, string>>>({});
  const [why, setWhy] = useState('');
  const [said, setSaid] = useState('');
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  // sent again after an answer that got lost, it is one change
  const id = useMemo(() => crypto.randomUUID(), [name, typed, why]);
  const write = async (event: Event): Promise<void> => {
    event.preventDefault();
    const of = chain?.name ?? name.trim();
    setSaid('');
    setFault(of === '' ? say(statement('chain-needs-name')) : null);
    if (of === '') return;
    setBusy(true);
    try {
      const made = await api.changeChain({ id, name: of, parts: typed, why });
      setTyped({});
      setWhy('');
      setName('');
      setSaid(say(statement('chain-changed')));
      if (chain === null) go(chainPath(made.id));
    } catch (error) {
      setFault(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
  };
  return (
    <Fold title={chain === null ? 'A new chain' : 'Change what it is made of'}>
      <form class="stack" onSubmit={(event) => void write(event)}>
        <div class="fields">
          {chain === null && <TextField of={nameWording} text={name} onText={setName} />}
          {chainPartNames.map((part) => (
            <TextField
              key={part}
              of={partWording(part)}
              text={typed[part] ?? chain?.parts[part] ?? ''}
              onText={(text) => setTyped({ ...typed, [part]: text })}
            />
          ))}
          <TextField of={whyWording} text={why} onText={setWhy} />
        </div>
        <div class="buttons">
          <button type="submit" class="button" disabled={busy}>
            Write it down
          </button>
        </div>
        <p role="status">{said}</p>
        {fault !== null && (
          <p class="wrong-line" role="alert">
            {fault}
          </p>
        )}
      </form>
    </Fold>
  );
}
