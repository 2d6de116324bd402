/** A field of the job itself: what is typed shows at once and is saved after a pause. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Job } from '../../../core/job/api.ts';
import { changeJob } from '../../jobState.ts';

type Field = 'title' | 'customer' | 'deckName' | 'deckDescription';

const PAUSE_MS = 400;

const read = (job: Job, field: Field): string => {
  if (field === 'deckName') return job.deck.name;
  return field === 'deckDescription' ? job.deck.description : job[field];
};

export function useJobField(job: Job, field: Field): { text: string; onText(text: string): void } {
  const [typed, setTyped] = useState<string | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const pending = useRef<(() => void) | null>(null);
  const stored = read(job, field);
  // once the server has what was typed, the field shows the server's again; a space typed last may be followed by a word
  useEffect(() => {
    if (typed !== null && typed === stored && pending.current === null) setTyped(null);
  }, [typed, stored]);
  useEffect(() => {
    const saveNow = (): void => {
      clearTimeout(timer.current);
      pending.current?.();
    };
    addEventListener('pagehide', saveNow);
    return () => {
      removeEventListener('pagehide', saveNow);
      saveNow();
    };
  }, []);
  return {
    text: typed ?? stored,
    onText(text) {
      setTyped(text);
      clearTimeout(timer.current);
      // a deck and a job must have a name: an empty one is not sent, and not lost from the field either
      if (text.trim() === '' && (field === 'deckName' || field === 'title')) return;
      const save = (): void => {
        pending.current = null;
        if (field === 'deckName') changeJob(job.id, { deck: { name: text } });
        else if (field === 'deckDescription') changeJob(job.id, { deck: { description: text } });
        else changeJob(job.id, { [field]: text });
      };
      pending.current = save;
      timer.current = setTimeout(() => pending.current?.(), PAUSE_MS);
    },
  };
}
