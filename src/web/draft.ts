/**
 * What is typed and not yet on the server: shown at once, saved after a pause, kept in this browser over a reload and a
 * dead server, sent when the page is left. One of these stands behind the job's head, each station and each part.
 *
 * A draft holds the document as the server last told it and the document as it is shown; the leaves in which they differ
 * are what is still to be sent. A leaf that the server has with a value this window never saw is a conflict: it is not
 * sent until a person chooses between the two.
 */
import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import {
  atPath,
  joinedList,
  type LeafChange,
  type LeafConflict,
  type LeafPath,
  leafChanges,
  withPath,
} from '../core/job/leafPaths.ts';
import { sameJson } from '../core/job/sameJson.ts';
import { ServerSaid } from './api.ts';
import { send } from './connection.ts';

export type Document = Parameters<typeof withPath>[0];
type Value = ReturnType<typeof atPath>;

/** What the server keeps, and how new that is. */
export interface Told {
  readonly document: Document;
  readonly revision: number;
}

export interface DraftKind {
  /** place in the browser's store; two drafts never share one */
  readonly key: string;
  readonly wholes?: readonly LeafPath[];
  /** left out: nothing is sent but by `save` */
  readonly pauseMs?: number;
  /** what the server has after the changes, which it takes all or none; a `ServerSaid` of status 409 is a conflict */
  send(changes: readonly LeafChange[]): Promise<Told>;
  /** what the server has, out of the body of a conflict */
  current(body: unknown): Told | null;
  /** leaves that cannot be kept as they are typed, and are shown only */
  cannotKeep?(document: Document): readonly LeafPath[];
  /** leaves at which the server is right without asking */
  yields?(path: LeafPath): boolean;
  /** name of a field for people */
  label(path: LeafPath): string;
  /** what a value of it is called, where it is one of a few */
  named?(path: LeafPath, value: unknown): string | undefined;
}

export interface Choice extends LeafConflict {
  readonly draft: string;
  readonly label: string;
  named(value: unknown): string | undefined;
  keepMine(): void;
  takeOther(): void;
}

export interface Draft {
  /** as it is shown */
  readonly document: ReadonlySignal<Document>;
  /** false while something typed has not reached the disk */
  readonly saved: ReadonlySignal<boolean>;
  change(document: Document, now?: boolean): void;
  /** what the server has, told on another way */
  take(told: Told): void;
  /** sends what is there to be sent; true when all of it is kept */
  save(): Promise<boolean>;
  /** goes back to what the server has, and keeps nothing more here */
  forget(): void;
}

interface Aside {
  readonly path: LeafPath;
  readonly is?: Value;
  /** values that this window knew the leaf to have; left out in one: nothing */
  readonly seen: readonly { readonly value?: Value }[];
}

const STORED = 'platterside-draft/';
const MOST_ROUNDS = 5;

/** Choices that wait for a person, of all drafts. */
export const choices: Signal<readonly Choice[]> = signal([]);

const open = new Set<{ readonly key: string; readonly unsaved: () => boolean; leave(): void; forget(): void }>();
/** True while something typed has not reached the disk. */
export const anythingUnsaved = (): boolean => [...open].some((draft) => draft.unsaved());
addEventListener('pagehide', () => {
  for (const draft of open) draft.leave();
});

function keptAside(key: string): readonly Aside[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(STORED + key) ?? '[]');
    return Array.isArray(kept) ? kept.filter((one) => Array.isArray(one?.path) && Array.isArray(one?.seen)) : [];
  } catch {
    return [];
  }
}

function keepAside(key: string, asides: readonly Aside[]): void {
  try {
    if (asides.length === 0) localStorage.removeItem(STORED + key);
    else localStorage.setItem(STORED + key, JSON.stringify(asides));
  } catch {
    // a browser that keeps nothing still holds the draft in memory
  }
}

/** Keys of drafts that this browser holds for the server, of one kind. */
export function keysAside(prefix: string): readonly string[] {
  try {
    return Object.keys(localStorage)
      .filter((name) => name.startsWith(STORED + prefix))
      .map((name) => name.slice(STORED.length));
  } catch {
    return [];
  }
}

/** Nothing typed for what was deleted stays in this browser. @param about keys of its drafts */
export function forgetAside(about: (key: string) => boolean): void {
  for (const draft of [...open]) if (about(draft.key)) draft.forget();
  for (const key of keysAside('').filter(about)) keepAside(key, []);
}

const nameOf = (path: LeafPath): string => JSON.stringify(path);

/** @param told what the server has as far as it is known */
export function openDraft(kind: DraftKind, told: Told): Draft {
  const { key, wholes = [] } = kind;
  let { document: base, revision } = told;
  const shown = signal(base);
  const differs = signal(0);
  /** values that this window knew a leaf to have, by path; only of leaves that differ */
  let seen = new Map<string, readonly Value[]>();
  const atOdds = new Map<string, LeafPath>();
  let underWay: readonly LeafChange[] | null = null;
  let later: Told | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const pending = (): readonly LeafChange[] => leafChanges(base, shown.peek(), wholes);
  const touches = (path: LeafPath, other: LeafPath): boolean =>
    path.every((step, i) => i >= other.length || step === other[i]);
  const sendable = (): readonly LeafChange[] => {
    const held = kind.cannotKeep?.(shown.peek()) ?? [];
    return pending().filter(({ path }) => !atOdds.has(nameOf(path)) && !held.some((other) => touches(path, other)));
  };

  /** after every change of what is shown or known */
  const settle = (): void => {
    const changes = pending();
    const known = new Map<string, readonly Value[]>();
    for (const { path, was } of changes) known.set(nameOf(path), seen.get(nameOf(path)) ?? [was]);
    for (const name of atOdds.keys()) if (!known.has(name)) atOdds.delete(name);
    seen = known;
    differs.value = changes.length;
    keepAside(
      key,
      changes.map(({ path, is }) => ({
        path,
        ...(is === undefined ? {} : { is }),
        seen: (known.get(nameOf(path)) ?? []).map((value) => (value === undefined ? {} : { value })),
      })),
    );
    const own = changes.filter(({ path }) => atOdds.has(nameOf(path)));
    const others = choices.peek().filter((choice) => choice.draft !== key);
    if (own.length === 0 && others.length === choices.peek().length) return;
    choices.value = [...others, ...own.map(choiceOf)];
  };

  const choiceOf = ({ path, was, is }: LeafChange): Choice => ({
    draft: key,
    path,
    label: kind.label(path),
    named: (value) => kind.named?.(path, value),
    yours: is,
    theirs: was,
    keepMine() {
      atOdds.delete(nameOf(path));
      seen.set(nameOf(path), [was]);
      settle();
      plan(0);
    },
    takeOther() {
      atOdds.delete(nameOf(path));
      shown.value = withPath(shown.peek(), path, atPath(base, path));
      settle();
      plan(0);
    },
  });

  /** @param sent changes that the server is known to have taken */
  const rebase = (fresh: Told, sent: readonly LeafChange[] = []): void => {
    if (fresh.revision < revision) return;
    const known = sent.reduce((document, { path, is }) => withPath(document, path, is), base);
    let next = fresh.document;
    for (const { path, was, is } of leafChanges(known, shown.peek(), wholes)) {
      const name = nameOf(path);
      const now = atPath(fresh.document, path);
      if (sameJson(now, is)) continue;
      const expected = (seen.get(name) ?? [was]).some((value) => sameJson(value, now));
      if (!expected && kind.yields?.(path)) continue;
      if (expected) {
        seen.set(name, [now]);
        atOdds.delete(name);
        next = withPath(next, path, is);
        continue;
      }
      const joined = joinedList(was, is, now);
      if (joined === undefined) atOdds.set(name, path);
      else seen.set(name, [now]);
      next = withPath(next, path, joined ?? is);
    }
    revision = fresh.revision;
    base = fresh.document;
    if (!sameJson(next, shown.peek())) shown.value = next;
    settle();
  };

  const save = async (): Promise<boolean> => {
    clearTimeout(timer);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const changes = sendable();
      if (changes.length === 0) break;
      // what is sent may have been taken even where no answer comes
      for (const { path, is } of changes) {
        const name = nameOf(path);
        seen.set(name, [...(seen.get(name) ?? []), is]);
      }
      underWay = changes;
      try {
        rebase(await kind.send(changes), changes);
      } catch (error) {
        const current = error instanceof ServerSaid && error.status === 409 ? kind.current(error.body) : null;
        if (current === null) throw error;
        rebase({ ...current, revision: Math.max(current.revision, revision) });
      } finally {
        underWay = null;
        if (later !== null) rebase(later);
        later = null;
      }
    }
    return pending().length === 0;
  };

  const plan = (ms: number): void => {
    if (kind.pauseMs === undefined) return;
    clearTimeout(timer);
    timer = setTimeout(() => send(() => save().then(() => undefined)), ms);
  };

  const asides = keptAside(key);
  for (const { path, is, seen: values } of asides) {
    const name = nameOf(path);
    const now = atPath(base, path);
    if (sameJson(now, is)) continue;
    const known = values.map(({ value }) => value);
    shown.value = withPath(shown.peek(), path, is);
    seen.set(name, known);
    if (!known.some((value) => sameJson(value, now))) {
      const joined = joinedList(known[0], is, now);
      if (joined === undefined) atOdds.set(name, path);
      else {
        shown.value = withPath(shown.peek(), path, joined);
        seen.set(name, [now]);
      }
    }
  }
  if (asides.length > 0) {
    settle();
    plan(0);
  }

  const own = {
    key,
    forget() {
      clearTimeout(timer);
      shown.value = base;
      settle();
      if (kind.pauseMs === undefined) open.delete(own);
    },
    unsaved: () => pending().length > 0,
    leave() {
      if (kind.pauseMs === undefined || sendable().length === 0 || underWay !== null) return;
      void save().catch(() => undefined);
    },
  };
  open.add(own);
  return {
    document: shown,
    saved: computed(() => differs.value === 0),
    change(document, now = false) {
      shown.value = document;
      settle();
      plan(now ? 0 : (kind.pauseMs ?? 0));
    },
    take(fresh) {
      if (underWay === null) rebase(fresh);
      else if (later === null || fresh.revision >= later.revision) later = fresh;
    },
    save,
    forget: own.forget,
  };
}
