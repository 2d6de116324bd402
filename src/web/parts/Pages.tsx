/** Turns the pages of a long list: on by what the server told of the next one, and back by the way that led here. */
import { useState } from 'preact/hooks';

export interface Turning<Key> {
  /** where the page begins, as the server told it; undefined: the first one */
  readonly at: Key | undefined;
  readonly way: readonly Key[];
  setWay(way: readonly Key[]): void;
}

export function usePages<Key>(): Turning<Key> {
  const [way, setWay] = useState<readonly Key[]>([]);
  return { at: way.at(-1), way, setWay };
}

interface PagesProps<Key> {
  readonly turning: Turning<Key>;
  /** of the page that is shown; undefined: it is the last one */
  readonly next: Key | undefined;
  /** words of the two buttons */
  readonly back: string;
  readonly on: string;
}

export function Pages<Key>({ turning: { way, setWay }, next, back, on }: PagesProps<Key>) {
  return (
    <>
      {way.length > 0 && (
        <button type="button" class="button" onClick={() => setWay(way.slice(0, -1))}>
          {back}
        </button>
      )}
      {next !== undefined && (
        <button type="button" class="button" onClick={() => setWay([...way, next])}>
          {on}
        </button>
      )}
    </>
  );
}
