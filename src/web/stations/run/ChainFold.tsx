/** What is the cartridge's and what the chain's: a second recording of this job, made with the cartridge's leads exchanged left for right. */
import type { SideDocument } from '../../../core/advise/document.ts';
import type { Job } from '../../../core/job/api.ts';
import { chainShare } from '../../../core/job/stations/run/exchanged.ts';
import type { RunTyped } from '../../../core/job/stations/run.ts';
import { withSwappedLeads } from '../../../core/side/withSwappedLeads.ts';
import { shownFigure } from '../../../core/words/figure.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { api } from '../../api.ts';
import { timeHere } from '../../localTime.ts';
import { Caution } from '../../parts/Caution.tsx';
import { Select } from '../../parts/Choice.tsx';
import { FindingList } from '../../parts/FindingList.tsx';
import { Fold } from '../../parts/Fold.tsx';
import { showEvidence } from '../../side/evidence.ts';
import { shownSide } from '../../side/shownSide.ts';
import { useAsked } from '../../useAsked.ts';
import { useStation } from '../../useStation.ts';

const NONE = 'none';

/** Both recordings as one document; null until the server has told them, or where none is chosen. */
function useBoth(jobId: string, first: string | undefined, second: string | undefined): SideDocument | null {
  return useAsked(async () => {
    if (first === undefined || second === undefined) return null;
    const [one, other] = await Promise.all([api.capture(jobId, first), api.capture(jobId, second)]);
    return withSwappedLeads(one.document, other.document);
  }, [jobId, first, second]);
}

export function ChainFold({ job }: { readonly job: Job }) {
  const station = useStation<RunTyped>(job.id, 'run');
  const { exchanged } = station.data;
  const both = useBoth(job.id, exchanged?.first, exchanged?.second);
  const shown = shownSide.value?.captureId ?? null;
  const first = exchanged?.first ?? shown;
  const choices = job.captures.filter(({ id }) => id !== first);
  if (first === null || (choices.length === 0 && exchanged === undefined)) return null;
  const share = both === null ? null : chainShare(both);
  const nameOf = (id: string): string => {
    const capture = job.captures.find((one) => one.id === id);
    return capture === undefined ? 'not in this job' : `${capture.file}, ${timeHere(capture.heardAt)}`;
  };
  const chain = share?.findings[1];
  return (
    <Fold
      title="The chain’s own share"
      answer={
        chain === undefined
          ? 'leads exchanged'
          : `balance of the chain ${shownFigure(chain.value, chain.unit, chain.uncertainty, true)}`
      }
    >
      <Caution>{say(statement('exchange-caution'))}</Caution>
      <p>{say(statement('exchange-how'))}</p>
      <p class="soft">As wired: {nameOf(first)}</p>
      <Select
        label="Leads exchanged"
        value={exchanged?.second ?? NONE}
        options={[
          { value: NONE, label: 'none chosen' },
          ...choices.map(({ id }) => ({ value: id, label: nameOf(id) })),
        ]}
        onValue={(second) => station.set({ exchanged: second === NONE ? undefined : { first, second } })}
      />
      {share !== null && both !== null && (
        <>
          <FindingList
            findings={share.findings}
            rowOf={(finding) => ({ onEvidence: () => showEvidence(finding, both) })}
          />
          {share.withheld !== null && <p>{share.withheld.message}</p>}
        </>
      )}
    </Fold>
  );
}
