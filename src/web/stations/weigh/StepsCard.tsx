/** Float the arm, zero the ring, set the force: the order of work with each caution where the hand is. */
import { weighSteps } from '../../../core/advise/orderOfWork.ts';
import type { MoveName } from '../../../core/job/moves.ts';
import type { AlsoMoved } from '../../../core/job/stations/weigh/kept.ts';
import { say } from '../../../core/words/statement.ts';
import { Check } from '../../parts/Choice.tsx';

export interface StepsCardProps {
  readonly ticked: readonly string[];
  onTicked(ids: readonly string[]): void;
  /** what is moved here besides the force, and makes it and others stale */
  onMoved(move: MoveName): void;
  /** the newest of these moves; undefined where there is none to take back */
  readonly moved: AlsoMoved | undefined;
  onTakenBack(): void;
}

const markedWords: Readonly<Partial<Record<MoveName, string>>> = {
  'level-deck': 'the deck was levelled',
  'change-counterweight': 'another counterweight was fitted',
};

const moves: readonly { move: MoveName; label: string }[] = [
  { move: 'level-deck', label: 'I levelled the deck' },
  { move: 'change-counterweight', label: 'I fitted another counterweight' },
];

export function StepsCard({ ticked, onTicked, onMoved, moved, onTakenBack }: StepsCardProps) {
  const done = weighSteps.filter(({ id }) => ticked.includes(id)).length;
  const next = weighSteps.find(({ id }) => !ticked.includes(id));
  return (
    <fieldset class="card work-steps">
      <legend>Order of work</legend>
      <ol>
        {weighSteps.map(({ id, does, caution }) => (
          <li key={id} class={id === next?.id ? 'next' : undefined} aria-current={id === next?.id ? 'step' : undefined}>
            <Check
              label={say(does)}
              checked={ticked.includes(id)}
              onChecked={(on) => onTicked(on ? [...ticked, id] : ticked.filter((one) => one !== id))}
            />
            {caution !== undefined && (
              <p class="step-caution small">
                <b>Caution:</b> {say(caution)}
              </p>
            )}
          </li>
        ))}
      </ol>
      <div class="buttons">
        <span class="soft small" role="status">
          {done} of {weighSteps.length}
        </span>
        {done > 0 && (
          <button type="button" class="button plain" onClick={() => onTicked([])}>
            Begin again
          </button>
        )}
      </div>
      <div class="buttons">
        {moves.map(({ move, label }) => (
          <button key={move} type="button" class="button" onClick={() => onMoved(move)}>
            {label}
          </button>
        ))}
      </div>
      <p class="soft small" role="status">
        {moved !== undefined && (
          <>
            Noted: {markedWords[moved.move] ?? 'moved'}. What rests on it is to be checked again.{' '}
            <button type="button" class="button plain" aria-label="Undo the move noted last" onClick={onTakenBack}>
              Undo
            </button>
          </>
        )}
      </p>
    </fieldset>
  );
}
