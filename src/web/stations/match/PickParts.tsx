/** The parts of this job, picked from the shelf. What is picked is kept with the job as it stood then. */

import { useEffect, useId } from 'preact/hooks';
import type { Job } from '../../../core/job/api.ts';
import { asksWhetherFitted, asLookedAt } from '../../../core/job/fittedQuestion.ts';
import type { PartKind } from '../../../core/job/partFields.ts';
import type { Part } from '../../../core/job/parts.ts';
import { kindWords, markWords, specLine } from '../../../core/job/partWords.ts';
import type { IntakeTyped } from '../../../core/job/stations/intake.ts';
import { type MatchData, type Picked, pickedOf, pickKinds } from '../../../core/job/stations/match/matchData.ts';
import { typicalClasses } from '../../../core/job/typicalClasses.ts';
import { typicalPart } from '../../../core/job/typicalParts.ts';
import { capital } from '../../../core/words/capital.ts';
import { say, statement } from '../../../core/words/statement.ts';
import { readShelf, type ShelfPart, shelf, shelfProblem } from '../../library/shelf.ts';
import { Select } from '../../parts/Choice.tsx';
import { partsTurn } from '../../storeTurn.ts';
import type { Match } from '../../useMatch.ts';
import { useStation } from '../../useStation.ts';

const groups = [
  { mark: undefined, label: 'yours' },
  { mark: 'common-practice', label: markWords['common-practice'] },
  { mark: 'demo', label: markWords.demo },
] as const;

const TYPICAL = 'typical ';

/** Classes that can stand for a whole part at Match; a coil's class is typed as a figure instead. */
const typicalOf = (kind: PartKind): readonly Part[] =>
  typicalClasses
    .filter((one) => one.kind === kind)
    .map(typicalPart)
    .filter((part) => part.kind === kind);

const alike = (a: Part, b: Part): boolean => JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
const sorted = (part: Part): unknown => Object.entries(part).sort(([a], [b]) => a.localeCompare(b));

export function PickParts({ job, match }: { job: Job; match: Match }) {
  useEffect(() => {
    void readShelf();
  }, [partsTurn.value]);
  const { data, reading } = match;
  const intake = useStation<IntakeTyped>(job.id, 'intake').data;
  const pick = (kind: PartKind, picked: Picked | null): void => {
    if (picked !== null && asksWhetherFitted(job, kind, picked, data, intake)) {
      match.set({ looked: { ...data.looked, [kind]: picked } });
      return;
    }
    const { [kind as keyof typeof data.looked]: _, ...looked } = data.looked ?? {};
    match.set(
      picked === null && data.looked?.[kind] ? { looked } : { looked, parts: { ...data.parts, [kind]: picked } },
    );
  };
  const shown = asLookedAt(data);
  const ownShell = reading.chosen.arm !== undefined && reading.chosen.arm.effectiveMassIncludes !== 'bare';
  return (
    <section class="card" aria-label="Parts of this job">
      <h3>Parts</h3>
      <div class="fields">
        {pickKinds.map((kind) => (
          <PartPicker
            key={kind}
            kind={kind}
            data={shown}
            onPick={(picked) => pick(kind, picked)}
            hint={kind === 'headshell' && ownShell ? say(statement('headshell-for-screws')) : undefined}
          />
        ))}
      </div>
      {shelfProblem.value !== null && <p class="wrong-line">The parts library cannot be read: {shelfProblem.value}</p>}
      <p class="small">
        <a href="/parts">Parts library</a>
      </p>
    </section>
  );
}

interface PartPickerProps {
  readonly kind: PartKind;
  readonly data: Partial<MatchData>;
  onPick(picked: Picked | null): void;
  readonly hint: string | undefined;
}

function PartPicker({ kind, data, onPick, hint }: PartPickerProps) {
  const id = useId();
  const picked = pickedOf(data, kind);
  const mine = (shelf.value ?? []).filter((one) => one.part.kind === kind);
  const typical = typicalOf(kind).filter((part) => !mine.some((one) => one.part.name === part.name));
  const there = picked === null ? undefined : onShelf(picked, mine);
  const isTypical = picked !== null && there === undefined && typical.some((part) => alike(part, picked.part));
  const value = picked === null ? '' : (there?.id ?? (isTypical ? `${TYPICAL}${picked.part.name}` : 'kept'));
  const changed = picked !== null && there !== undefined && !alike(there.part, picked.part);
  const name = kindWords[kind].one;
  const note = picked?.part.marked === 'common-practice' ? picked.part.note : undefined;
  const about = [note, hint].filter((part) => part !== undefined).join(' ');
  const take = (wanted: string): void => {
    if (wanted === 'kept') return;
    const one = mine.find((candidate) => candidate.id === wanted);
    if (one !== undefined) onPick({ id: one.id, revision: one.revision, part: one.part });
    else {
      const part = typical.find((candidate) => `${TYPICAL}${candidate.name}` === wanted);
      onPick(part === undefined ? null : { id: null, revision: 0, part });
    }
  };
  return (
    <Select
      id={`pick-${kind}`}
      label={capital(name)}
      value={value}
      about={`${id}-about`}
      onValue={take}
      options={[
        { value: '', label: 'none picked' },
        // whether it is on the shelf is known only once the shelf is
        ...(value === 'kept' && picked !== null
          ? [{ value, label: `${picked.part.name}${shelf.value === null ? '' : ' (kept with this job)'}` }]
          : []),
        ...groups.flatMap(({ mark, label: group }) => [
          ...mine
            .filter((one) => one.part.marked === mark)
            .map((one) => ({ value: one.id, label: one.part.name, group })),
          ...(mark === 'common-practice' ? typical : []).map(({ name: called }) => ({
            value: `${TYPICAL}${called}`,
            label: called,
            group,
          })),
        ]),
      ]}
    >
      <span class="hint" id={`${id}-about`}>
        {picked === null ? '' : specLine(picked.part)}
        {there !== undefined && !changed && (
          <span>
            {' '}
            <a href={`/parts#${there.id}`}>
              <span class="unseen">all its </span>figures<span class="unseen"> in the library: {there.part.name}</span>
            </a>
          </span>
        )}
      </span>
      {about !== '' && (
        <details class="hint">
          <summary>
            about it<span class="unseen">: {picked?.part.name ?? name}</span>
          </summary>
          {about}
        </details>
      )}
      {changed && there !== undefined && (
        <span class="hint">
          {say(statement('library-says-otherwise'))}{' '}
          <button
            type="button"
            class="button plain"
            onClick={() => onPick({ id: there.id, revision: there.revision, part: there.part })}
          >
            Take its figures now
          </button>
        </span>
      )}
    </Select>
  );
}

/** By its id; a part that came with a job from elsewhere by being the very same. */
const onShelf = (picked: Picked, mine: readonly ShelfPart[]): ShelfPart | undefined =>
  mine.find((one) => one.id === picked.id) ?? mine.find((one) => alike(one.part, picked.part));
