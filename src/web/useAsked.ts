/** What the server tells when a card is opened; a card without it is left out. */
import { useEffect, useState } from 'preact/hooks';

/**
 * @param ask asked again whenever one of `about` changes; an answer to what was asked before comes too late
 * @returns null until there is an answer
 */
export function useAsked<T>(ask: () => Promise<T>, about: readonly unknown[]): T | null {
  const [told, setTold] = useState<T | null>(null);
  useEffect(() => {
    let late = false;
    ask().then(
      (answer) => {
        if (!late) setTold(answer);
      },
      () => undefined,
    );
    return () => {
      late = true;
    };
  }, about);
  return told;
}
