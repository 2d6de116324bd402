/**
 * Plain JSON read against a table of fields: every key has its default and its bounds, a key that is not in the table is
 * refused. The table is the only place where a field is declared; the TypeScript type follows from it.
 */
import { shortJson } from '../units/shortJson.ts';

export interface NumberField {
  readonly kind: 'number';
  readonly initial: number;
  readonly min: number;
  readonly max: number;
  readonly integer: boolean;
}
export interface FlagField {
  readonly kind: 'flag';
  readonly initial: boolean;
}
export interface TextField {
  readonly kind: 'text';
  readonly initial: string;
}
export interface ChoiceField<T> {
  readonly kind: 'choice';
  readonly initial: T;
  readonly choices: readonly T[];
}
export interface ListField<S> {
  readonly kind: 'list';
  readonly item: S;
}
/** null (the default) where the thing is absent */
export interface MaybeField<S> {
  readonly kind: 'maybe';
  readonly inner: S;
}
export interface GroupField<G> {
  readonly kind: 'group';
  readonly fields: G;
}

type AnyField =
  | NumberField
  | FlagField
  | TextField
  | ChoiceField<unknown>
  | ListField<unknown>
  | MaybeField<unknown>
  | GroupField<Record<string, unknown>>;

export type ValueOf<S> = S extends NumberField
  ? number
  : S extends FlagField
    ? boolean
    : S extends TextField
      ? string
      : S extends ChoiceField<infer T>
        ? T
        : S extends ListField<infer I>
          ? readonly ValueOf<I>[]
          : S extends MaybeField<infer I>
            ? ValueOf<I> | null
            : S extends GroupField<infer G>
              ? { readonly [K in keyof G]: ValueOf<G[K]> }
              : never;

/** What a person may write: every key may be left out. */
export type PartialOf<S> =
  S extends ListField<infer I>
    ? readonly PartialOf<I>[]
    : S extends MaybeField<infer I>
      ? PartialOf<I> | null
      : S extends GroupField<infer G>
        ? { readonly [K in keyof G]?: PartialOf<G[K]> }
        : ValueOf<S>;

export const number = (initial: number, min: number, max: number): NumberField => ({
  kind: 'number',
  initial,
  min,
  max,
  integer: false,
});
export const integer = (initial: number, min: number, max: number): NumberField => ({
  kind: 'number',
  initial,
  min,
  max,
  integer: true,
});
export const flag = (initial: boolean): FlagField => ({ kind: 'flag', initial });
export const text = (initial: string): TextField => ({ kind: 'text', initial });
export const choice = <const T>(initial: T, ...others: readonly T[]): ChoiceField<T> => ({
  kind: 'choice',
  initial,
  choices: [initial, ...others],
});
export const list = <S>(item: S): ListField<S> => ({ kind: 'list', item });
export const maybe = <S>(inner: S): MaybeField<S> => ({ kind: 'maybe', inner });
export const group = <G>(fields: G): GroupField<G> => ({ kind: 'group', fields });

/** A value as a person would recognise it, cut short. */
export function shown(value: unknown): string {
  return typeof value === 'number' ? String(value) : (shortJson(value, 40) ?? String(value));
}

/**
 * @param given plain JSON; undefined takes the defaults
 * @param at name of the value in messages, as `platter.wow[0]`
 * @throws RangeError naming the key, the value and what was expected
 */
export function readFields<S>(field: S, given: unknown, at: string): ValueOf<S> {
  return readAny(field as unknown as AnyField, given, at) as ValueOf<S>;
}

function readAny(field: AnyField, given: unknown, at: string): unknown {
  const refuse = (expected: string): never => {
    throw new RangeError(`${at === '' ? '' : `${at}: `}${shown(given)} given, expected ${expected}`);
  };
  switch (field.kind) {
    case 'number': {
      if (given === undefined) return field.initial;
      const fits = typeof given === 'number' && given >= field.min && given <= field.max;
      if (!fits || (field.integer && !Number.isInteger(given))) {
        return refuse(`${field.integer ? 'an integer' : 'a number'} from ${field.min} to ${field.max}`);
      }
      return given;
    }
    case 'flag':
      if (given === undefined) return field.initial;
      return typeof given === 'boolean' ? given : refuse('true or false');
    case 'text':
      if (given === undefined) return field.initial;
      return typeof given === 'string' ? given : refuse('text');
    case 'choice':
      if (given === undefined) return field.initial;
      return field.choices.includes(given)
        ? given
        : refuse(field.choices.map((one: unknown) => shown(one)).join(' or '));
    case 'list':
      if (given === undefined) return [];
      if (!Array.isArray(given)) return refuse('a list in [ ]');
      return given.map((item, index) => readAny(field.item as AnyField, item, `${at}[${index}]`));
    case 'maybe':
      return given === undefined || given === null ? null : readAny(field.inner as AnyField, given, at);
    case 'group': {
      if (given !== undefined && (typeof given !== 'object' || given === null || Array.isArray(given))) {
        return refuse('an object in { }');
      }
      const from = (given ?? {}) as Record<string, unknown>;
      for (const key of Object.keys(from)) {
        if (!Object.hasOwn(field.fields, key)) {
          const where = at === '' ? key : `${at}.${key}`;
          throw new RangeError(`${where}: no such key; there are ${Object.keys(field.fields).join(', ')}`);
        }
      }
      return Object.fromEntries(
        Object.entries(field.fields).map(([key, inner]) => [
          key,
          readAny(inner as AnyField, from[key], at === '' ? key : `${at}.${key}`),
        ]),
      );
    }
  }
}
