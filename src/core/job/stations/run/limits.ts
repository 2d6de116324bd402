/**
 * The limits of a job: a deck class and what is set otherwise, as typed at Run, over what the shop has set for all its jobs.
 *
 * A class that the job names is taken as it stands: the shop's own limits were set beside the shop's class. The job's own go over either.
 *
 * @checked limits.test.ts
 */

import { z } from 'zod';
import { DECK_CLASSES, type DeckClass, deckClasses } from '../../../advise/deckClasses.ts';
import type { Limit } from '../../../advise/limits.ts';
import type { NamedLimits } from '../../../advise/limitsFile.ts';
import {
  RECHECK_CLASSES,
  type RecheckQuantity,
  type RecheckTolerance,
  type RecheckTolerances,
} from '../../../advise/recheck.ts';
import { capital } from '../../../words/capital.ts';
import { tightUnit, unitSign } from '../../../words/figure.ts';
import { tidy } from '../../../words/number.ts';
import { quantities } from '../../../words/quantities.ts';
import { type Statement, statement } from '../../../words/statement.ts';
import { chosen } from '../../fields/chosen.ts';
import type { Field } from '../../fields/field.ts';
import { readQuantity } from '../../fields/quantity.ts';
import { fieldText, oneOf, type TypedBy } from '../stationModel.ts';

export const deckClassChoice = chosen(
  'Deck class',
  Object.fromEntries(deckClasses.map((name) => [name, name])) as Record<DeckClass, string>,
);

export const limitsTypedSchema = z.strictObject({
  class: oneOf(deckClassChoice).optional(),
  /** by quantity; names that this version does not know are kept and unused */
  own: z
    .record(z.string().max(60), z.strictObject({ good: fieldText.optional(), bad: fieldText.optional() }))
    .optional(),
  /** how much change elsewhere needs no second look, by quantity */
  recheck: z.record(z.string().max(60), fieldText).optional(),
});
export type LimitsTyped = TypedBy<typeof limitsTypedSchema>;

/** Quantities that have limits, in the order of the table. */
export const limitedQuantities = Object.keys(DECK_CLASSES.shop);

export const limitUnit = (quantity: string): string =>
  Object.hasOwn(quantities, quantity) ? quantities[quantity].unit : '';

/** @param edge `good`: the last good figure; `bad`: bad beyond it */
export function limitField(quantity: string, edge: 'good' | 'bad'): Field {
  const above = DECK_CLASSES.shop[quantity].sense === 'above';
  const label = edge === 'good' ? (above ? 'good from' : 'good up to') : above ? 'bad under' : 'bad beyond';
  return { label, unit: limitUnit(quantity), min: 0, max: 1000 };
}

/** Both edges of one quantity, by names that stand alone. */
export function limitFields(quantity: string): Record<'good' | 'bad', { readonly label: string }> {
  const named = (edge: 'good' | 'bad') => {
    const known = Object.hasOwn(DECK_CLASSES.shop, quantity);
    return { label: `${titleOf(quantity)}, ${known ? limitField(quantity, edge).label : edge}` };
  };
  return { good: named('good'), bad: named('bad') };
}

/** Quantities with a tolerance, in the order of the table. */
export const recheckQuantities = Object.keys(RECHECK_CLASSES.shop) as readonly RecheckQuantity[];

const recheckNames: Readonly<Record<RecheckQuantity, string>> = {
  'tracking-force': 'tracking force',
  overhang: 'overhang',
  offset: 'twist',
  'pivot-distance': 'spindle to pivot',
  'vertical-angle': 'vertical tracking angle',
  tilt: 'tilt',
  threads: 'threads engaged',
};

export const recheckField = (quantity: RecheckQuantity): Field => ({
  label: capital(recheckNames[quantity]),
  unit: RECHECK_CLASSES.shop[quantity].unit,
  min: 0,
  max: 100,
});

const isRecheck = (quantity: string): quantity is RecheckQuantity => Object.hasOwn(RECHECK_CLASSES.shop, quantity);

/** By any name that may be kept. */
export const recheckLabel = (quantity: string): { readonly label: string } => ({
  label: `${isRecheck(quantity) ? recheckField(quantity).label : quantity}, checked again beyond`,
});

function mostTold({ most, unit }: RecheckTolerance): string {
  const [number, sign] = [tidy(Number(most.toFixed(6))), unitSign(unit)];
  return sign === '' || tightUnit(sign) ? number + sign : `${number} ${sign}`;
}

/** "tracking force 0.2 mN, overhang 0.5 mm, …" */
export const recheckTold = (
  recheck: RecheckTolerances,
  names: readonly RecheckQuantity[] = recheckQuantities,
): string => names.map((name) => `${recheckNames[name]} ${mostTold(recheck[name])}`).join(', ');

export interface ChosenLimits extends NamedLimits {
  /** who named the class; null where nobody did */
  readonly classBy: 'job' | 'shop' | null;
  /** quantities with a limit of their own */
  readonly own: readonly string[];
  /** how much a move may change elsewhere before that is looked at again */
  readonly recheck: RecheckTolerances;
  /** quantities with a tolerance of their own */
  readonly recheckOwn: readonly RecheckQuantity[];
  /** what is typed and cannot be used */
  readonly faults: readonly Statement[];
}

const titleOf = (quantity: string): string =>
  Object.hasOwn(quantities, quantity) ? quantities[quantity].title : quantity;

/** One quantity's limit with what is typed over it; the fault where that cannot be. */
function over(
  quantity: string,
  under: Limit,
  typed: { readonly good?: string; readonly bad?: string },
  source: string,
) {
  const read = (edge: 'good' | 'bad') => readQuantity(typed[edge], limitField(quantity, edge));
  const [good, bad] = [read('good'), read('bad')];
  for (const one of [good, bad])
    if ('wrong' in one) return { fault: statement('field-wrong', { label: titleOf(quantity), why: one.wrong }) };
  if ('empty' in good && 'empty' in bad) return {};
  const limit: Limit = {
    good: 'value' in good ? good.value : under.good,
    bad: 'value' in bad ? bad.value : under.bad,
    sense: under.sense,
    source,
  };
  const inOrder = limit.sense === 'below' ? limit.good <= limit.bad : limit.good >= limit.bad;
  if (inOrder) return { limit };
  const order = limit.sense === 'below' ? 'limit-order-below' : 'limit-order-above';
  return { fault: statement(order, { limit: titleOf(quantity), good: limit.good, bad: limit.bad }) };
}

export function chosenLimits(job: LimitsTyped = {}, shop: LimitsTyped = {}): ChosenLimits {
  const classBy = job.class !== undefined ? 'job' : shop.class !== undefined ? 'shop' : null;
  const deckClass: DeckClass = job.class ?? shop.class ?? 'shop';
  const limits: Record<string, Limit> = { ...DECK_CLASSES[deckClass] };
  const own = new Set<string>();
  const recheck: Record<RecheckQuantity, RecheckTolerance> = { ...RECHECK_CLASSES[deckClass] };
  const recheckOwn = new Set<RecheckQuantity>();
  const faults: Statement[] = [];
  const layers = [
    ...(job.class === undefined ? [{ typed: shop, source: 'set by this shop' }] : []),
    { typed: job, source: 'set for this job' },
  ];
  for (const { typed, source } of layers) {
    for (const quantity of limitedQuantities) {
      const given = typed.own?.[quantity];
      if (given === undefined) continue;
      const { limit, fault } = over(quantity, limits[quantity], given, source);
      if (fault !== undefined) faults.push(fault);
      if (limit === undefined) continue;
      limits[quantity] = limit;
      own.add(quantity);
    }
    for (const quantity of recheckQuantities) {
      const field = recheckField(quantity);
      const read = readQuantity(typed.recheck?.[quantity], field);
      if ('wrong' in read) faults.push(statement('field-wrong', { label: field.label, why: read.wrong }));
      if (!('value' in read)) continue;
      recheck[quantity] = { ...recheck[quantity], most: read.value, source };
      recheckOwn.add(quantity);
    }
  }
  return {
    deckClass,
    limits,
    classBy,
    own: limitedQuantities.filter((q) => own.has(q)),
    recheck,
    recheckOwn: recheckQuantities.filter((q) => recheckOwn.has(q)),
    faults,
  };
}

/** The limits of a job in one line each: the class, then each that is set otherwise, with who set it. */
export function limitLines({ deckClass, limits, classBy, own, recheck, recheckOwn }: ChosenLimits): readonly string[] {
  const by = classBy === 'shop' ? ', set by this shop' : '';
  return [
    `Deck class ${deckClass}${by}`,
    ...own.map((quantity) => {
      const { good, bad, source } = limits[quantity];
      const edge = (which: 'good' | 'bad', value: number) =>
        `${limitField(quantity, which).label} ${tidy(value)} ${limitUnit(quantity)}`.trim();
      return `${titleOf(quantity)}: ${edge('good', good)}, ${edge('bad', bad)} (${source})`;
    }),
    ...recheckOwn.map((name) => `checked again beyond ${recheckTold(recheck, [name])} (${recheck[name].source})`),
  ];
}
