/**
 * A shop's or a job's own limits (`*.limits.json`): a deck class, and what is set otherwise.
 *
 *   {"schema": 1, "class": "studio", "limits": {"speed-error": {"good": 0.15, "bad": 0.4, "source": "the owner's wish"}},
 *    "recheck": {"tilt": 0.2}}
 *
 * `recheck`: how much a move may change elsewhere before that is checked again, each in the unit of recheck.ts.
 *
 * @checked limitsFile.test.ts
 */

import { z } from 'zod';
import { type Statement, statement } from '../words/statement.ts';
import { DECK_CLASSES, type DeckClass, deckClasses } from './deckClasses.ts';
import type { Limits } from './limits.ts';
import { RECHECK_CLASSES, type RecheckQuantity, type RecheckTolerances } from './recheck.ts';

const bound = z
  .number({ error: 'a number from 0 to 1000' })
  .min(0, 'a number from 0 to 1000')
  .max(1000, 'a number from 0 to 1000');

const limitsSchema = z.object({
  schema: z.literal(1, { error: '1, the number of the schema that this version reads' }),
  class: z.enum(deckClasses, { error: 'one of "shop", "studio", "archive"' }).default('shop'),
  limits: z
    .record(
      z.string(),
      z.strictObject(
        { good: bound, bad: bound, source: z.string().max(200).optional() },
        { error: 'an object { } with good, bad and, where you like, source' },
      ),
      { error: 'an object { } of quantities' },
    )
    .default({}),
  recheck: z.record(z.string(), bound, { error: 'an object { } of quantities' }).default({}),
});

export interface NamedLimits {
  readonly deckClass: DeckClass;
  readonly limits: Limits;
}

type Outcome = { readonly ok: true; readonly recheck: RecheckTolerances; readonly given: GivenLimits } & NamedLimits;

/** What the file itself says. */
export interface GivenLimits {
  readonly deckClass: DeckClass;
  readonly limits: Readonly<Record<string, { readonly good: number; readonly bad: number }>>;
  readonly recheck: Readonly<Partial<Record<RecheckQuantity, number>>>;
}

/** @param given plain JSON @param name of the file or the place, for the sentence */
function limitsFrom(given: unknown, name: string): Outcome | { readonly ok: false; readonly why: Statement } {
  const read = limitsSchema.safeParse(given);
  if (!read.success) {
    const [issue] = read.error.issues;
    const place = issue.path.length === 0 ? 'the whole' : issue.path.join('.');
    return { ok: false, why: statement('limits-odd', { file: name, place, expected: issue.message }) };
  }
  const table = DECK_CLASSES[read.data.class];
  const limits: Record<string, Limits[string]> = { ...table };
  for (const [quantity, { good, bad, source }] of Object.entries(read.data.limits)) {
    if (!Object.hasOwn(table, quantity)) {
      return {
        ok: false,
        why: statement('limits-none-such', { file: name, name: quantity, names: Object.keys(table).join(', ') }),
      };
    }
    const { sense } = table[quantity];
    if (!(sense === 'below' ? good <= bad : good >= bad)) {
      const order = { file: name, name: quantity, good, bad };
      const why = sense === 'below' ? statement('limits-order-below', order) : statement('limits-order-above', order);
      return { ok: false, why };
    }
    limits[quantity] = { good, bad, sense, source: source ?? `set in ${name}` };
  }
  const recheck: Record<string, RecheckTolerances[RecheckQuantity]> = { ...RECHECK_CLASSES[read.data.class] };
  for (const [quantity, most] of Object.entries(read.data.recheck)) {
    if (!Object.hasOwn(recheck, quantity)) {
      const names = Object.keys(recheck).join(', ');
      return { ok: false, why: statement('recheck-none-such', { file: name, name: quantity, names }) };
    }
    recheck[quantity] = { ...recheck[quantity], most, source: `set in ${name}` };
  }
  return {
    ok: true,
    deckClass: read.data.class,
    limits,
    recheck: recheck as RecheckTolerances,
    given: { deckClass: read.data.class, limits: read.data.limits, recheck: read.data.recheck },
  };
}

/** Reads a limits file's text. */
export function parseLimits(json: string, fileName: string): ReturnType<typeof limitsFrom> {
  let given: unknown;
  try {
    given = JSON.parse(json.replace(/^\uFEFF/, ''));
  } catch {
    return { ok: false, why: statement('limits-not-json', { file: fileName }) };
  }
  return limitsFrom(given, fileName);
}
