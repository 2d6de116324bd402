/** A library's page: the one thing that is being written down, and what was done last. */
import { useRef, useState } from 'preact/hooks';

export function useEditing<Open extends { leave(): void }>() {
  const [open, setOpen] = useState<Open | null>(null);
  const [said, setSaid] = useState('');
  /** around the buttons that begin a new one */
  const add = useRef<HTMLDivElement>(null);
  return {
    open,
    said,
    add,
    /** for the person to read */
    say: setSaid,
    /** one that was begun before the page was loaded again */
    resume: setOpen,
    edit(next: Open): void {
      open?.leave();
      setSaid('');
      setOpen(next);
    },
    /** @param what was done */
    close(what: string): void {
      setOpen(null);
      setSaid(what);
      add.current?.querySelector('button')?.focus();
    },
  };
}
