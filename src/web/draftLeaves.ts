/**
 * What a window knows of the leaves in which it differs from the server: the values that it saw each of them have, and
 * which of them stand at odds with a value that it never saw.
 */
import { joinedList, type LeafChange, type LeafPath } from '../core/job/leafPaths.ts';
import { sameJson } from '../core/job/sameJson.ts';
import type { Aside } from './draftAside.ts';

type Value = LeafChange['is'];

const nameOf = (path: LeafPath): string => JSON.stringify(path);

export class DraftLeaves {
  /** values that this window knew a leaf to have, by path; only of leaves that differ */
  private seen = new Map<string, readonly Value[]>();
  private readonly atOdds = new Map<string, LeafPath>();

  isAtOdds(path: LeafPath): boolean {
    return this.atOdds.has(nameOf(path));
  }

  /** Leaves that differ no more are forgotten. @param changes all that differ */
  keep(changes: readonly LeafChange[]): void {
    const known = new Map(changes.map(({ path, was }) => [nameOf(path), this.seenAt(path, was)]));
    for (const name of this.atOdds.keys()) if (!known.has(name)) this.atOdds.delete(name);
    this.seen = known;
  }

  aside({ path, was, is }: LeafChange): Aside {
    return {
      path,
      ...(is === undefined ? {} : { is }),
      seen: this.seenAt(path, was).map((value) => (value === undefined ? {} : { value })),
    };
  }

  /** What is sent may have been taken even where no answer comes. */
  sent(changes: readonly LeafChange[]): void {
    for (const { path, is } of changes) {
      const name = nameOf(path);
      this.seen.set(name, [...(this.seen.get(name) ?? []), is]);
    }
  }

  /** A person chose what is typed over `was`, or what the server has. */
  chosen(path: LeafPath, was?: { readonly value: Value }): void {
    this.atOdds.delete(nameOf(path));
    if (was !== undefined) this.seen.set(nameOf(path), [was.value]);
  }

  /** The server has `now` where `is` is typed over `was`. @returns whether this window knew that value */
  isKnown({ path, was }: LeafChange, now: Value): boolean {
    return this.seenAt(path, was).some((value) => sameJson(value, now));
  }

  /** `is` now stands over the known value `now`. */
  over(path: LeafPath, now: Value): void {
    this.seen.set(nameOf(path), [now]);
    this.atOdds.delete(nameOf(path));
  }

  /** A value that nobody here knew: lists are joined, anything else is at odds. @returns what is shown */
  met({ path, was, is }: LeafChange, now: Value): Value {
    const joined = joinedList(was, is, now);
    if (joined === undefined) this.atOdds.set(nameOf(path), path);
    else this.seen.set(nameOf(path), [now]);
    return joined ?? is;
  }

  /** Takes up a leaf that was kept aside, over what the server has now. @returns what is shown */
  takeUp({ path, is, seen }: Aside, now: Value): Value {
    const known = seen.map(({ value }) => value);
    this.seen.set(nameOf(path), known);
    const change = { path, was: known[0], is };
    return this.isKnown(change, now) ? is : this.met(change, now);
  }

  private seenAt(path: LeafPath, was: Value): readonly Value[] {
    return this.seen.get(nameOf(path)) ?? [was];
  }
}
