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
  type LeafChange,
  type LeafConflict,
  type LeafPath,
  leafChanges,
  withPath,
} from '../core/job/leafPaths.ts';
import { sameJson } from '../core/job/sameJson.ts';
import { ServerSaid } from './api.ts';
import { send } from './connection.ts';
import { keepAside, keptAside, keysAside } from './draftAside.ts';
import { DraftLeaves } from './draftLeaves.ts';

export type Document = Parameters<typeof withPath>[0];

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

const MOST_ROUNDS = 5;

/** Choices that wait for a person, of all drafts. */
export const choices: Signal<readonly Choice[]> = signal([]);

const open = new Set<OpenDraft>();
/** True while something typed has not reached the disk. */
export const anythingUnsaved = (): boolean => [...open].some((draft) => draft.unsaved());
addEventListener('pagehide', () => {
  for (const draft of open) draft.leave();
});

/** Nothing typed for what was deleted stays in this browser. @param about keys of its drafts */
export function forgetAside(about: (key: string) => boolean): void {
  for (const draft of [...open]) if (about(draft.key)) draft.forget();
  for (const key of keysAside('').filter(about)) keepAside(key, []);
}

/** @param told what the server has as far as it is known */
export const openDraft = (kind: DraftKind, told: Told): Draft => new OpenDraft(kind, told);

const touches = (path: LeafPath, other: LeafPath): boolean =>
  path.every((step, i) => i >= other.length || step === other[i]);

class OpenDraft implements Draft {
  readonly document: Signal<Document>;
  readonly saved: ReadonlySignal<boolean>;
  readonly key: string;
  private readonly kind: DraftKind;
  private readonly differs = signal(0);
  private readonly leaves = new DraftLeaves();
  private base: Document;
  private revision: number;
  private underWay = false;
  private later: Told | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(kind: DraftKind, told: Told) {
    this.kind = kind;
    this.key = kind.key;
    this.base = told.document;
    this.revision = told.revision;
    this.document = signal(this.base);
    this.saved = computed(() => this.differs.value === 0);
    this.takeUp();
    open.add(this);
  }

  change(document: Document, now = false): void {
    this.document.value = document;
    this.settle();
    this.plan(now ? 0 : (this.kind.pauseMs ?? 0));
  }

  take(fresh: Told): void {
    if (!this.underWay) this.rebase(fresh);
    else if (this.later === null || fresh.revision >= this.later.revision) this.later = fresh;
  }

  async save(): Promise<boolean> {
    clearTimeout(this.timer);
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const changes = this.sendable();
      if (changes.length === 0) break;
      this.leaves.sent(changes);
      this.underWay = true;
      try {
        this.rebase(await this.kind.send(changes), changes);
      } catch (error) {
        const current = error instanceof ServerSaid && error.status === 409 ? this.kind.current(error.body) : null;
        if (current === null) throw error;
        this.rebase({ ...current, revision: Math.max(current.revision, this.revision) });
      } finally {
        this.underWay = false;
        if (this.later !== null) this.rebase(this.later);
        this.later = null;
      }
    }
    return this.pending().length === 0;
  }

  forget(): void {
    clearTimeout(this.timer);
    this.document.value = this.base;
    this.settle();
    if (this.kind.pauseMs === undefined) open.delete(this);
  }

  unsaved(): boolean {
    return this.pending().length > 0;
  }

  /** The page is left. */
  leave(): void {
    if (this.kind.pauseMs === undefined || this.sendable().length === 0 || this.underWay) return;
    void this.save().catch(() => undefined);
  }

  private pending(): readonly LeafChange[] {
    return leafChanges(this.base, this.document.peek(), this.kind.wholes);
  }

  private sendable(): readonly LeafChange[] {
    const held = this.kind.cannotKeep?.(this.document.peek()) ?? [];
    return this.pending().filter(
      ({ path }) => !this.leaves.isAtOdds(path) && !held.some((other) => touches(path, other)),
    );
  }

  private plan(ms: number): void {
    if (this.kind.pauseMs === undefined) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => send(() => this.save().then(() => undefined)), ms);
  }

  /** After every change of what is shown or known. */
  private settle(): void {
    const changes = this.pending();
    this.leaves.keep(changes);
    this.differs.value = changes.length;
    keepAside(
      this.key,
      changes.map((change) => this.leaves.aside(change)),
    );
    const own = changes.filter(({ path }) => this.leaves.isAtOdds(path));
    const others = choices.peek().filter((choice) => choice.draft !== this.key);
    if (own.length === 0 && others.length === choices.peek().length) return;
    choices.value = [...others, ...own.map((change) => this.choiceOf(change))];
  }

  private choiceOf({ path, was, is }: LeafChange): Choice {
    const chosen = (): void => {
      this.settle();
      this.plan(0);
    };
    return {
      draft: this.key,
      path,
      label: this.kind.label(path),
      named: (value) => this.kind.named?.(path, value),
      yours: is,
      theirs: was,
      keepMine: () => {
        this.leaves.chosen(path, { value: was });
        chosen();
      },
      takeOther: () => {
        this.leaves.chosen(path);
        this.document.value = withPath(this.document.peek(), path, atPath(this.base, path));
        chosen();
      },
    };
  }

  /** @param sent changes that the server is known to have taken */
  private rebase(fresh: Told, sent: readonly LeafChange[] = []): void {
    if (fresh.revision < this.revision) return;
    const { leaves, kind } = this;
    const known = sent.reduce((document, { path, is }) => withPath(document, path, is), this.base);
    let next = fresh.document;
    for (const change of leafChanges(known, this.document.peek(), kind.wholes)) {
      const { path, is } = change;
      const now = atPath(fresh.document, path);
      if (sameJson(now, is)) continue;
      if (leaves.isKnown(change, now)) {
        leaves.over(path, now);
        next = withPath(next, path, is);
      } else if (!kind.yields?.(path)) next = withPath(next, path, leaves.met(change, now));
    }
    this.revision = fresh.revision;
    this.base = fresh.document;
    if (!sameJson(next, this.document.peek())) this.document.value = next;
    this.settle();
  }

  /** What this browser held of it when the page was left. */
  private takeUp(): void {
    const asides = keptAside(this.key);
    for (const aside of asides) {
      const now = atPath(this.base, aside.path);
      if (sameJson(now, aside.is)) continue;
      this.document.value = withPath(this.document.peek(), aside.path, this.leaves.takeUp(aside, now));
    }
    if (asides.length === 0) return;
    this.settle();
    this.plan(0);
  }
}
