/** A new job, of a new deck or of one that was here before. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import { newJobSchema } from '../../core/job/api.ts';
import { headWordings } from '../../core/job/fields/wording.ts';
import { say, statement } from '../../core/words/statement.ts';
import { api } from '../api.ts';
import { newJob, openTold } from '../jobState.ts';
import { TextField } from '../parts/TextField.tsx';
import { go, stationPath } from '../route.ts';

/** after the last letter, before the server is asked */
const PAUSE_MS = 150;

interface Looked {
  readonly name: string;
  /** of the deck of that name; null where there is none */
  readonly id: string | null;
}

export function NewJob({ onProblem }: { onProblem(problem: string): void }) {
  const [deck, setDeck] = useState('');
  const [customer, setCustomer] = useState('');
  const [busy, setBusy] = useState(false);
  const [looked, setLooked] = useState<Looked | null>(null);
  // sent again after an answer that got lost, it is one job
  const id = useMemo(() => crypto.randomUUID(), [deck, customer]);
  const name = deck.trim();
  useEffect(() => {
    if (name === '') return;
    let isNewest = true;
    const found = (deckId: string | null): void => {
      // an answer about the letters before may come after the one about all of them
      if (isNewest) setLooked({ name, id: deckId });
    };
    const timer = setTimeout(
      () =>
        api.decksNamed(name).then(
          ({ decks }) => found(decks[0]?.id ?? null),
          // a second deck of its name would part its history; without an answer nobody can tell
          () => found(null),
        ),
      PAUSE_MS,
    );
    return () => {
      isNewest = false;
      clearTimeout(timer);
    };
  }, [name]);
  const there = looked?.name === name ? looked.id : null;
  const start = async (event: Event): Promise<void> => {
    event.preventDefault();
    const fresh = { id, deck: there === null ? { name: deck } : { id: there }, customer };
    if (!newJobSchema.safeParse(fresh).success) {
      onProblem(say(statement('job-needs-deck')));
      return;
    }
    setBusy(true);
    try {
      const made = await newJob(fresh);
      openTold(made);
      go(stationPath(made.id, 'intake'));
    } catch (error) {
      onProblem(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <form class="card" onSubmit={(event) => void start(event)}>
      <h3>Begin a new job</h3>
      <div class="fields">
        <TextField
          of={headWordings['deck.name']}
          hint={there === null ? say(statement('deck-as-you-call-it')) : say(statement('deck-was-here'))}
          text={deck}
          onText={setDeck}
        />
        <TextField of={headWordings.customer} hint="May stay empty." text={customer} onText={setCustomer} />
      </div>
      <p>
        <button type="submit" class="button main" disabled={name === '' || looked?.name !== name || busy}>
          Begin
        </button>
      </p>
    </form>
  );
}
