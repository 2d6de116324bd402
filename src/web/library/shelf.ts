/** The parts on the person's shelf, as the server last told them. */
import { signal } from '@preact/signals';
import type { PartRecord } from '../../core/job/api.ts';
import { checkPart } from '../../core/job/partFault.ts';
import type { PartKind } from '../../core/job/partFields.ts';
import type { Part, PartOf } from '../../core/job/parts.ts';
import { api } from '../api.ts';

export interface ShelfPart {
  readonly id: string;
  readonly revision: number;
  readonly part: Part;
}

export type ShelfPartOf<Kind extends PartKind> = ShelfPart & { readonly part: PartOf<Kind> };

/** null until the server has told */
export const shelf = signal<readonly ShelfPart[] | null>(null);
/** why the shelf could not be read, in a sentence */
export const shelfProblem = signal<string | null>(null);

/** A record whose data does not fit its kind any more is left out of the lists; it stays in the store. */
function shelfPart({ id, revision, data }: PartRecord): ShelfPart[] {
  const checked = checkPart(data, null);
  return checked.found ? [{ id, revision, part: checked.part }] : [];
}

/** changes made here; a list that was asked for before one of them does not know it and is asked for again */
let changes = 0;

export async function readShelf(): Promise<void> {
  try {
    let asked: number;
    let parts: readonly PartRecord[];
    do {
      asked = changes;
      ({ parts } = await api.parts());
    } while (asked !== changes);
    shelf.value = parts.flatMap(shelfPart);
    shelfProblem.value = null;
  } catch (error) {
    shelfProblem.value = error instanceof Error ? error.message : String(error);
  }
}

export const ofKind = <Kind extends PartKind>(kind: Kind): readonly ShelfPartOf<Kind>[] =>
  (shelf.value ?? []).filter((one): one is ShelfPartOf<Kind> => one.part.kind === kind);

/** Puts a record in its place on the shelf without asking for all of them again. */
export function placeOnShelf(record: PartRecord): void {
  changes += 1;
  // one part alone is not the shelf
  if (shelf.value === null) return;
  const others = shelf.value.filter((one) => one.id !== record.id);
  shelf.value = [...others, ...shelfPart(record)].sort(byKindAndName);
}

export function takeOffShelf(id: string): void {
  changes += 1;
  shelf.value = shelf.value?.filter((one) => one.id !== id) ?? null;
}

const byKindAndName = (a: ShelfPart, b: ShelfPart): number => {
  const [one, other] = [a.part, b.part];
  return one.kind === other.kind ? one.name.localeCompare(other.name) : one.kind.localeCompare(other.kind);
};
