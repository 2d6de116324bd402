/** The one next move at Match: what is still to be picked or typed, or on to the next station. */
import type { Job } from '../../../core/job/api.ts';
import { asLookedAt } from '../../../core/job/fittedQuestion.ts';
import type { PartKind } from '../../../core/job/partFields.ts';
import { kindWords } from '../../../core/job/partWords.ts';
import { pickedOf } from '../../../core/job/stations/match/matchData.ts';
import { quantityOf } from '../../../core/words/quantities.ts';
import type { Match } from '../../useMatch.ts';
import { GoOn } from '../GoOn.tsx';
import { focusIn } from '../leadOn.ts';

/** Without these nothing can be said. */
const needed = ['arm', 'cartridge'] as const satisfies readonly PartKind[];

export interface NextMoveProps {
  readonly job: Job;
  readonly match: Match;
  /** a verdict was found */
  readonly judged: boolean;
  /** what weighs enough against it to pick something else first: the first quantity outside its limits */
  readonly bad: string | undefined;
}

/** The part that a figure outside its limits asks to be exchanged first. */
function partBehind(quantity: string): PartKind {
  if (quantity === 'counterweight-position') return 'counterweight';
  const { group } = quantityOf(quantity);
  return group === 'loading' || group === 'levels' ? 'preamp' : 'cartridge';
}

export function NextMove({ job, match, judged, bad }: NextMoveProps) {
  const data = asLookedAt(match.data);
  const anyTyped = Object.values(data.typed ?? {}).some((text) => text.trim() !== '');
  const missing = anyTyped ? undefined : needed.find((kind) => pickedOf(data, kind) === null);
  if (missing !== undefined) {
    return <Main label={`Pick ${kindWords[missing].a}`} onPress={() => focusIn(`#pick-${missing}`)} />;
  }
  if (!judged) return <Main label="Fill in what is missing" onPress={() => focusIn('.typed-figures')} />;
  if (bad !== undefined) {
    const kind = partBehind(bad);
    const { a, one } = kindWords[kind];
    return (
      <Main
        label={pickedOf(data, kind) === null ? `Pick ${a}` : `Pick another ${one}`}
        onPress={() => focusIn(`#pick-${kind}`)}
      />
    );
  }
  return <GoOn job={job} station="match" />;
}

function Main({ label, onPress }: { label: string; onPress(): void }) {
  return (
    <div class="buttons">
      <button type="button" class="button main" onClick={onPress}>
        {label}
      </button>
    </div>
  );
}
