/** What the `job` commands were asked, and what they share. */
import type { Audience } from '../core/job/audience.ts';
import type { Held } from '../store/answers.ts';
import type { StoreToRead } from '../store/store.ts';
import { StoreError } from '../store/storeError.ts';
import { CannotError, UsageError } from './command.ts';
import { checkOutput, type Output } from './output.ts';

export interface Wanted {
  readonly ids: readonly string[];
  readonly json: boolean;
  readonly output: string | undefined;
  readonly audience: Audience;
  readonly replace: boolean;
  readonly store: string;
  readonly csv: boolean;
  readonly withoutOwner: boolean;
  /** folder of recordings to bring along, or to take them out into */
  readonly recordings: string | undefined;
  readonly asNew: boolean;
  readonly why: string | undefined;
  readonly back: boolean;
  readonly yes: boolean;
}

/** @param shownBy the command that shows those there are */
export function present<T>(answer: Held<T>, shownBy = 'job list'): T {
  if (answer.outcome === 'not-found') throw new CannotError(`${answer.why} ${shownBy} shows those there are.`);
  return answer.value;
}

export function one(what: string, { ids }: Wanted): string {
  if (ids.length !== 1) throw new UsageError(`job ${what}: one ${what === 'import' ? 'file' : 'job'} was expected`);
  return ids[0];
}

export function outputOf(what: string, { output, store, replace }: Wanted): Output {
  if (output === undefined || output === '') throw new UsageError(`job ${what} needs -o FILE to write to`);
  const wanted = { flag: '-o', file: output, inputs: [store], replace };
  checkOutput(wanted);
  return wanted;
}

export async function withStore<S extends StoreToRead, T>(store: S, work: (store: S) => Promise<T>): Promise<T> {
  try {
    return await work(store);
  } catch (error) {
    throw error instanceof StoreError ? new CannotError(error.message) : error;
  } finally {
    await store.close();
  }
}

export const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
