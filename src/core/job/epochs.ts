/**
 * What is fitted is a fact with a time. Each fitting begins an epoch: a recording belongs to the one in which it was heard,
 * and figures, advice and predictions of one epoch say nothing of another.
 */

import { z } from 'zod';
import { time } from './api/primitives.ts';
import { MOST_LINE, type Wording, wordsWithin } from './fields/wording.ts';
import type { MoveName } from './moves.ts';
import { stationNames } from './station.ts';

/** What makes another pickup of the same deck when it is exchanged. */
export const fittedKinds = ['cartridge', 'stylus', 'headshell', 'arm', 'preamp'] as const;
export type FittedKind = (typeof fittedKinds)[number];

/** The move that a fitting is, by what is fitted. */
export const moveOfFitting = {
  cartridge: 'change-cartridge',
  stylus: 'change-stylus',
  headshell: 'change-hardware',
  arm: 'change-arm',
  preamp: 'set-load',
} as const satisfies Readonly<Record<FittedKind, MoveName>>;

export const fittedWording: Wording = { label: 'Stylus', most: MOST_LINE, help: 'As its box names it' };
const name = wordsWithin(fittedWording).trim();
/** h; no stylus has run longer */
const hours = z.number().min(0).max(20_000);

export const fittingSchema = z.object({
  id: z.string(),
  /** from when it is on the deck */
  at: z.iso.datetime(),
  station: z.enum(stationNames),
  kind: z.enum(fittedKinds),
  /** as it is called */
  name: z.string(),
  /** what stood there before; '' where nobody said */
  was: z.string(),
  /** of a stylus, or of a cartridge with its own: hours that it had run when it was fitted; null where not known */
  hours: z.number().nullable(),
});
export type Fitting = z.infer<typeof fittingSchema>;

export const newFittingSchema = z.strictObject({
  kind: z.enum(fittedKinds),
  name: name.min(1, { error: 'the name of what is fitted was expected' }),
  was: name.default(''),
  station: z.enum(stationNames).default('match'),
  hours: hours.nullable().default(null),
  /** left out: now */
  at: time.optional(),
});
export type NewFitting = z.input<typeof newFittingSchema>;

/** The epoch before anything was exchanged. */
export const AS_RECEIVED = 'as-received';

export interface Epoch {
  /** id of the fitting that began it, or `AS_RECEIVED` */
  readonly id: string;
  /** ISO time; null for the first */
  readonly began: string | null;
  /** what that fitting exchanged; null for the first */
  readonly changed: FittedKind | null;
  /** names of what was on the deck, where somebody said */
  readonly fitted: Readonly<Partial<Record<FittedKind, string>>>;
}

/** A new cartridge brings its own stylus. */
const exchanges = (kind: FittedKind): readonly FittedKind[] =>
  kind === 'cartridge' ? ['cartridge', 'stylus'] : [kind];

/** The epochs of a job, oldest first; there is always one. */
export function epochsOf(fittings: readonly Fitting[]): readonly [Epoch, ...Epoch[]] {
  const inOrder = [...fittings].sort((a, b) => a.at.localeCompare(b.at));
  const received: Partial<Record<FittedKind, string>> = {};
  for (const { kind, was } of [...inOrder].reverse()) {
    // what stood there before the first exchange of a kind; a stylus that came with a later cartridge was not there
    if (was !== '') received[kind] = was;
    if (kind === 'cartridge') delete received.stylus;
  }
  const epochs: [Epoch, ...Epoch[]] = [{ id: AS_RECEIVED, began: null, changed: null, fitted: received }];
  for (const { id, at, kind, name: fittedName } of inOrder) {
    const before = epochs[epochs.length - 1].fitted;
    const kept = Object.entries(before).filter(([there]) => !exchanges(kind).includes(there as FittedKind));
    epochs.push({ id, began: at, changed: kind, fitted: { ...Object.fromEntries(kept), [kind]: fittedName } });
  }
  return epochs;
}

/** The epoch that a moment lies in. @param at ISO time */
export const epochAt = (epochs: readonly [Epoch, ...Epoch[]], at: string): Epoch =>
  epochs.filter(({ began }) => began === null || began <= at).at(-1) ?? epochs[0];

export const epochNow = (epochs: readonly [Epoch, ...Epoch[]]): Epoch => epochs.at(-1) ?? epochs[0];
