/** What plays, proved: what left its limits, a chain's control charts, reference recordings, and how far the batches are. */
import { useEffect, useState } from 'preact/hooks';
import { apiPaths } from '../../core/job/api.ts';
import type { ChainList } from '../../core/job/chains/chain.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { Select } from '../parts/Choice.tsx';
import { chainPath, go } from '../route.ts';
import { storeTurn } from '../storeTurn.ts';
import { useAsked } from '../useAsked.ts';
import { AlarmsCard } from './AlarmsCard.tsx';
import { BatchFold } from './BatchFold.tsx';
import { ChainCard } from './ChainCard.tsx';
import { ChangeChain } from './ChangeChain.tsx';
import { ReferencesFold } from './ReferencesFold.tsx';

/** Between two looks at the batches, whose results a shared store does not tell pages of, ms. */
const LOOK_MS = 5_000;

/** Counts on while the page is seen. */
function useTick(): number {
  const [tick, setTick] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => {
      if (!document.hidden) setTick((count) => count + 1);
    }, LOOK_MS);
    return () => clearInterval(timer);
  }, []);
  return tick;
}

/** @param chosen id of the chain that the address names; null: the first */
export default function ChainsPage({ chosen }: { readonly chosen: string | null }) {
  const tick = useTick();
  const status = useAsked(() => api.batches(), [tick, storeTurn.value]);
  const measured = status?.sides.done ?? 0;
  const list = useAsked(() => api.chains(), [measured, storeTurn.value]);
  return (
    <div class="stack">
      <AlarmsCard about={[measured, storeTurn.value]} />
      <Chosen list={list} chosen={chosen} about={[measured, storeTurn.value]} />
      <div class="folds">
        <ChangeChain chain={null} />
        <BatchFold status={status} />
        <ReferencesFold />
      </div>
    </div>
  );
}

interface ChosenProps {
  readonly list: ChainList | null;
  readonly chosen: string | null;
  readonly about: readonly unknown[];
}

function Chosen({ list, chosen, about }: ChosenProps) {
  if (list === null) return <p class="soft">Looking…</p>;
  const [first] = list.chains;
  if (first === undefined) return <p>{say(statement('no-chains'))}</p>;
  const id = chosen ?? first.id;
  const named = list.chains.some((one) => one.id === id);
  return (
    <section class="card" aria-label="Control charts">
      <h3>Control charts</h3>
      <div class="fields">
        <Select
          label="Chain"
          value={id}
          options={[
            ...(named ? [] : [{ value: id, label: 'the one in the address' }]),
            ...list.chains.map((one) => ({ value: one.id, label: one.name })),
          ]}
          onValue={(one) => go(chainPath(one))}
        />
      </div>
      <ChainCard key={id} id={id} about={about} />
      <div class="buttons">
        <a class="button" href={`${apiPaths.chainHistory(id)}.csv`} download="chain-history.csv">
          History as CSV
        </a>
        <a class="button" href={`${apiPaths.chains}.csv`} download="chains.csv">
          Chains as CSV
        </a>
      </div>
    </section>
  );
}
