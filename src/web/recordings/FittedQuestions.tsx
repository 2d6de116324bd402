/** A part picked at Match is fitted, or only looked at: asked once, and what was fitted stands with its time. */
import { useState } from 'preact/hooks';
import type { Job } from '../../core/job/api.ts';
import { epochsOf } from '../../core/job/epochs.ts';
import { typedValue } from '../../core/job/fields/quantity.ts';
import { isFittedKind, onTheDeck, standingName } from '../../core/job/fittedQuestion.ts';
import type { PartKind } from '../../core/job/partFields.ts';
import { kindWords } from '../../core/job/partWords.ts';
import { epochWords } from '../../core/job/recordingWords.ts';
import { type IntakeTyped, intakeFields } from '../../core/job/stations/intake.ts';
import { type Picked, pickedOf, pickKinds } from '../../core/job/stations/match/matchData.ts';
import { fitPart, takeFittingBack } from '../jobState.ts';
import { shelf } from '../library/shelf.ts';
import { timeHere } from '../localTime.ts';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import type { Match } from '../useMatch.ts';
import { useStation } from '../useStation.ts';

interface Asked {
  readonly job: Job;
  readonly match: Match;
}

export function FittedQuestions({ job, match }: Asked) {
  const looked = pickKinds.flatMap((kind) => {
    const picked = pickedOf({ parts: match.data.looked }, kind);
    return picked === null ? [] : [{ kind, picked }];
  });
  if (looked.length === 0 && job.fittings.length === 0) return null;
  return (
    <div class="stack">
      {looked.map(({ kind, picked }) => (
        <Question key={`${kind} ${picked.part.name}`} job={job} match={match} kind={kind} picked={picked} />
      ))}
      <Fittings job={job} match={match} />
    </div>
  );
}

function Question({ job, match, kind, picked }: Asked & { readonly kind: PartKind; readonly picked: Picked }) {
  const intake = useStation<IntakeTyped>(job.id, 'intake').data;
  const [hours, setHours] = useState('');
  if (!isFittedKind(kind)) return null;
  const was = standingName(job, kind, match.data, intake);
  const name = picked.part.name;
  const what = kindWords[kind].one;
  const hoursValue = typedValue(hours, intakeFields.stylusHours);
  const fitted = (): void => {
    fitPart(job.id, { kind, name, was, station: 'match', hours: kind === 'cartridge' ? hoursValue : null });
    match.set(onTheDeck(match.data, kind, picked));
  };
  const putAway = (): void => {
    const { [kind as 'cartridge']: _, ...rest } = match.data.looked ?? {};
    match.set({ looked: rest });
  };
  return (
    <section class="notice" aria-label={`${name}: fitted, or only looked at?`}>
      <p>
        <b>{name}: fitted, or only looked at?</b> The figures below are worked out with it. The other stations go by{' '}
        {was === '' ? `the ${what} that came with the deck` : was}.
      </p>
      {kind === 'cartridge' && (
        <FieldEntry
          field={{ ...intakeFields.stylusHours, label: 'Hours on its stylus', help: 'A new one has 0' }}
          text={hours}
          onText={setHours}
        />
      )}
      <div class="buttons">
        <button type="button" class="button main" onClick={fitted}>
          Fitted now
        </button>
        <button type="button" class="button" onClick={() => match.set(onTheDeck(match.data, kind, picked))}>
          On the deck all along
        </button>
        <button type="button" class="button" onClick={putAway}>
          Only looked at: put it away
        </button>
      </div>
    </section>
  );
}

/** What was exchanged in this job; the last one can be taken back. */
function Fittings({ job, match }: Asked) {
  if (job.fittings.length === 0) return null;
  const epochs = epochsOf(job.fittings).slice(1);
  const last = job.fittings.find(({ id }) => id === epochs.at(-1)?.id);
  const back = (): void => {
    if (last === undefined) return;
    takeFittingBack(job.id, last.id);
    const kind = last.kind as PartKind;
    const now = pickedOf(match.data, kind);
    const before = (shelf.value ?? []).find(({ part }) => part.kind === kind && part.name === last.was);
    const parts = {
      ...match.data.parts,
      [kind]: before === undefined ? null : { id: before.id, revision: before.revision, part: before.part },
    };
    if (now?.part.name === last.name) match.set({ parts, looked: { ...match.data.looked, [kind]: now } });
  };
  return (
    <section class="card" aria-label="Fitted in this job">
      <h3>Fitted in this job</h3>
      <ul>
        {epochs.map((epoch) => (
          <li key={epoch.id}>
            {epochWords(epoch)}, {epoch.began === null ? '' : timeHere(epoch.began)}
          </li>
        ))}
      </ul>
      <p>
        <button type="button" class="button" onClick={back}>
          Not fitted after all: take the last one back
        </button>
      </p>
    </section>
  );
}
