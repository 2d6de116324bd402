/** A part picked at Match is fitted, or only looked at: asked once, and what was fitted stands with its time. */
import { useState } from 'preact/hooks';
import type { Job } from '../../core/job/api.ts';
import { epochsOf, type FittedKind } from '../../core/job/epochs.ts';
import { typedValue } from '../../core/job/fields/quantity.ts';
import { isFittedKind, onTheDeck, standingName } from '../../core/job/fittedQuestion.ts';
import type { PartKind } from '../../core/job/partFields.ts';
import { kindWords } from '../../core/job/partWords.ts';
import { fittedWords } from '../../core/job/recordingWords.ts';
import { type IntakeTyped, intakeFields } from '../../core/job/stations/intake.ts';
import { type Picked, pickedOf, pickKinds } from '../../core/job/stations/match/matchData.ts';
import { say, statement } from '../../core/words/statement.ts';
import { fitPart, takeFittingBack } from '../jobState.ts';
import { shelf } from '../library/shelf.ts';
import { timeHere } from '../localTime.ts';
import { Select } from '../parts/Choice.tsx';
import { FieldEntry } from '../parts/FieldEntry.tsx';
import type { Match } from '../useMatch.ts';
import { useStation } from '../useStation.ts';

interface Asked {
  readonly job: Job;
  readonly match: Match;
}

/** Parts that were picked, and nobody said yet whether they are on the deck. */
export const lookedAt = ({ looked }: Match['data']): readonly Looked[] =>
  pickKinds.flatMap((kind): Looked[] => {
    const picked = pickedOf({ parts: looked }, kind);
    return picked === null || !isFittedKind(kind) ? [] : [{ kind, picked }];
  });

export function FittedQuestion({ job, match }: Asked) {
  const looked = lookedAt(match.data);
  if (looked.length === 0) return null;
  return <Question key={looked.map(({ picked }) => picked.part.name).join()} job={job} match={match} looked={looked} />;
}

type Looked = { readonly kind: PartKind & FittedKind; readonly picked: Picked };
type Said = 'fitted' | 'all-along' | 'put-away';

const ways: readonly { value: Said; label: string }[] = [
  { value: 'fitted', label: 'Fitted now' },
  { value: 'all-along', label: 'On the deck all along' },
  { value: 'put-away', label: 'Only looked at: put it away' },
];

/** One question, however many parts were picked; of several each can be told apart. */
function Question({ job, match, looked }: Asked & { readonly looked: readonly Looked[] }) {
  const intake = useStation<IntakeTyped>(job.id, 'intake').data;
  const [hours, setHours] = useState('');
  const [said, setSaid] = useState<Readonly<Record<string, Said>>>({});
  const wasOf = (kind: PartKind & FittedKind) => standingName(job, kind, match.data, intake);
  // a part that takes nobody's place was there before anybody named it
  const saidOf = ({ kind }: Looked): Said => said[kind] ?? (wasOf(kind) === '' ? 'all-along' : 'fitted');
  const cartridge = looked.find(({ kind }) => kind === 'cartridge');
  const keep = (answer: (one: Looked) => Said): void => {
    let data = match.data;
    for (const one of looked) {
      const { kind, picked } = one;
      const says = answer(one);
      if (says === 'put-away') {
        const { [kind]: _, ...rest } = data.looked ?? {};
        data = { ...data, looked: rest };
        continue;
      }
      if (says === 'fitted') {
        const age = kind === 'cartridge' ? typedValue(hours, intakeFields.stylusHours) : null;
        fitPart(job.id, { kind, name: picked.part.name, was: wasOf(kind), station: 'match', hours: age });
      }
      data = { ...data, ...onTheDeck(data, kind, picked) };
    }
    match.set(data);
  };
  const names = looked.map(({ picked }) => picked.part.name).join(', ');
  const [first] = looked;
  const standing = wasOf(first.kind);
  return (
    <section class="notice" aria-label={`${names}: fitted, or only looked at?`}>
      <p>
        <b>{say(statement('fitted-or-looked-at', { names }))}</b>{' '}
        {say(
          looked.length > 1
            ? statement('several-looked-at')
            : standing === ''
              ? statement('looked-at-came-with', { kind: kindWords[first.kind].one })
              : statement('looked-at-other', { standing }),
        )}
      </p>
      {cartridge !== undefined && (
        <FieldEntry
          field={{ ...intakeFields.stylusHours, label: 'Hours on its stylus', help: 'A new one has 0' }}
          text={hours}
          onText={setHours}
        />
      )}
      {looked.length > 1 && (
        <div class="fields">
          {looked.map((one) => (
            <Select<Said>
              key={one.kind}
              label={one.picked.part.name}
              options={ways}
              value={saidOf(one)}
              onValue={(value) => setSaid({ ...said, [one.kind]: value })}
            />
          ))}
        </div>
      )}
      <div class="buttons">
        {looked.length > 1 ? (
          <button type="button" class="button main" onClick={() => keep(saidOf)}>
            Keep these answers
          </button>
        ) : (
          ways.map(({ value, label }) => (
            <button
              key={value}
              type="button"
              class={value === saidOf(first) ? 'button main' : 'button'}
              onClick={() => keep(() => value)}
            >
              {label}
            </button>
          ))
        )}
      </div>
    </section>
  );
}

/** What was exchanged in this job; the last one can be taken back. */
export function Fittings({ job, match }: Asked) {
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
            {epoch.began === null ? '' : `${timeHere(epoch.began)}: `}
            {fittedWords(epoch)}
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
